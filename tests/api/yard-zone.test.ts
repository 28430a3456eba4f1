/** A practice yard works out on the device what a contest works out on its server: the same zone for the same request. */
import { beforeAll, expect, test } from "vitest";
import { newRevisionId } from "@/app/workbench/bench/use-bench";
import { laidOut } from "@/app/workbench/yard/changes";
import { answerTo, questionOf } from "@/app/workbench/yard/question";
import { newYard, reachToward, standOf, type Yard } from "@/app/workbench/yard/yard";
import { zoneOf } from "@/app/workbench/yard/zone";
import { allSheets } from "@/lib/contest";
import { direct, groundDistance } from "@/lib/earth";
import { hazardRequestSchema } from "@/lib/throw";
import { conflicts } from "@/lib/zones";
import { type Answer, at, declaration, expecting, type Fair, MIDDLE, newFair } from "./fair";

let fair: Fair;
beforeAll(async () => {
  fair = await newFair(2);
  const line = (kind: string, name: string, distance: number) =>
    fair.lay("POST", "/features", {
      kind,
      name,
      geometry: { type: "LineString", coordinates: [at(60, distance), at(120, distance)] },
    });
  await line("overhead-line", "Mill line", 60);
  await line("road", "Stile lane", 400);
  await line("path", "Brook path", 25);
  await fair.lay("PATCH", `/firing-points/${fair.firingPointId}`, { accuracy: 2 });
});

const firstZone = async () => {
  await allSheets(fair.db, fair.contestId);
  return ((await expecting(200, "GET", `${fair.base}/zones`)) as Answer).features[0];
};

/** The contest's site laid out in a yard. */
async function yardLikeIt(): Promise<Yard> {
  const site = (await expecting(200, "GET", fair.base)) as Answer;
  let yard: Yard = { ...newYard(MIDDLE), height: site.height };
  const lay = (item: string, body: Answer) => {
    yard = laidOut(yard, { item, id: null, body }, newRevisionId).yard;
  };
  for (const { kind, name, geometry, standOff, rule } of site.features)
    lay(kind, { name, geometry, standOff, rule });
  for (const { number, latitude, longitude, accuracy } of site.firingPoints)
    lay("firing-point", { number, latitude, longitude, accuracy, bearing: 90 });
  for (const { latitude, longitude, height } of site.spotHeights)
    lay("spot-height", { latitude, longitude, height });
  return yard;
}

async function mustBeTheSame(): Promise<Answer> {
  const site = (await expecting(200, "GET", fair.base)) as Answer;
  const contest = await firstZone();
  const yard = await yardLikeIt();
  const bench = hazardRequestSchema.parse({ ...declaration(), air: site.air });
  const question = questionOf(bench, yard);
  if (!question) throw new Error("The yard has a firing point with a bearing.");
  const answer = await answerTo(question);
  const zone = zoneOf(yard, answer, { machine: "Machine 1", revision: "As built", number: 1 });
  const [theirs, ours] = [contest.geometry.coordinates[0], zone?.geometry?.coordinates[0] ?? []];
  expect(ours.length).toBe(theirs.length);
  for (const [index, [longitude, latitude]] of (ours as [number, number][]).entries()) {
    const [east, north] = theirs[index];
    const apart = groundDistance({ latitude, longitude }, { latitude: north, longitude: east }, site.height);
    expect(apart).toBeLessThan(0.001);
  }
  const told = (found: Answer) => {
    const numbers = ({ name, inConflict, touches, distance, overlapLength, standOff }: Answer) => ({
      ...{ name, inConflict, touches, standOff },
      distance: Math.round(distance * 1000),
      overlapLength: Math.round(overlapLength * 1000),
    });
    return found.map(numbers);
  };
  expect(told(zone?.properties.conflicts)).toEqual(told(contest.properties.conflicts));
  // Another machine stands on the contest's firing point: a yard has one.
  const features = ({ standClear }: Answer) =>
    standClear
      .filter((each: Answer) => each.what === "feature")
      .map(({ name, depth }: Answer) => [name, depth]);
  expect(features(zone?.properties)).toEqual(features(contest.properties));
  return { contest, yard, answer, zone };
}

test("on level ground the outline is the same to a millimetre, and so is what it touches", async () => {
  const { contest, yard, answer, zone } = await mustBeTheSame();
  expect(contest.properties.conflicts.filter(({ inConflict }: Answer) => inConflict)).toHaveLength(1);
  expect(contest.properties.standClear.map(({ name }: Answer) => name)).toContain("Brook path");
  // Beside every azimuth stands a place just inside the outline and one just outside it.
  const stand = standOf(yard);
  if (!stand) throw new Error("It stands somewhere.");
  for (const azimuth of [90, 271.3, 15.6]) {
    const reach = reachToward(stand, answer.sheet.exclusion.reach, azimuth);
    const touches = (distance: number) => {
      const { latitude, longitude } = direct(stand, azimuth, distance);
      const post = {
        id: "post",
        kind: "post",
        geometry: { type: "Point", coordinates: [longitude, latitude] },
      };
      return conflicts(zone.geometry, [post as never], yard.height ?? 0)[0]?.touches;
    };
    expect(touches(reach - 0.02), `inside on ${azimuth}°`).toBe(true);
    expect(touches(reach + 0.05), `outside on ${azimuth}°`).toBe(false);
  }
});

test("on ground with measured heights too, where the zone reaches farther downhill", async () => {
  const before = (await firstZone()).properties.exclusion.forward;
  for (const [bearing, distance, height] of [
    [90, 150, 30],
    [270, 150, 50],
    [0, 150, 48],
    [180, 150, 48],
  ] as const) {
    const [longitude, latitude] = at(bearing, distance);
    await fair.lay("POST", "/spot-heights", { latitude, longitude, height });
  }
  const { contest, zone } = await mustBeTheSame();
  expect(contest.properties.exclusion.forward).toBeGreaterThan(before + 5);
  expect(zone.properties.assumptions).toEqual(contest.properties.assumptions);
});
