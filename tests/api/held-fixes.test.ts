/**
 * A badge that was revoked while its phone had no network: what was seen before arrives to be confirmed, counts nowhere
 * until then, and whoever has the phone moves nothing.
 */
import { randomUUID } from "node:crypto";
import { beforeAll, expect, test } from "vitest";
import { allSheets } from "@/lib/contest";
import { MOST_WAITING } from "@/lib/contest/held-fixes";
import { sha256 } from "@/lib/contest/scorebook";
import { type Answer, bearingFix, expecting, type Fair, newFair, rowCounts, send, signIn } from "./fair";

let fair: Fair;
let shots: Answer[];
/** A judge whose badge is revoked, with what was recorded before. */
let lost: { id: string; token: string; code: string };
let revokedAt: string;
const KEY = `recorded-before-${randomUUID()}`;
let first: Answer;
const before = (seconds: number) => new Date(Date.parse(revokedAt) - seconds * 1000).toISOString();

const deliver = (status: number, shot: Answer, body: object, key: string = randomUUID()) =>
  expecting(status, "POST", `${fair.base}/shots/${shot.id}/fixes`, { as: lost.token, body, key });
const decide = (
  status: number,
  id: string,
  decision: string,
  as: "organiser" | "safety-officer" = "safety-officer",
) =>
  fair.as(as)(status, "POST", `/held-fixes/${id}/decision`, {
    decision,
    reason: `${decision} by the spotters`,
  });
const waiting = async () => (await fair.as("organiser")(200, "GET", "/held-fixes")).waiting;
const history = (shot: Answer) => fair.as("judge")(200, "GET", `/shots/${shot.id}`);
const standings = () => fair.as("judge")(200, "GET", "/standings");
const marks = async () => (await standings()).overall;

async function newJudge(label: string) {
  const { id, code } = await fair.lay("POST", "/badges", { role: "judge", label });
  return { id, code, token: await signIn(code) };
}

beforeAll(async () => {
  fair = await newFair(6);
  // Marks are held against them.
  await allSheets(fair.db, fair.contestId);
  shots = (await fair.lay("POST", "/rounds", {})).shots;
  lost = await newJudge("Lost judge");
  first = await deliver(201, shots[0], { fix: bearingFix(60) }, KEY);
  revokedAt = (await fair.lay("POST", `/badges/${lost.id}/revoke`, {})).revokedAt;
});

test("what was seen before the badge was revoked is kept and shown apart, and moves no standings", async () => {
  const table = await marks();
  const held = await deliver(201, shots[1], {
    fix: bearingFix(62),
    observedAt: before(60),
    witness: "East post",
  });
  expect(held).toMatchObject({
    mark: 62,
    by: "Lost judge",
    observedAt: before(60),
    held: { state: "waiting", ended: "revoked", endedAt: revokedAt, decision: null },
  });
  expect(await marks()).toEqual(table);
  const { shot, fixes, held: apart } = await history(shots[1]);
  expect(shot).toMatchObject({ fix: null, toConfirm: 1, result: { how: "none" } });
  expect(fixes).toEqual([]);
  // What came with it only officials read until it is confirmed.
  expect(apart).toEqual([{ ...held, witness: null }]);
  expect(await waiting()).toMatchObject([{ fix: held, shot: { id: shots[1].id } }]);
  expect((await standings()).results[0]).toMatchObject({ complete: false, toConfirm: [shots[1].id] });
});

test("an answer that was lost before is given again, and one delivered twice is one", async () => {
  const rows = await rowCounts(fair.db);
  expect(await deliver(201, shots[0], { fix: bearingFix(60) }, KEY)).toEqual(first);
  const key = randomUUID();
  const again = { fix: { outcome: "foul" }, observedAt: before(30) };
  const held = await deliver(201, shots[2], again, key);
  expect(await deliver(201, shots[2], again, key)).toEqual(held);
  expect((await rowCounts(fair.db)).heldFix).toBe((rows.heldFix ?? 0) + 1);
  expect((await rowCounts(fair.db)).fix).toBe(rows.fix);
});

test("what was seen after that, or says no time, is refused in words, and leaves no trace", async () => {
  const rows = await rowCounts(fair.db);
  // A phone's corrected clock may be off by three seconds.
  const after = before(-3.001);
  for (const observedAt of [after, "2099-01-01T00:00:00Z", undefined]) {
    const problem = await deliver(403, shots[3], { fix: bearingFix(62), ...(observedAt && { observedAt }) });
    expect(problem.code).toBe("badge-ended");
    expect(problem.detail).toMatch(/This badge was revoked at \d{4}-.* UTC, and this was seen after that/);
  }
  expect(
    (await deliver(422, shots[3], { fix: { outcome: "landed" }, observedAt: before(9) })).errors[0].field,
  ).toBe("fix.method");
  await deliver(404, { id: "no-such-shot" }, { fix: { outcome: "foul" }, observedAt: before(9) });
  expect(await rowCounts(fair.db)).toEqual(rows);
});

test("nothing else is open to it: no other write, no read that needs a badge, no sign-in", async () => {
  const rows = await rowCounts(fair.db);
  const protest = { entrantId: fair.entrantIds[0], text: "Against the standings" };
  for (const [path, body] of [
    ["/protests", protest],
    ["/rulings", { entrantId: fair.entrantIds[0], decision: "dnf", reason: "Gone" }],
    ["/wind-readings", { speed: 2, gust: 4, direction: 90, observer: "Line post" }],
  ] as const)
    await expecting(401, "POST", `${fair.base}${path}`, { as: lost.token, body });
  await expecting(401, "GET", `${fair.base}/held-fixes`, { as: lost.token });
  expect((await expecting(200, "GET", "/me", { as: lost.token })).badge).toBeNull();
  await expecting(401, "POST", "/sign-in", { body: { code: lost.code } });
  expect(await rowCounts(fair.db)).toEqual(rows);
});

test("only an organiser or a safety officer confirms, with a reason, once; then it counts and the clock starts anew", async () => {
  const held = (await waiting()).find(({ shot }: Answer) => shot.id === shots[1].id).fix;
  const body = { decision: "confirmed", reason: "Seen by the east post" };
  for (const who of ["judge", "team"] as const)
    await fair.as(who)(403, "POST", `/held-fixes/${held.id}/decision`, body);
  const path = `/held-fixes/${held.id}/decision`;
  expect((await fair.as("organiser")(422, "POST", path, { decision: "confirmed" })).errors[0].field).toBe(
    "reason",
  );
  await decide(404, "no-such-entry", "confirmed");
  const rest = shots.slice(2);
  for (const shot of rest)
    await fair.as("judge")(201, "POST", `/shots/${shot.id}/fixes`, { fix: bearingFix(40) });
  const [earlier] = (await standings()).results;

  const done = await fair.as("safety-officer")(201, "POST", path, body);
  expect(done.held).toMatchObject({
    state: "confirmed",
    decision: { by: "Safety officer", reason: body.reason },
  });
  expect((await decide(409, held.id, "rejected")).code).toBe("already-decided");
  const { shot, fixes, held: apart } = await history(shots[1]);
  expect(apart).toEqual([]);
  expect(fixes).toMatchObject([
    {
      id: held.id,
      by: "Lost judge",
      witness: "East post",
      observedAt: before(60),
      held: { state: "confirmed" },
    },
  ]);
  expect(shot).toMatchObject({ toConfirm: 0, result: { how: "one", mark: 62 } });
  expect((await marks())[0]).toMatchObject({ entrantId: shots[1].entrantId, rank: 1, best: 62 });
  const [results] = (await standings()).results;
  expect([earlier.complete, results.complete]).toEqual([false, true]);
  expect(results.protestsUntil).not.toBeNull();
  const book = await fair.as("judge")(200, "GET", "/scorebook?limit=200&verify=1");
  expect(book.verification.holds).toBe(true);
  const entry = book.entries.find(({ act }: Answer) => act === "held-fix-confirmed");
  expect(entry).toMatchObject({ subjectId: held.id, by: "Safety officer" });
  // What a stranger may have written is in the book only by leave of an official.
  expect(JSON.stringify(book.entries.filter(({ act }: Answer) => act === "fix-held"))).not.toContain("post");
  expect(JSON.parse(entry.body)).toMatchObject({ mark: 62, enteredBy: lost.id, reason: body.reason });
});

test("a rejected entry stays to be seen and never counts", async () => {
  const held = (await waiting()).find(({ shot }: Answer) => shot.id === shots[2].id).fix;
  const table = await marks();
  await decide(201, held.id, "rejected", "organiser");
  expect(await marks()).toEqual(table);
  const { held: apart, shot } = await history(shots[2]);
  expect(apart).toMatchObject([
    { id: held.id, held: { state: "rejected", decision: { by: "Organiser 1" } } },
  ]);
  expect(shot.toConfirm).toBe(0);
  expect((await decide(409, held.id, "confirmed")).code).toBe("already-decided");
});

test("a correction waits too: the entry it corrects counts on, may be corrected by others, and then theirs stands", async () => {
  const put = { fix: bearingFix(99), replacesId: first.id, reason: "Read again", observedAt: before(5) };
  await deliver(404, shots[1], put);
  const [one, two] = [await deliver(201, shots[0], put), await deliver(201, shots[0], put)];
  expect((await history(shots[0])).shot.result).toMatchObject({ how: "one", mark: 60 });
  await decide(201, one.id, "confirmed");
  // Farther than its sheet has it: the range holds as for any other mark, now that somebody stands for it.
  const holds = async () => (await fair.as("judge")(200, "GET", "/range")).holds.map(({ id }: Answer) => id);
  await expect.poll(holds, { timeout: 5000 }).toEqual([`alarm-${one.id}`]);
  expect((await history(shots[0])).shot.result).toMatchObject({ how: "one", mark: 99, fixIds: [one.id] });
  expect((await decide(409, two.id, "confirmed")).detail).toMatch(/Lost judge has corrected the same entry/);

  const third = (await history(shots[3])).fixes[0];
  const held = await deliver(201, shots[3], { ...put, replacesId: third.id });
  const mine = { fix: bearingFix(41), replacesId: third.id, reason: "Tape sagged" };
  await fair.as("judge")(201, "POST", `/shots/${shots[3].id}/fixes`, mine);
  const rows = await rowCounts(fair.db);
  expect((await decide(409, held.id, "confirmed")).code).toBe("already-corrected");
  expect(await rowCounts(fair.db)).toEqual(rows);
  await decide(201, held.id, "rejected");
  expect((await history(shots[3])).shot.result).toMatchObject({ mark: 41 });
});

test("what a re-throw made void, or was measured from a place since moved, is not confirmed", async () => {
  const held = await deliver(201, shots[4], { fix: bearingFix(70), observedAt: before(4) });
  const rethrow = { shotId: shots[4].id, decision: "re-throw", reason: "Range was hot" };
  await fair.as("organiser")(201, "POST", "/rulings", rethrow);
  expect((await decide(409, held.id, "confirmed")).code).toBe("void");

  const { shots: next } = await fair.lay("POST", "/rounds", {});
  const early = await deliver(201, next[0], { fix: bearingFix(50), observedAt: before(3) });
  // It does not nail the machine down: only what counts does.
  const [longitude, latitude] = [-31.601, 44.2];
  const { id } = await fair.lay("POST", "/firing-points", { longitude, latitude });
  await fair.lay("PATCH", `/machines/${next[0].machineId}/placement`, { firingPointId: id, bearing: 80 });
  expect((await decide(409, early.id, "confirmed")).code).toBe("moved");
});

test("a flood is stopped, for that badge alone, until an official has dealt with what waits", async () => {
  const there = (await waiting()).length;
  const entry = { fix: { outcome: "misfire" }, observedAt: before(2) };
  for (let sent = there; sent < MOST_WAITING; sent++) await deliver(201, shots[5], entry);
  const refused = await deliver(403, shots[5], entry);
  expect(refused).toMatchObject({ code: "too-many-to-confirm" });
  expect((await waiting()).length).toBe(MOST_WAITING);
  const [oldest] = await waiting();
  await decide(201, oldest.fix.id, "rejected");
  await deliver(201, shots[5], entry);

  const other = await newJudge("Another judge");
  await fair.lay("POST", `/badges/${other.id}/revoke`, {});
  const path = `${fair.base}/shots/${shots[5].id}/fixes`;
  await expecting(201, "POST", path, { as: other.token, body: entry });
});

test("an expired session, one that was signed out, and a revoked team deliver nothing", async () => {
  const entry = { fix: { outcome: "misfire" }, observedAt: before(2) };
  const path = `${fair.base}/shots/${shots[5].id}/fixes`;
  const gone = await newJudge("Gone judge");
  const { token: over } = await newJudge("Forgotten judge");
  await fair.db.session.update({
    where: { tokenHash: sha256(over) },
    data: { expiresAt: new Date(Date.now() - 1) },
  });
  await fair.lay("POST", `/badges/${gone.id}/revoke`, {});
  await send("POST", "/sign-out", { as: gone.token });
  const badge = { role: "team", label: "Team 3", entrantId: fair.entrantIds[2] };
  const { id, code } = await fair.lay("POST", "/badges", badge);
  const team = await signIn(code);
  await fair.lay("POST", `/badges/${id}/revoke`, {});
  const rows = await rowCounts(fair.db);
  await expecting(401, "POST", path, { as: over, body: entry });
  await expecting(401, "POST", path, { as: gone.token, body: entry });
  expect((await expecting(403, "POST", path, { as: team, body: entry })).code).toBe("not-allowed");
  expect({ ...(await rowCounts(fair.db)), idempotency: 0 }).toEqual({ ...rows, idempotency: 0 });
});

test("the database itself lets neither an entry to confirm nor its decision be changed", async () => {
  await expect(fair.db.heldFix.updateMany({ data: { outcome: "landed" } })).rejects.toThrow();
  await expect(fair.db.heldDecision.updateMany({ data: { confirmed: true } })).rejects.toThrow();
  await expect(fair.db.heldDecision.deleteMany()).rejects.toThrow();
});
