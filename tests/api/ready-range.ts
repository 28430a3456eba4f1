/** A fair whose machines may fire: two posts, a light wind, and a firing permit for each machine. */
import { allSheets } from "@/lib/contest";
import { linesFor } from "@/lib/inspection";
import { type Answer, at, type Fair } from "./fair";

/** The ids of its posts. */
export async function readyRange(fair: Fair): Promise<string[]> {
  const posts: string[] = [];
  for (const [name, bearing] of [
    ["Post north", 320],
    ["Post south", 220],
  ] as const) {
    const geometry = { type: "Point", coordinates: at(bearing, 300) };
    posts.push((await fair.lay("POST", "/features", { kind: "post", name, geometry })).id);
  }
  const wind = { speed: 8, gust: 12, height: 10 };
  await fair.as("safety-officer")(200, "PUT", "/air", { air: { wind }, reason: "As always here" });
  await fair.as("judge")(201, "POST", "/wind-readings", {
    speed: 2,
    gust: 4,
    direction: 250,
    observer: "Line post",
  });
  await allSheets(fair.db, fair.contestId);
  for (const machineId of fair.machineIds) await permit(fair, machineId);
  return posts;
}

/** As the safety officer signs it, after an inspection that meets everything. */
export async function permit(fair: Fair, machineId: string): Promise<void> {
  const ask = (method: string, path: string, status: number, body?: object): Promise<Answer> =>
    fair.as("safety-officer")(status, method, `/machines/${machineId}${path}`, body);
  const { machine, revisions, current } = await ask("GET", "", 200);
  const [{ id: revisionId }] = revisions;
  const lines = linesFor({ kind: "measured" } as never).map(({ id }) => ({ id, finding: "meets", note: "" }));
  const inspection = await ask("POST", "/inspections", 201, { revisionId, lines, outcome: "meets" });
  const { firingPointId, bearing } = machine;
  await ask("POST", "/permits", 201, {
    revisionId,
    firingPointId,
    bearing,
    sheetId: current.sheetId,
    inspectionId: inspection.id,
    limits: {
      wind: { speed: 8, gust: 12, height: 10 },
      bearing: 1,
      projectileMass: { least: 3, most: 3 },
      counterweightMass: null,
      pressure: null,
    },
  });
}
