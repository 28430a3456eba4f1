/** What a machine needs before it may fire, as far as a played safety officer may give it. */
import type { PermitInfo } from "../../api/contracts";
import { machinePage } from "../machines";
import { machineClearance, permitStanding } from "../permits";
import { signPermit } from "../sign-permit";
import { readWind } from "../wind";
import { readingsInForce } from "../wind-now";
import type { Played } from "./played";

/** A light air, m/s: less than what any machine's permit bears. */
const WIND = { speed: 2, gust: 3, direction: 270, height: 2, observer: "Rehearsal" };
/** What another signature puts right, where nothing is wrong with the machine. */
const SIGNED_AGAIN = ["wind", "policy", "air", "sheet", "place", "bearing"];

/** Why no permit stands; empty when one does. */
export async function readyToFire(
  { db, contest, cast }: Pick<Played, "db" | "contest" | "cast">,
  machineId: string,
): Promise<string[]> {
  if ((await readingsInForce(db, contest.id, new Date())).length === 0)
    await readWind(cast.judge(), contest.slug, WIND);
  const before = await permitStanding(db, contest.id, machineId);
  if (before.stands) return [];
  const { permits } = await machineClearance(db, cast.officer().actor, contest.slug, machineId);
  const [newest] = permits;
  if (!newest?.falls.every(({ cause }) => SIGNED_AGAIN.includes(cause))) return before.reasons;
  await signAgain({ db, contest, cast }, machineId, newest);
  const after = await permitStanding(db, contest.id, machineId);
  return after.stands ? [] : after.reasons;
}

async function signAgain(
  { db, contest, cast }: Pick<Played, "db" | "contest" | "cast">,
  machineId: string,
  { revisionId, inspectionId, limits, conditions }: PermitInfo,
): Promise<void> {
  const { machine, current } = await machinePage(db, cast.officer().actor, contest.slug, machineId);
  const { firingPointId, bearing } = machine;
  if (!current.sheetId || !firingPointId || bearing === null) return;
  const permit = { revisionId, inspectionId, firingPointId, bearing, sheetId: current.sheetId };
  await signPermit(cast.officer(), contest.slug, machineId, { ...permit, limits, conditions });
}
