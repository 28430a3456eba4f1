/** A fair laid out through the API of a running program, as an organiser lays it out. */
import type { SheetAnswer, ShotInfo } from "../../lib/api/contracts";
import type { Client } from "./client";

interface Place {
  latitude: number;
  longitude: number;
  height?: number;
}

export interface Plan {
  entrants: number;
  rounds: number;
  /** Of the one firing point. */
  place: Place;
  bearing: number;
  /** Control points: name and place. */
  pegs?: readonly (Place & { name: string })[];
  /** Of release, m/s: a mark beyond what it can reach holds the range. */
  speed?: number;
}

/** Exact, so that a sheet takes a moment. */
const declarationOf = (releaseSpeed: number) => ({
  machine: { kind: "measured", releaseSpeed, launchAngle: 42, launchHeight: 2 },
  projectile: { mass: 3, diameter: 0.2 },
  tolerances: { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 },
});

/** Entrants with a placed machine and its sheet, every round's firing order, and the pegs' ids in their order. */
export async function layFair(
  organiser: Client,
  slug: string,
  { entrants, rounds, place, bearing, pegs = [], speed = 25 }: Plan,
): Promise<{ shots: ShotInfo[]; pegIds: string[] }> {
  const base = `/contests/${slug}`;
  const lay = (path: string, body: unknown, method = "POST") =>
    organiser.ask<{ id: string }>(method, `${base}${path}`, body);
  const division = await lay("/divisions", { name: "Open" });
  const point = await lay("/firing-points", place);
  const pegIds: string[] = [];
  for (const peg of pegs) pegIds.push((await lay("/control-points", peg)).id);
  for (let number = 1; number <= entrants; number++) {
    const entrant = await lay("/entrants", { divisionId: division.id, name: `Team ${number}` });
    const machine = await lay("/machines", {
      entrantId: entrant.id,
      name: `Machine ${number}`,
      declaration: declarationOf(speed),
    });
    await lay(`/machines/${machine.id}/placement`, { firingPointId: point.id, bearing }, "PATCH");
    await untilComputed(organiser, `${base}/machines/${machine.id}/sheet`);
  }
  const shots: ShotInfo[] = [];
  for (let round = 1; round <= rounds; round++)
    shots.push(...(await organiser.ask<{ shots: ShotInfo[] }>("POST", `${base}/rounds`, {})).shots);
  return { shots, pegIds };
}

/** A query for a sheet waits for it a while by itself. */
async function untilComputed(by: Client, path: string): Promise<void> {
  for (;;) {
    const { sheet, state, reason } = await by.ask<SheetAnswer>("GET", path);
    if (sheet) return;
    if (state === "failed") throw new Error(`${path}: ${reason}`);
  }
}

/** The codes of new judges. */
export async function newJudges(organiser: Client, slug: string, count: number): Promise<string[]> {
  const codes: string[] = [];
  for (let number = 1; number <= count; number++) {
    const body = { role: "judge", label: `Judge ${number}` };
    codes.push((await organiser.ask<{ code: string }>("POST", `/contests/${slug}/badges`, body)).code);
  }
  return codes;
}
