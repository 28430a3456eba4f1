/** Teams enter themselves: the link, the draft, minors, photographs, the organiser's answer, and how people's data go. */
import { readFileSync } from "node:fs";
import sharp from "sharp";
import { beforeAll, expect, test } from "vitest";
import { expirePeople, verifyScorebook } from "@/lib/contest";
import { sqlitePath } from "@/lib/db";
import { engine } from "@/tests/database";
import { expecting, type Fair, newFair, rowCounts, send, signIn } from "./fair";
import { beginEntry, CAPTAIN, fullDraft, later, newLink, newSecret } from "./team-entries";

let fair: Fair;
let photograph: Buffer;
beforeAll(async () => {
  fair = await newFair(2);
  photograph = await sharp({ create: { width: 320, height: 200, channels: 3, background: "#a63" } })
    .withExif({ IFD0: { Artist: "Odalys Brand" } })
    .jpeg()
    .toBuffer();
});

const bearer = (token: string) => ({ headers: { authorization: `Bearer ${token}` } });
const minor = {
  id: "minor-0123456789ab",
  name: "Pim Brand",
  ofAge: false,
  guardianName: "Ros Brand",
  guardianContact: "+00 555 0101",
};
const officer = () => fair.as("safety-officer");
const organiser = () => fair.as("organiser");
const textsOf = (missing: { text: string }[]) => missing.map(({ text }) => text);

test("a team enters itself, and becomes entrant, machine, revision and badge in one act", async () => {
  const link = await newLink(fair);
  const invitation = await expecting(200, "GET", `${fair.base}/entry-invitation`, bearer(link.token));
  expect(invitation).toMatchObject({ closed: null, keptUntil: "2031-12-03" });

  const team = await beginEntry(fair, link.token);
  const begun = (await team.read()).entry;
  expect(begun.state).toBe("draft");
  expect(textsOf(begun.missing).slice(0, 2)).toEqual([
    "Team name: enter the name that the public sees.",
    "Division: choose the one that you throw in.",
  ]);
  const incomplete = await team.ask(422, "POST", "/sending");
  expect(incomplete.errors.map(({ field }: { field: string }) => field)).toContain("machine");

  await team.save(fullDraft(fair));
  const { sheet, air } = await team.ask(200, "GET", "/sheet");
  expect(sheet.exclusion.forward).toBeGreaterThan(60);
  expect(air).toEqual((await expecting(200, "GET", fair.base)).air);
  expect((await team.photograph(photograph)).status).toBe(201);
  await team.ask(200, "POST", "/sending");

  const { entries } = await officer()(200, "GET", "/entries");
  expect(entries).toMatchObject([{ state: "sent", team: "Fence Post Society", missing: [], photographs: 1 }]);
  const before = await rowCounts(fair.db);
  const { id, version } = entries[0];
  const accepted = await organiser()(201, "POST", `/entries/${id}/acceptance`, { version });
  const after = await rowCounts(fair.db);
  for (const table of ["entrant", "machine", "machineRevision", "badge"])
    expect(after[table], table).toBe((before[table] ?? 0) + 1);
  const session = await signIn(accepted.badge.code);
  const page = await expecting(200, "GET", `${fair.base}/machines/${accepted.entry.machineId}`, {
    as: session,
  });
  expect(page.entrant).toMatchObject({ name: "Fence Post Society", number: 3 });
  expect(page.revisions).toHaveLength(1);
  expect((await team.read()).entry.state).toBe("accepted");
  await team.ask(409, "PUT", "", { ...fullDraft(fair), version: version + 1 });
  // What is gone already adds no line to the scorebook, however often it is asked for.
  const lines = await fair.db.scorebookEntry.count();
  for (const erased of [2, 0, 0]) expect(await team.ask(200, "POST", "/withdrawal")).toEqual({ erased });
  expect(await fair.db.scorebookEntry.count()).toBe(lines + 1);
  await organiser()(409, "POST", `/entries/${id}/acceptance`, { version: version + 1 });
});

test("a minor's consent and the insurance hold up the acceptance, not the sending, and may follow", async () => {
  const { token } = await newLink(fair);
  const team = await beginEntry(fair, token);
  const names = { team: "Young Oaks", machineName: "Acorn" };
  const uninsured = { insurer: "", number: "", validUntil: null, coversThrowing: false };
  const draft = fullDraft(fair, {
    ...names,
    insurance: uninsured,
    people: [{ ...CAPTAIN, id: "captain-of-the-oaks" }, minor],
  });
  await team.save(draft);
  await team.ask(200, "POST", "/sending");
  const { id, version } = (await team.read()).entry;
  const refused = await organiser()(409, "POST", `/entries/${id}/acceptance`, { version });
  expect(refused.errors.map(({ field }: { field: string }) => field).sort()).toEqual([
    "insurance",
    "insurance",
    "insurance",
    "insurance",
    "people",
  ]);
  expect(refused.errors[0].message).toContain("Pim Brand: the guardian’s consent is missing");
  const answer = "Pim's guardian has not signed yet.";
  await organiser()(200, "POST", `/entries/${id}/return`, { version, answer });
  expect((await team.read()).entry).toMatchObject({ state: "returned", answer });

  const { consentText } = (await team.read()).invitation;
  const agreed = (agreedTo: string, guardianName = minor.guardianName) => [
    draft.people[0],
    { ...minor, guardianName, agreedTo },
  ];
  const { insurance } = fullDraft(fair);
  const next = (await team.read()).entry.version;
  const other = { ...draft, insurance, people: agreed("Whatever"), version: next };
  expect((await team.ask(422, "PUT", "", other)).detail).toContain("text for the guardian has changed");
  await team.save({ ...draft, insurance, people: agreed(consentText) });
  const kept = (await team.read()).entry;
  expect(kept.people[1]).toMatchObject({ agreedTo: consentText });
  expect(Date.parse(kept.people[1].consentAt)).toBeGreaterThan(Date.now() - 60_000);
  // It is the consent of this guardian: another one reads it anew.
  await team.save({
    ...draft,
    insurance,
    people: [draft.people[0], { ...minor, guardianName: "Somebody else" }],
  });
  expect((await team.read()).entry.people[1].consentAt).toBeNull();

  // Or on paper, once the organiser has the signed form in hand.
  const byPaper = [draft.people[0], { ...minor, consentWay: "paper" }];
  await team.save({ ...draft, insurance, people: byPaper });
  expect(textsOf((await team.read()).entry.missing)[0]).toContain("organiser has not seen the form");
  await team.ask(200, "POST", "/sending");
  // The form in hand names whom the organiser has read, not who stands there since.
  const read = (await team.read()).entry.version;
  await team.save({ ...draft, insurance, people: [draft.people[0], { ...byPaper[1], name: "Pip Brand" }] });
  const form = `/entries/${id}/people/${minor.id}/form-seen`;
  expect((await organiser()(409, "POST", form, { version: read })).code).toBe("changed-meanwhile");
  const mended = await team.save({ ...draft, insurance, people: byPaper });
  const lines = await fair.db.scorebookEntry.count();
  const seen = await organiser()(200, "POST", form, { version: mended });
  // The public book would tell for good which team has a minor.
  expect(await fair.db.scorebookEntry.count()).toBe(lines);
  // What was signed was signed for these days.
  await organiser()(200, "PATCH", "", { date: "2031-10-03" });
  const off = await organiser()(409, "POST", `/entries/${id}/acceptance`, { version: seen.version });
  expect(off.errors).toMatchObject([{ message: expect.stringContaining("for the contest’s days") }]);
  await organiser()(200, "PATCH", "", { date: "2031-10-04" });
  const accepted = await organiser()(201, "POST", `/entries/${id}/acceptance`, { version: seen.version });
  expect(accepted.entry.state).toBe("accepted");
});

test("a draft is never overwritten unseen, and nothing is half written", async () => {
  const { token } = await newLink(fair);
  const team = await beginEntry(fair, token);
  await team.save(fullDraft(fair, { team: "First", people: [{ ...CAPTAIN, id: "captain-of-the-first" }] }));
  const late = await team.ask(409, "PUT", "", { ...fullDraft(fair, { team: "Late" }), version: 1 });
  expect(late.code).toBe("changed-meanwhile");
  // The second person's id belongs to another entry: the first is not kept either.
  const { version } = (await team.read()).entry;
  const people = [{ ...CAPTAIN, id: "captain-of-the-first", name: "New name" }, minor];
  await team.ask(422, "PUT", "", { ...fullDraft(fair, { people }), version });
  expect((await team.read()).entry.people).toMatchObject([{ name: CAPTAIN.name }]);
  const wrong = await team.ask(422, "PUT", "", { ...fullDraft(fair), version, insurance: { insurer: 7 } });
  expect(wrong.errors[0].field).toBe("insurance.insurer");
  // Begun again under the same secret after a lost answer: the same entry.
  const again = await expecting(201, "POST", `${fair.base}/entries`, {
    ...bearer(token),
    body: { secret: team.secret },
  });
  expect(again.version).toBe(version);
  await team.ask(200, "POST", "/withdrawal");
  await team.ask(404, "GET", "");
});

test("a link ends, is closed, or is used up; and without the right token nothing opens", async () => {
  const one = await newLink(fair, { most: 1 });
  await beginEntry(fair, one.token);
  const begin = (token: string) =>
    send("POST", `${fair.base}/entries`, { ...bearer(token), body: { secret: newSecret() } });
  const detail = async (response: Response) => [response.status, (await response.json()).detail];
  expect(await detail(await begin(one.token))).toEqual([
    409,
    expect.stringContaining("entries of this link are taken"),
  ]);
  const two = await newLink(fair);
  const team = await beginEntry(fair, two.token);
  await team.save(
    fullDraft(fair, {
      team: "Too late",
      machineName: "Snail",
      people: [{ ...CAPTAIN, id: "captain-of-the-late" }],
    }),
  );
  await organiser()(200, "PATCH", `/entry-links/${two.id}`, { open: false });
  expect(await detail(await begin(two.token))).toEqual([409, expect.stringContaining("has closed entries")]);
  expect((await team.ask(409, "POST", "/sending")).code).toBe("entries-closed");
  await organiser()(200, "PATCH", `/entry-links/${two.id}`, { open: true, endsAt: later(1) });
  await team.ask(200, "POST", "/sending");
  expect((await organiser()(422, "PATCH", `/entry-links/${two.id}`, { endsAt: later(-1) })).detail).toContain(
    "endsAt",
  );
  for (const token of [newSecret(), "short", team.secret])
    await expecting(404, "GET", `${fair.base}/entry-invitation`, bearer(token));
  for (const path of ["/own", "/own/photographs/any"])
    await expecting(404, "GET", `${fair.base}/entries${path}`, bearer(two.token));
  const stored = await fair.db.entryLink.findMany();
  expect(JSON.stringify(stored)).not.toContain(two.token);
});

test("photographs are kept drawn anew, for those who may see them, by no cache", async () => {
  const { token } = await newLink(fair);
  const team = await beginEntry(fair, token);
  const { id } = (await team.read()).entry;
  const added = await (await team.photograph(photograph, "insurance")).json();
  expect(added).toMatchObject({ subject: "insurance", width: 320, height: 200 });
  // The same again after a lost answer is the same.
  expect(await (await team.photograph(photograph, "insurance")).json()).toEqual(added);
  const bad = await (await team.photograph(photograph.subarray(0, photograph.length / 2))).json();
  expect([bad.status, bad.errors[0].field]).toEqual([422, "photograph"]);

  const path = `/entries/${id}/photographs/${added.id}`;
  for (const [who, status] of [
    [null, 401],
    ["judge", 403],
    ["team", 403],
    ["organiser", 200],
    ["safety-officer", 200],
  ] as const) {
    const answer = await send("GET", `${fair.base}${path}`, { as: who && fair.tokens[who] });
    expect(answer.status, String(who)).toBe(status);
    expect(answer.headers.get("cache-control")).toMatch(/no-store/);
    if (status !== 200) continue;
    expect(answer.headers.get("content-type")).toBe("image/jpeg");
    expect(answer.headers.get("x-content-type-options")).toBe("nosniff");
    expect(Buffer.from(await answer.arrayBuffer()).includes("Odalys")).toBe(false);
  }
  expect(
    (await send("GET", `${fair.base}/entries/own/photographs/${added.id}`, bearer(team.secret))).status,
  ).toBe(200);
  const other = await beginEntry(fair, token);
  expect(
    (await send("GET", `${fair.base}/entries/own/photographs/${added.id}`, bearer(other.secret))).status,
  ).toBe(404);
  await team.ask(200, "POST", `/photographs/${added.id}/removal`, {});
  expect((await team.read()).entry.photographs).toEqual([]);

  for (let count = 0; count < 8; count++) {
    const shade = await sharp({
      create: { width: 70, height: 70, channels: 3, background: { r: count * 9, g: 9, b: 9 } },
    })
      .jpeg()
      .toBuffer();
    expect((await other.photograph(shade)).status).toBe(201);
    // The answer to the last that there is room for may get lost as well.
    if (count === 7) expect((await other.photograph(shade)).status).toBe(201);
  }
  const ninth = await (await other.photograph(photograph)).json();
  expect([ninth.status, ninth.code]).toEqual([409, "enough-photographs"]);

  // Sizes as they would be: the disk is not to be filled for a test.
  const { id: entryId } = (await team.read()).entry;
  const shape = { subject: "machine", width: 9, height: 9, sha256: "none", createdAt: new Date() };
  const content = new Uint8Array([0]);
  const large = { id: "large", entryId, size: 299_999_900, content, ...shape };
  await fair.db.entryPhotograph.create({ data: large });
  const full = await (await team.photograph(photograph)).json();
  expect([full.status, full.code]).toEqual([409, "photographs-full"]);
  await fair.db.entryPhotograph.delete({ where: { id: "large" } });
  const stranger = { ...bearer(newSecret()), bytes: photograph };
  expect((await send("POST", `${fair.base}/entries/own/photographs`, stranger)).status).toBe(404);
});

test("people's data go by the organiser's word or with their time, out of the database's file too; the chain holds", async () => {
  const { token } = await newLink(fair, { keepDays: 10 });
  const team = await beginEntry(fair, token);
  const people = [
    { ...CAPTAIN, id: "captain-to-be-erased", name: "Wilhelmina Ferncastle" },
    { ...CAPTAIN, id: "second-to-be-erased", name: "Ignatius Ferncastle", captain: false },
  ];
  await team.save(fullDraft(fair, { team: "Fern", machineName: "Frond", people }));
  await team.photograph(photograph);
  await team.ask(200, "POST", "/sending");
  const { id } = (await team.read()).entry;
  const [, second] = people;
  await organiser()(200, "POST", `/entries/${id}/erasure`, { personId: second?.id });
  expect((await team.read()).entry.people).toHaveLength(1);

  // Its last day is the tenth after the contest's last one, 4 October.
  await fair.as("judge")(201, "POST", "/range/tags", { name: "Perpetua Ferncastle" });
  const [tag] = (await fair.as("judge")(200, "GET", "/range/tags")).out;
  await expirePeople(fair.db, new Date("2031-10-14T12:00:00Z"));
  expect((await fair.as("judge")(200, "GET", "/range/tags")).out[0].name).toContain("Perpetua");
  await fair.as("judge")(200, "POST", `/range/tags/${tag.id}/in`, {});
  expect((await team.read()).entry.people).toHaveLength(1);
  await expirePeople(fair.db, new Date("2031-10-15T00:00:00Z"));
  const { entry } = await team.read();
  expect(entry).toMatchObject({ people: [], photographs: [], insurance: { number: "" } });
  expect(entry.erasedAt).not.toBeNull();
  // Those of links that keep longer are still there.
  expect(await fair.db.entryPerson.count()).toBeGreaterThan(0);

  const book = await fair.db.scorebookEntry.findMany({ select: { body: true } });
  const answers = await fair.db.idempotency.findMany({ select: { answer: true } });
  for (const name of ["Ferncastle", "Brand", "555 0101", "FM-7781", "Fern", "guardian has not"]) {
    expect(
      book.some(({ body }) => body.includes(name)),
      name,
    ).toBe(false);
    expect(
      answers.some(({ answer }) => answer.includes(name) && !answer.includes('"number"')),
      name,
    ).toBe(false);
  }
  expect(await verifyScorebook(fair.db, fair.slug)).toMatchObject({ holds: true });
  expect((await organiser()(409, "POST", `/entries/${id}/acceptance`, { version: entry.version })).code).toBe(
    "erased",
  );
  if (engine !== "sqlite") return;
  const path = sqlitePath(process.env.DATABASE_URL ?? "");
  const [file, journal] = [readFileSync(path), readFileSync(`${path}-wal`)];
  expect(file.includes("Odalys Brand")).toBe(true);
  expect([file.includes("Ferncastle"), journal.includes("Ferncastle")]).toEqual([false, false]);
});
