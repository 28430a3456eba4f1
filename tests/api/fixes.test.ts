/** Landing points: from what a judge enters to the standings, with every correction kept. */
import { beforeAll, expect, test } from "vitest";
import { type Actor, actorOfToken, allSheets, contestStandings, judgeView } from "@/lib/contest";
import { checkScorebook } from "@/lib/contest/scorebook-chain";
import { direct } from "@/lib/earth";
import { engine } from "@/tests/database";
import { type Answer, bearingFix, expecting, type Fair, MIDDLE, newFair, rowCounts, send } from "./fair";

let fair: Fair;
let shots: Answer[];

beforeAll(async () => {
  fair = await newFair(5);
  shots = (await fair.lay("POST", "/rounds", {})).shots;
  await allSheets(fair.db, fair.contestId);
});

const record = (status: number, shot: Answer, body: unknown, as = fair.tokens.judge) =>
  expecting(status, "POST", `${fair.base}/shots/${shot.id}/fixes`, { as, body });
const history = (shot: Answer) => expecting(200, "GET", `${fair.base}/shots/${shot.id}`);

test("a bearing and a distance become a mark, rounded down, with its uncertainty", async () => {
  const fix = await record(201, shots[0], { fix: bearingFix(57.349, 91.5) });
  expect(fix).toMatchObject({
    outcome: "landed",
    mark: 57.34,
    by: "Judge 1",
    replacesId: null,
    reason: null,
  });
  // Taped to 2 cm and half a per mille (lib/survey's default): k = 2.
  expect(fix.uncertainty).toBeCloseTo(2 * Math.hypot(0.02, 0.0005 * 57.349), 6);
  const expected = direct(MIDDLE, 91.5, 57.349);
  expect(fix.latitude).toBeCloseTo(expected.latitude, 6);
  expect(fix.longitude).toBeCloseTo(expected.longitude, 6);
});

test("a position becomes the distance on the ground's height", async () => {
  const { latitude, longitude } = direct(MIDDLE, 88, 62);
  const fix = await record(201, shots[1], {
    fix: { outcome: "landed", method: "position", latitude, longitude },
  });
  // 50 m of height lengthen 62 m by 62·50/6.37e6, half a millimetre.
  expect(fix.mark).toBeCloseTo(62, 2);
});

test("a correction keeps the old entry with who, when and why", async () => {
  const first = (await history(shots[0])).fixes[0];
  const reason = "Tape read again";
  const second = await record(201, shots[0], { fix: bearingFix(58), replacesId: first.id, reason });
  const { fixes, shot } = await history(shots[0]);
  expect(fixes).toHaveLength(2);
  expect(fixes[1]).toEqual(first);
  expect(fixes[0]).toMatchObject({ id: second.id, replacesId: first.id, reason, by: "Judge 1", mark: 58 });
  expect(shot.fix.id).toBe(second.id);
});

test("a correction without a reason is refused with the field", async () => {
  const current = (await history(shots[0])).fixes[0];
  const problem = await record(422, shots[0], { fix: bearingFix(59), replacesId: current.id });
  expect(problem.errors).toEqual([{ field: "reason", message: "Say why the earlier entry is corrected." }]);
});

test("words that a database would keep otherwise are refused", async () => {
  const current = (await history(shots[0])).fixes[0];
  for (const reason of ["Tape\0 read again", "Tape read \ud83c again"]) {
    const problem = await record(422, shots[0], { fix: bearingFix(59), replacesId: current.id, reason });
    expect(problem.errors).toEqual([
      { field: "reason", message: "This holds a character that cannot be kept: type it again." },
    ]);
  }
  const body = { fix: bearingFix(58), replacesId: current.id, reason: `what? "$1" ' ŻÓŁĆ 🏰` };
  const fix = await record(201, shots[0], body);
  expect((await history(shots[0])).fixes[0]).toEqual(fix);
});

test("of two corrections at once one stands, and the other is told so and keeps what was typed", async () => {
  const current = (await history(shots[1])).fixes[0];
  const correct = async (distance: number) => {
    const body = { fix: bearingFix(distance), replacesId: current.id, reason: "Read again" };
    const response = await send("POST", `${fair.base}/shots/${shots[1].id}/fixes`, {
      as: fair.tokens.judge,
      body,
    });
    return { status: response.status, answer: await response.json() };
  };
  const both = await Promise.all([correct(61), correct(63)]);
  expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
  const won = both.find(({ status }) => status === 201)?.answer;
  const lost = both.find(({ status }) => status === 409)?.answer;
  expect(lost.code).toBe("already-corrected");
  expect(lost.detail).toContain("Theirs stands");
  expect(lost.current.id).toBe(won.id);
  expect([61, 63]).toContain(lost.sent.fix.distance);
  expect(lost.sent.fix.distance).not.toBe(won.input.distance);
  expect((await history(shots[1])).fixes).toHaveLength(2);
  // What lost can be sent as a correction of what won.
  await record(201, shots[1], { ...lost.sent, replacesId: won.id });
});

test("twenty first entries of one shot at once are twenty entries of one shot", async () => {
  const answers = await Promise.all(
    Array.from({ length: 20 }, (_, index) => record(201, shots[2], { fix: bearingFix(56 + index / 1000) })),
  );
  const { fixes, shot } = await history(shots[2]);
  expect(fixes.map((fix: Answer) => fix.id).sort()).toEqual(answers.map(({ id }) => id).sort());
  // Read to the millimetre by twenty tapes: they agree, and the mark is better known than by one.
  expect(shot.result).toMatchObject({ how: "combined", mark: 56 });
  expect(shot.result.uncertainty).toBeLessThan(fixes[0].uncertainty / 4);
  expect(fixes.filter((fix: Answer) => fix.flags.length === 0)).toHaveLength(1);
  expect(fixes[0].flags[0]).toMatchObject({ code: "another-entry" });
});

test.each([
  ["fix.distance", { fix: bearingFix(-1) }],
  ["fix.distance", { fix: { outcome: "landed", method: "bearing-distance", bearing: 90 } }],
  ["fix.distance", { fix: { ...bearingFix(1), distance: "60" } }],
  ["fix.bearing", { fix: bearingFix(60, 361) }],
  ["fix.latitude", { fix: { outcome: "landed", method: "position", latitude: 95, longitude: 0 } }],
  ["fix.method", { fix: { outcome: "landed", method: "guess" } }],
  ["fix.outcome", { fix: { outcome: "lost" } }],
  ["fix.colour", { fix: { ...bearingFix(60), colour: "red" } }],
  ["observedAt", { fix: bearingFix(60), observedAt: "yesterday" }],
  ["observedAt", { fix: bearingFix(60), observedAt: "2999-01-01T00:00:00Z" }],
])("bad input names %s and leaves no trace", async (field, body) => {
  const before = await rowCounts(fair.db);
  const problem = await record(422, shots[3], body);
  expect(problem.errors[0].field).toBe(field);
  expect(problem.errors[0].message).toMatch(/^[A-Z].*[.]/);
  expect(await rowCounts(fair.db)).toEqual(before);
});

test("what is not a number in JSON is refused, and a shot that is not there is 404", async () => {
  const path = `${fair.base}/shots/${shots[3].id}/fixes`;
  const text = '{"fix":{"outcome":"landed","method":"bearing-distance","bearing":90,"distance":NaN}}';
  expect((await send("POST", path, { as: fair.tokens.judge, text })).status).toBe(400);
  await record(404, { id: "no-such-shot" }, { fix: bearingFix(60) });
});

test("what looks odd is recorded and flagged", async () => {
  const flagsOf = (fix: Answer) => fix.flags.map((flag: Answer) => flag.code).sort();
  const far = await record(201, shots[3], { fix: bearingFix(450) });
  // The machine's worst throw is near 65 m and the hedge 400 m away.
  expect(flagsOf(far)).toEqual(["beyond-worst", "outside-boundary"]);
  for (const flag of far.flags) expect(flag.text).toMatch(/Check the entry/);
  const kept = await history(shots[3]);
  expect(kept.shot.fix.flags).toEqual(far.flags);
  expect(kept.shot.fix.mark).toBe(450);
  const put = { fix: bearingFix(20), replacesId: far.id, reason: "Wrong machine" };
  expect(flagsOf(await record(201, shots[3], put))).toEqual([]);
  // Nobody has permitted this machine: what went too far holds the range all the same, once.
  const holds = async () =>
    (await expecting(200, "GET", `${fair.base}/range`)).holds.map(({ id }: Answer) => id);
  await expect.poll(holds, { timeout: 5000 }).toEqual([`alarm-${far.id}`]);

  const [second] = (await fair.lay("POST", "/rounds", { round: 2, machineIds: [shots[3].machineId] })).shots;
  expect(flagsOf(await record(201, second, { fix: bearingFix(41) }))).toEqual(["twice-last-mark"]);
});

test("fouls, misfires and bursts are entries without a mark", async () => {
  const fix = await record(201, shots[4], { fix: { outcome: "burst" } });
  expect(fix).toMatchObject({ outcome: "burst", mark: null, method: null, latitude: null, flags: [] });
});

test("standings follow marks and rulings", async () => {
  const rows = async () => (await contestStandings(fair.db, fair.slug)).overall;
  const before = await rows();
  expect(before.map((row) => row.best)).toEqual(
    [...before.map((row) => row.best)].sort((a, b) => (b ?? -1) - (a ?? -1)),
  );
  expect(before.find((row) => row.entrantId === shots[4].entrantId)?.status).toBe("NM");
  const leader = before[0] as Answer;

  const shot = shots.find((each) => each.entrantId === leader.entrantId);
  await fair.as("safety-officer")(201, "POST", "/rulings", {
    shotId: shot.id,
    decision: "foul",
    reason: "Over the line",
  });
  const after = (await rows()).find((row) => row.entrantId === leader.entrantId);
  expect(after?.marks[0]).toMatchObject({ outcome: "foul", mark: null });
  await fair.as("organiser")(201, "POST", "/rulings", {
    shotId: shot.id,
    decision: "stands",
    reason: "Protest upheld",
  });
  expect((await rows())[0]).toEqual(leader);

  await fair.as("judge")(201, "POST", "/rulings", {
    entrantId: leader.entrantId,
    decision: "dns",
    reason: "Left early",
  });
  expect((await rows()).find((row) => row.entrantId === leader.entrantId)?.status).toBe("DNS");
  await fair.as("judge")(201, "POST", "/rulings", {
    entrantId: leader.entrantId,
    decision: "competing",
    reason: "Came back",
  });
});

test("the judge's view shows the shot that is up, the last marks and the worst throws", async () => {
  const judge = (await actorOfToken(fair.db, fair.tokens.judge)) as Actor;
  const made = (await fair.lay("POST", "/rounds", { round: 2 })).shots;
  const view = await judgeView(fair.db, judge, fair.slug);
  expect(view.round).toBe(2);
  expect(view.shots.map((shot) => shot.position)).toEqual([1, 2, 3, 4, 5]);
  expect(view.upId).toBe(made[0].id);
  const up = view.shots.find((shot) => shot.id === view.upId);
  expect(up?.worstForward).toBeGreaterThan(60);
  const other = view.shots.find((shot) => shot.entrantId === shots[0].entrantId);
  expect(other?.lastMark).toBe(58);
  await record(201, made[0], { fix: { outcome: "misfire" } });
  expect((await judgeView(fair.db, judge, fair.slug)).upId).toBe(made[1].id);
  const team = await actorOfToken(fair.db, fair.tokens.team);
  await expect(judgeView(fair.db, team, fair.slug)).rejects.toMatchObject({ status: 403 });
  await expect(judgeView(fair.db, null, fair.slug)).rejects.toMatchObject({ status: 401 });
});

test("a full disk is named, leaves nothing half written, and the same goes in once there is room", async () => {
  if (engine !== "sqlite") return;
  const before = await rowCounts(fair.db);
  const [{ page_count: pages }] = await fair.db.$queryRawUnsafe<Answer>("PRAGMA page_count");
  await fair.db.$queryRawUnsafe(`PRAGMA max_page_count = ${pages}`);
  const sent = { as: fair.tokens.judge, body: { fix: bearingFix(30), witness: "W" }, key: "" };
  const post = () => send("POST", `${fair.base}/shots/${shots[4].id}/fixes`, sent);
  let recorded = 0;
  let response: Response;
  do {
    sent.key = `until the disk is full ${++recorded}`.replaceAll(" ", "-");
    response = await post();
  } while (response.status === 201 && recorded < 200);
  expect(response.status).toBe(507);
  expect(await response.json()).toMatchObject({ code: "disk-full" });
  await fair.db.$queryRawUnsafe(`PRAGMA max_page_count = ${Number(pages) + 10_000}`);
  const { fix } = await rowCounts(fair.db);
  expect(fix).toBe((before.fix ?? 0) + recorded - 1);
  expect((await post()).status).toBe(201);
  expect((await checkScorebook(fair.db, fair.slug, [])).landingPoints).toEqual([]);
});

test("an address with a zero character is that of nothing", async () => {
  const response = await send("POST", `${fair.base}/shots/a%00b/fixes`, {
    as: fair.tokens.judge,
    body: { fix: bearingFix(30) },
  });
  expect(response.status).toBe(404);
});
