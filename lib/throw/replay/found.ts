/** What the searches find, and how much each explanation needs. */
import type { Explanation } from "../contracts/replay";
import type { Instant } from "../release";
import type { Hit } from "./instants";
import type { Landed, Turn } from "./landing";
import { RADIAN, type Target } from "./target";

/** An explanation before it is ranked and said. */
export type Found = Omit<Explanation, "fits" | "need" | "text">;

/** Which machine threw, what, and in which air. */
export interface Scene {
  piece: string;
  load: Explanation["load"];
  frame: Explanation["frame"];
  air: Explanation["air"];
  tolerance: Explanation["tolerance"];
}

export const EXACT: Explanation["tolerance"] = { share: 0, corner: {} };
export const MEAN: Explanation["air"] = { name: "mean", share: 0 };

/** Where a flight begins and ends, as the contract has it. */
export function spotsOf(landed: Landed, target: Target): Pick<Found, "from" | "impact" | "rest"> {
  return {
    from: { downrange: landed.fromX, aside: landed.fromZ },
    impact: { downrange: landed.x, aside: landed.z },
    rest: target.rest ? { downrange: landed.restX, aside: landed.restZ } : null,
  };
}

/** Degrees out of the plane, to the right as seen along the bearing. */
export const turnedBy = ({ plane, velocity }: Turn): number => (plane + velocity) / RADIAN;

export function foundOf(hit: Hit, scene: Scene, nominal: Instant | null, target: Target): Found {
  const { instant, turn } = hit;
  return {
    ...scene,
    cause: hit.cause,
    fault: null,
    station: null,
    time: instant.time,
    delay: nominal && hit.cause !== "astray" ? instant.time - nominal.time : null,
    tornAt: null,
    afterSlack: instant.afterSlack,
    stop: instant.stop,
    speed: Math.hypot(instant.vx, instant.vy, instant.vz ?? 0),
    angle: Math.atan2(instant.vy, instant.vx) / RADIAN,
    height: instant.y,
    turn: turnedBy(turn),
    turnBy: hit.turnBy,
    ...spotsOf(hit.landed, target),
    miss: hit.miss,
  };
}

/** Of the causes: a throw as meant, let go early or late, a hang-up, a failure. */
const CAUSE: Record<Explanation["cause"], number> = {
  "as-meant": 0,
  astray: 1,
  early: 1,
  late: 1,
  "hang-up": 2,
  fault: 3.5,
};

/** What stands for one more thing that went wrong. Judgement, no source: it orders the list and is no probability. */
export function needOf(
  found: Found,
  wanted: { piece: boolean; aim: number; meantAt: number | null },
): number {
  const { air, tolerance, turnBy, turn } = found;
  let need = CAUSE[found.cause];
  if (found.delay !== null && wanted.meantAt) need += Math.min(0.9, Math.abs(found.delay) / wanted.meantAt);
  if (found.afterSlack) need += 0.3;
  if (found.stop === "fails") need += 1.5;
  if (found.tornAt !== null) need += 0.5;
  if (found.fault === "machine-tips") need += 0.5;
  if (turnBy === "aim") need += (0.5 * Math.abs(turn)) / Math.max(1, wanted.aim);
  if (turnBy === "torn-sling") need += 1 + Math.abs(turn) / 40;
  if (turnBy === "all-round") need += Math.abs(turn) / 180;
  if (air.name !== "mean") need += 0.1 + (air.name === "worst" ? 0.8 : 0.4) * air.share;
  if (tolerance.share > 0) need += 0.1 + 0.6 * tolerance.share;
  if (found.load === "substitute") need += 1.5;
  if (found.load === "piece" && !wanted.piece) need += 0.8;
  return need;
}
