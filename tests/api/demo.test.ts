/** The demo contest, as a first-time user finds it. */
import { beforeAll, expect, test } from "vitest";
import {
  type Actor,
  actorOfToken,
  contestOverview,
  contestStandings,
  contestZones,
  firingOrder,
  judgeView,
  listClearance,
  listEntries,
  listEntryLinks,
  listIncidents,
  rangeView,
  roundShots,
  shotHistory,
  verifyScorebook,
} from "@/lib/contest";
import type { Database } from "@/lib/db";
import { loadDemo, type SignIn } from "@/prisma/demo";
import { openFairDatabase, signIn } from "./fair";

const SLUG = "harvest-fair";
let db: Database;
let signIns: SignIn[];

beforeAll(async () => {
  db = await openFairDatabase();
  signIns = await loadDemo(db);
}, 240_000);

test("has the field, the entrants and the machines that it promises", async () => {
  const contest = await contestOverview(db, SLUG);
  expect(contest.demo).toBe(true);
  expect(contest.firingPoints).toHaveLength(6);
  expect(contest.controlPoints).toHaveLength(3);
  expect(contest.entrants).toHaveLength(8);
  expect(contest.divisions).toHaveLength(3);
  expect(new Set(contest.machines.map((machine) => machine.kind)).size).toBeGreaterThanOrEqual(3);
  const kinds = new Set(contest.features.map((feature) => feature.kind));
  expect(kinds.size).toBe(9);
  expect(contest.roundsMade).toEqual([
    { round: 1, shots: 8, entered: 8 },
    { round: 2, shots: 8, entered: 8 },
    { round: 3, shots: 8, entered: 0 },
  ]);
});

test("one machine's zone is against the rules, and the others' are not, as computed", async () => {
  const { features } = await contestZones(db, SLUG);
  expect(features).toHaveLength(8);
  const inConflict = features.flatMap(({ properties }) => {
    const found = properties.conflicts.filter((conflict) => conflict.inConflict);
    return found.length > 0 ? [[properties.machineName, found.map((conflict) => conflict.kind)]] : [];
  });
  expect(inConflict).toEqual([["Loud Uncle", ["spectators"]]]);
});

test("two rounds are shot, with a foul, a misfire, a burst and a corrected entry; marks are plausible", async () => {
  const shots = [...(await roundShots(db, SLUG, 1)).shots, ...(await roundShots(db, SLUG, 2)).shots];
  const outcomes = shots.map((shot) => shot.fix?.outcome);
  for (const [outcome, count] of [
    ["foul", 1],
    ["misfire", 1],
    ["burst", 1],
    ["landed", 13],
  ] as const)
    expect(outcomes.filter((each) => each === outcome)).toHaveLength(count);
  const marks = shots.flatMap((shot) => shot.fix?.mark ?? []);
  expect(Math.min(...marks)).toBeGreaterThan(55);
  expect(Math.max(...marks)).toBeLessThan(180);
  expect(shots.flatMap((shot) => shot.fix?.flags ?? [])).toEqual([]);
  const corrected = shots.find((shot) => shot.fix?.replacesId);
  const { fixes } = await shotHistory(db, SLUG, corrected?.id ?? "");
  expect(fixes).toHaveLength(2);
  expect(fixes[0]?.reason).toMatch(/digit/);
  expect(fixes[0]?.by).not.toBe(fixes[1]?.by);
});

test("a judge can sign in and try the third round", async () => {
  expect(signIns.map((each) => each.role)).toEqual(["organiser", "safety-officer", "judge", "judge", "team"]);
  const judge = signIns.find((each) => each.role === "judge");
  const actor = (await actorOfToken(db, await signIn(judge?.code ?? ""))) as Actor;
  const view = await judgeView(db, actor, SLUG);
  expect(view.round).toBe(3);
  expect(view.upId).toBe(view.shots[0]?.id);
  expect(view.shots.every((shot) => (shot.worstForward ?? 0) > (shot.lastMark ?? 0))).toBe(true);
});

test("a link for teams is open, and an entry waits for one guardian's consent", async () => {
  const organiser = signIns.find((each) => each.role === "organiser");
  const actor = (await actorOfToken(db, await signIn(organiser?.code ?? ""))) as Actor;
  expect(await listEntryLinks(db, actor, SLUG)).toMatchObject([{ open: true, used: 1 }]);
  const [entry] = await listEntries(db, actor, SLUG);
  expect(entry).toMatchObject({ state: "sent", people: 3, minors: 1, photographs: 1 });
  expect(entry?.missing.map(({ part }) => part)).toEqual(["people"]);
});

test("six firing permits wait for the wind to be read, one was taken back, one machine was refused", async () => {
  const officer = signIns.find((each) => each.role === "safety-officer");
  const actor = (await actorOfToken(db, await signIn(officer?.code ?? ""))) as Actor;
  const { machines } = await listClearance(db, actor, SLUG);
  const states = machines.map(({ inspection, permit }) => permit?.state ?? inspection?.outcome);
  expect(states).toEqual(["fallen", "waits", "waits", "waits", "waits", "waits", "waits", "refused"]);
});

test("one incident was entered, whose pieces the zone held: the range is cold", async () => {
  const officer = signIns.find((each) => each.role === "safety-officer");
  const actor = (await actorOfToken(db, await signIn(officer?.code ?? ""))) as Actor;
  const { incidents } = await listIncidents(db, actor, SLUG);
  expect(incidents).toMatchObject([{ machineName: "Loud Uncle", hurt: "nobody", pieces: 2, outside: 0 }]);
  expect((await rangeView(db, SLUG, {})).mode).toBe("cold");
});

test("the third round is to come at the pace of the first two, and crews know whom they step back for", async () => {
  const { turns, upId, pace, stale, missing } = await firingOrder(db, SLUG);
  const left = turns.filter(({ state }) => state === "to-throw");
  expect(left.map(({ round }) => round)).toEqual(Array(8).fill(3));
  expect(left[0]?.shotId).toBe(upId);
  expect(left.flatMap(({ stops }) => stops).length).toBeGreaterThan(0);
  expect(pace).toBeGreaterThan(0.8);
  expect(pace).toBeLessThan(1.3);
  expect([stale, missing]).toEqual([[], []]);
});

test("standings rank all eight, and the scorebook's chain holds", async () => {
  const { overall, head } = await contestStandings(db, SLUG);
  expect(overall.every((row) => row.status === "ranked")).toBe(true);
  expect(await verifyScorebook(db, SLUG)).toMatchObject({ holds: true, head });
});
