/** Consents, the safety plan and frozen safety files: what is refused, what stays out of the chain, what holds. */
import { createHash } from "node:crypto";
import { beforeAll, expect, test } from "vitest";
import { type Answer, at, expecting, type Fair, newFair, rowCounts, send } from "./fair";

let fair: Fair;
let lineId: string;
beforeAll(async () => {
  fair = await newFair(2);
  lineId = (
    await fair.lay("POST", "/features", {
      kind: "overhead-line",
      name: "North line",
      geometry: { type: "LineString", coordinates: [at(315, 300), at(45, 300)] },
    })
  ).id;
});

/** The contest is on 2031-10-04. */
const agreement = { kind: "utility", party: "Ada Example, Upland Grid", reference: "Letter 7" };
const textsOf = (gaps: Answer) => gaps.map((gap: Answer) => gap.text).join("\n");
const scorebookText = async () =>
  JSON.stringify(await expecting(200, "GET", `${fair.base}/scorebook?limit=200`));

test("the register tells what is missing, and a consent that holds closes its gap", async () => {
  const organiser = fair.as("organiser");
  const empty = await organiser(200, "GET", "/consents");
  for (const words of ["landowner", "neighbours", "aerodrome", "fire service", "insurer", "North line"])
    expect(textsOf(empty.gaps)).toContain(words);

  const given = { ...agreement, featureId: lineId, givenOn: "2026-02-01" };
  const asked = await organiser(201, "POST", "/consents", { ...agreement, featureId: lineId });
  expect([asked.state, asked.featureName]).toEqual(["missing", "North line"]);
  const states = {
    holds: { givenOn: "2026-02-01", expiresOn: "2031-10-04" },
    "too-short": { givenOn: "2026-02-01", expiresOn: "2031-10-03" },
    expired: { givenOn: "2020-02-01", expiresOn: "2021-02-01" },
    "not-yet": { givenOn: "2031-10-05", expiresOn: null },
  };
  for (const [state, days] of Object.entries(states)) {
    expect((await organiser(200, "PATCH", `/consents/${asked.id}`, days)).state).toBe(state);
    const { gaps } = await organiser(200, "GET", "/consents");
    expect(gaps.some((gap: Answer) => gap.consentId === asked.id)).toBe(state !== "holds");
    expect(textsOf(gaps)).not.toContain("no agreement of this overhead line");
  }

  // The most urgent first; retired, it counts for nothing and the gap is open again.
  await organiser(201, "POST", "/consents", { ...given, kind: "landowner", featureId: null });
  const listed = await organiser(200, "GET", "/consents");
  expect(listed.consents.map(({ state }: Answer) => state)).toEqual(["not-yet", "holds"]);
  expect(textsOf(listed.gaps)).not.toContain("Ada Example");
  await organiser(200, "PATCH", `/consents/${asked.id}`, { retired: true });
  expect(textsOf((await organiser(200, "GET", "/consents")).gaps)).toContain(
    "North line: no agreement of this overhead line",
  );
});

test("no party's name enters the scorebook or leaves the officials", async () => {
  const text = await scorebookText();
  expect(text).toContain("consent-added");
  expect(text).not.toContain("Ada Example");
  await fair.as("team")(403, "GET", "/consents");
});

test.each([
  ["kind", "POST", "/consents", { ...agreement, kind: "mayor" }],
  ["party", "POST", "/consents", { kind: "road", party: " " }],
  ["featureId", "POST", "/consents", { ...agreement, featureId: "nowhere" }],
  ["expiresOn", "POST", "/consents", { ...agreement, givenOn: "2031-02-02", expiresOn: "2031-02-01" }],
  ["givenOn", "POST", "/consents", { ...agreement, givenOn: "1 May" }],
  ["plan.light.earliest", "PUT", "/safety-plan", { plan: { light: { earliest: "9 o'clock" } } }],
  [
    "plan.ambulance.at.latitude",
    "PUT",
    "/safety-plan",
    { plan: { ambulance: { words: "Gate", at: { latitude: -31.6, longitude: 44.2 } } } },
  ],
  ["plan.briefed.0.who", "PUT", "/safety-plan", { plan: { briefed: [{ who: "" }] } }],
])("what cannot be right is refused by its field: %s", async (field, method, path, body) => {
  const before = await rowCounts(fair.db);
  const problem = await fair.as("safety-officer")(422, method, path, body);
  expect(problem.errors.map((error: Answer) => error.field)).toContain(field);
  expect(await rowCounts(fair.db)).toEqual(before);
});

test("the plan begins with its defaults, and two writers do not lose each other's words", async () => {
  const officer = fair.as("safety-officer");
  const first = await officer(200, "GET", "/safety-plan");
  expect([first.updatedAt, first.plan.lightning]).toEqual([null, { flashToBang: 30, wait: 1800 }]);
  const plan = { ...first.plan, emergency: { number: "999-0199", whatToSay: "Gate 2, Long Lane." } };
  const saved = await officer(200, "PUT", "/safety-plan", { plan, replaces: null });
  const problem = await fair.as("organiser")(409, "PUT", "/safety-plan", { plan: {}, replaces: null });
  expect(problem.code).toBe("changed-meanwhile");
  expect((await officer(200, "GET", "/safety-plan")).plan.emergency.number).toBe("999-0199");
  await officer(200, "PUT", "/safety-plan", {
    plan: { ...plan, hospital: "North" },
    replaces: saved.updatedAt,
  });
  expect(await scorebookText()).not.toContain("999-0199");
});

test("a file is frozen with the hash that the scorebook holds, and lists what is missing", async () => {
  const officer = fair.as("safety-officer");
  await officer(200, "PUT", "/policy", { policy: { margin: 1.5 }, reason: "Hard ground" });
  const made = await officer(201, "POST", "/safety-files", { note: "For the landowner" });
  const path = `/safety-files/${made.id}`;
  const download = await send("GET", `${fair.base}${path}/text`, { as: fair.tokens.judge });
  expect(download.headers.get("content-disposition")).toContain(`test-fair-${made.number}.json`);
  const text = await download.text();
  expect(createHash("sha256").update(text).digest("hex")).toBe(made.hash);
  const book = await expecting(200, "GET", `${fair.base}/scorebook?limit=1`);
  expect(JSON.parse(book.entries[0].body)).toMatchObject({ act: "safety-file-frozen", fileHash: made.hash });

  const file = await officer(200, "GET", path);
  expect([file.holds, file.changedSince]).toEqual([true, []]);
  expect(file.body).toEqual(JSON.parse(text));
  expect(file.body.policySetBy).toMatchObject({ by: "Safety officer", reason: "Hard ground" });
  expect(file.body.range.policy.margin).toBe(1.5);
  expect(file.body.range.machines).toHaveLength(2);
  expect(file.body.range.machines[0].exclusion.forward).toBeGreaterThan(50);
  const codes = new Set(file.body.missing.map(({ code }: Answer) => code));
  expect([...codes].sort()).toEqual(["consent", "plan", "signature", "site", "wind"]);
  expect((await officer(200, "GET", "/safety-files")).missing).toEqual(file.body.missing);
});

test("what is changed after a file was frozen is told with it, and the file stays as it was", async () => {
  const organiser = fair.as("organiser");
  const key = "the same file asked for twice";
  const sent = { as: fair.tokens.organiser, key: key.replaceAll(" ", "-"), body: { note: "Twice" } };
  const file = await expecting(201, "POST", `${fair.base}/safety-files`, sent);
  const before = await organiser(200, "GET", `/safety-files/${file.id}`);
  await organiser(200, "PATCH", `/features/${lineId}`, { standOff: 40 });
  await organiser(201, "POST", "/badges", { role: "judge", label: "Late judge" });
  const again = await expecting(201, "POST", `${fair.base}/safety-files`, sent);
  expect(again).toEqual(file);
  const after = await organiser(200, "GET", `/safety-files/${file.id}`);
  expect(after.body).toEqual(before.body);
  expect(after.changedSince).toHaveLength(1);
  expect(after.changedSince[0]).toMatchObject({
    act: "feature-changed",
    subjectId: lineId,
    by: "Organiser 1",
  });
});

test("a frozen file can be neither changed nor taken away", async () => {
  const { files } = await fair.as("judge")(200, "GET", "/safety-files");
  const where = { id: files[0].id };
  const before = await fair.db.safetyFile.findUnique({ where });
  await expect(fair.db.safetyFile.update({ where, data: { body: "{}" } })).rejects.toThrow();
  await expect(fair.db.safetyFile.delete({ where })).rejects.toThrow();
  expect(await fair.db.safetyFile.findUnique({ where })).toEqual(before);
});
