/** What is disputed: entries that disagree, re-throws, protests with their deadline, another mark rule, paper. */
import { beforeAll, expect, test } from "vitest";
import { type Actor, actorOfToken, allSheets, judgeView } from "@/lib/contest";
import { type Answer, at, bearingFix, type Fair, newFair, rowCounts } from "./fair";

let fair: Fair;
let shots: Answer[];

beforeAll(async () => {
  fair = await newFair(4);
  shots = (await fair.lay("POST", "/rounds", {})).shots;
  await allSheets(fair.db, fair.contestId);
});

const record = (status: number, shot: Answer, body: unknown) =>
  fair.as("judge")(status, "POST", `/shots/${shot.id}/fixes`, body);
const rule = (status: number, body: unknown) => fair.as("safety-officer")(status, "POST", "/rulings", body);
const protest = (status: number, body: unknown, as: "team" | "rival" | "judge" = "team") =>
  fair.as(as)(status, "POST", "/protests", body);
const standings = () => fair.as("judge")(200, "GET", "/standings");
const result = async (shot: Answer) => (await fair.as("judge")(200, "GET", `/shots/${shot.id}`)).shot.result;
const markOf = async (shot: Answer) =>
  (await standings()).overall
    .find((row: Answer) => row.entrantId === shot.entrantId)
    .marks.find((mark: Answer) => mark.shotId === shot.id);
const setRule = (status: number, body: object) =>
  fair.as("organiser")(status, "PUT", "/mark-rule", { rule: { ...USUAL, ...body } });
const USUAL = { from: "firing-point", landing: "first-impact", sector: null, unit: "1cm" };

test("entries that disagree give no mark, the standings say so, and a ruling names the one that counts", async () => {
  const first = await record(201, shots[0], { fix: bearingFix(60) });
  const second = await record(201, shots[0], { fix: bearingFix(50) });
  expect(second.flags.map((flag: Answer) => flag.code)).toEqual(["another-entry"]);
  expect(await result(shots[0])).toMatchObject({ how: "disagree", mark: null, outcome: null });
  const { disputes } = await standings();
  expect(disputes).toMatchObject([{ shotId: shots[0].id, round: 1 }]);
  expect(disputes[0].text).toContain("60.00 m");
  expect(disputes[0].text).toContain("not averaged");
  expect(await markOf(shots[0])).toMatchObject({ mark: null, counts: false, why: "not-measured" });

  const named = { shotId: shots[0].id, fixId: first.id, reason: "The other one was of the shot before" };
  await rule(422, { ...named, decision: "foul" });
  expect((await rule(422, { ...named, fixId: "no-such", decision: "stands" })).errors[0].field).toBe("fixId");
  await rule(201, { ...named, decision: "stands" });
  expect(await result(shots[0])).toMatchObject({ how: "ruled", mark: 60, fixIds: [first.id] });
  expect((await standings()).disputes).toEqual([]);
  // A correction of the one that counts counts in its place.
  const put = { fix: bearingFix(61), replacesId: first.id, reason: "Tape read again" };
  const corrected = await record(201, shots[0], put);
  expect(await result(shots[0])).toMatchObject({ how: "ruled", mark: 61, fixIds: [corrected.id] });
});

test("a foul and a landing disagree too, and a correction ends it", async () => {
  const foul = await record(201, shots[1], { fix: { outcome: "foul" } });
  await record(201, shots[1], { fix: bearingFix(55) });
  expect(await result(shots[1])).toMatchObject({ how: "disagree" });
  const reason = "The flag was for another machine";
  await record(201, shots[1], { fix: bearingFix(55.01), replacesId: foul.id, reason });
  expect(await result(shots[1])).toMatchObject({ how: "combined", mark: 55 });
});

test("what gives no point is kept with the reason, and what is measured from pegs is located", async () => {
  const [longitude, latitude] = at(90, 40);
  const peg = { name: "P1", longitude, latitude, accuracy: 0.05 };
  const { id } = await fair.lay("POST", "/control-points", peg);
  const fix = { ...bearingFix(20, 90), from: "no-such-peg" };
  const lost = await record(201, shots[2], { fix });
  expect(lost).toMatchObject({ mark: null, latitude: null, flags: [{ code: "unknown-peg" }] });
  const put = { fix: { ...fix, from: id }, replacesId: lost.id, reason: "Another peg" };
  const found = await record(201, shots[2], put);
  expect(found.mark).toBeCloseTo(60, 1);
  // Compass and tape as from the firing point, and the peg's own 5 cm.
  expect(found.uncertainty).toBeCloseTo(2 * Math.hypot(0.02, 0.0005 * 20, 0.05), 3);

  const judge = (await actorOfToken(fair.db, fair.tokens.judge)) as Actor;
  const view = await judgeView(fair.db, judge, fair.slug);
  expect(view.controlPoints.map((each) => each.id)).toEqual([id]);
  expect(view.markRule).toEqual({ rule: USUAL, centre: null });
});

test("back-entry from paper keeps when it was seen and by which post", async () => {
  const observedAt = "2031-10-04T10:15:00.000Z";
  const witness = "Second judge, east post";
  const body = { fix: bearingFix(58.2), observedAt, witness };
  // The contest is in the future of this clock.
  expect((await record(422, shots[3], body)).errors[0].field).toBe("observedAt");
  const seen = { ...body, observedAt: "2026-01-04T10:15:00.000Z" };
  expect(await record(201, shots[3], seen)).toMatchObject({
    observedAt: seen.observedAt,
    witness,
    mark: 58.2,
  });
  expect((await record(422, shots[3], { ...seen, witness: "" })).errors[0].field).toBe("witness");
});

test("two places that the tapes cannot tell apart are said to be too close to call", async () => {
  const [, , third, fourth] = shots;
  await record(201, fourth, {
    fix: bearingFix(59.97),
    replacesId: (await fair.as("judge")(200, "GET", `/shots/${fourth.id}`)).fixes[0].id,
    reason: "Read again",
  });
  const [division] = (await standings()).divisions;
  const call = division.closeCalls.find((each: Answer) => each.shotIds.includes(fourth.id));
  expect(call.shotIds).toEqual([third.id, fourth.id]);
  expect(call.difference).toBeLessThan(call.uncertainty);
  expect(call.text).toContain("Too close to call");
});

test("a protest needs its team or an official, an answer ends it, and the scorebook has no word of it", async () => {
  const { entrantId } = shots[0];
  const mine = await protest(201, { shotId: shots[0].id, text: "The sling was held by a hand" });
  expect(mine).toMatchObject({ entrantId: fair.entrantIds[0], lateReason: null, ruling: null });
  await protest(403, { entrantId: fair.entrantIds[0], text: "For somebody else" }, "rival");
  expect((await protest(422, { text: "Whose is it?" }, "judge")).errors[0].field).toBe("entrantId");
  expect((await protest(422, { shotId: "no", text: "Against nothing" })).errors[0].field).toBe("shotId");
  await protest(201, { entrantId, text: "The order of places" }, "judge");
  expect((await standings()).results).toMatchObject([{ round: 1, complete: true, openProtests: 2 }]);

  await fair.as("judge")(403, "POST", "/rulings", {
    protestId: mine.id,
    decision: "dismissed",
    reason: "Not so",
  });
  const other = { shotId: shots[1].id, protestId: mine.id, decision: "foul", reason: "Wrong shot" };
  expect((await rule(422, other)).errors[0].field).toBe("protestId");
  await rule(422, { protestId: mine.id, decision: "foul", reason: "A foul of what?" });
  await rule(201, { ...other, shotId: shots[0].id, reason: "Seen on the film" });
  expect(await markOf(shots[0])).toMatchObject({ outcome: "foul", mark: null });
  const { protests } = await fair.as("judge")(200, "GET", `/shots/${shots[0].id}`);
  expect(protests).toMatchObject([{ id: mine.id, ruling: { decision: "foul", reason: "Seen on the film" } }]);
  const { entries } = await fair.as("judge")(200, "GET", "/scorebook?limit=200");
  expect(JSON.stringify(entries)).not.toContain("sling was held");
  expect(entries.filter((entry: Answer) => entry.act === "protest-entered")).toHaveLength(2);
});

test("after a re-throw only what is thrown anew counts; taken back before that, the old entry counts again", async () => {
  const rethrow = { shotId: shots[3].id, decision: "re-throw", reason: "Range was hot" };
  const before = await result(shots[3]);
  await rule(201, rethrow);
  expect(await result(shots[3])).toMatchObject({ how: "none", mark: null });
  expect(await markOf(shots[3])).toMatchObject({ outcome: null, why: "no-entry" });
  const judge = (await actorOfToken(fair.db, fair.tokens.judge)) as Actor;
  expect((await judgeView(fair.db, judge, fair.slug)).upId).toBe(shots[3].id);
  await rule(201, { ...rethrow, decision: "stands", reason: "It was not" });
  expect(await result(shots[3])).toEqual(before);

  await rule(201, rethrow);
  const anew = await record(201, shots[3], { fix: bearingFix(40) });
  expect(anew.flags).toEqual([]);
  await rule(201, { ...rethrow, decision: "stands", reason: "Protest dismissed" });
  expect(await result(shots[3])).toMatchObject({ how: "one", mark: 40, fixIds: [anew.id] });
  // Correcting what the re-throw made void brings nothing back.
  const { fixes } = await fair.as("judge")(200, "GET", `/shots/${shots[3].id}`);
  const put = { fix: bearingFix(59), replacesId: fixes[1].id, reason: "For the record" };
  await record(201, shots[3], put);
  expect(await result(shots[3])).toMatchObject({ mark: 40 });
});

test("another mark rule needs a reason once there are marks, moves them all, and the scorebook lists them", async () => {
  const before = await rowCounts(fair.db);
  expect((await setRule(422, { unit: "0.1m" })).errors[0].field).toBe("reason");
  const arc = { from: "arc", centre: "no-such-peg", radius: 10 };
  const refused = await fair.as("organiser")(422, "PUT", "/mark-rule", {
    rule: { ...USUAL, ...arc },
    reason: "An arc",
  });
  expect(refused.errors[0].field).toBe("rule.centre");
  expect(await rowCounts(fair.db)).toEqual(before);

  const [longitude, latitude] = at(90, 0);
  const { id: centre } = await fair.lay("POST", "/control-points", { name: "Centre", longitude, latitude });
  const rule = { ...USUAL, ...arc, centre, unit: "0.1m", sector: { bearing: 70, halfAngle: 5 } };
  await fair.as("organiser")(200, "PUT", "/mark-rule", { rule, reason: "As in the entry form" });
  const mark = await markOf(shots[1]);
  expect(mark.mark).toBeCloseTo(45, 6);
  expect(mark.sector).toBe("outside");
  const answer = await standings();
  expect(answer).toMatchObject({ unit: "0.1m", rule: { from: "arc", sector: true } });
  const [entry] = (await fair.as("judge")(200, "GET", "/scorebook?limit=1")).entries;
  expect(entry.act).toBe("mark-rule-set");
  expect(JSON.parse(entry.body).remade).toContainEqual({ shot: shots[1].id, from: 55, to: 45 });

  // The arc stays where it was measured, wherever its peg is moved later.
  const [east, north] = at(90, 5);
  await fair.lay("PATCH", `/control-points/${centre}`, { longitude: east, latitude: north });
  expect((await markOf(shots[1])).mark).toBeCloseTo(45, 6);
  expect((await fair.as("judge")(200, "GET", "/mark-rule")).centre.longitude).toBe(longitude);
});

test("after the deadline a team is sent to an official, who takes it in with a reason, and the results are reopened", async () => {
  await fair.as("organiser")(200, "PUT", "/mark-rule", {
    rule: USUAL,
    protestMinutes: 0,
    reason: "Back to the firing point",
  });
  const shotId = shots[1].id;
  const refused = await protest(409, { shotId, text: "Too late, but still" }, "rival");
  expect(refused.code).toBe("too-late");
  const late = { shotId, entrantId: fair.entrantIds[1], text: "Too late, but still" };
  expect((await protest(422, late, "judge")).errors[0].field).toBe("lateReason");
  await protest(201, { ...late, lateReason: "The team was kept at the gate" }, "judge");
  expect((await standings()).results).toMatchObject([{ openProtests: 2, reopened: true }]);
});
