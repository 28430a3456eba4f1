/** The airs that a flight is tried in: the mean wind at nominal drag, and from there to each way the day may differ. */
import { airsOf, nominalAir } from "../case";
import type { Explanation } from "../contracts/replay";
import type { HazardRequest } from "../contracts/request";
import { type Air, dragCoefficientOf } from "../flight/flight";
import { projectileAir } from "../flight/projectile";

export type AirName = Explanation["air"]["name"];

export interface Sky {
  /** The air that counts as meant. */
  mean: Air;
  /** Each as far from it as that one thing goes. */
  others: readonly { name: AirName; air: Air }[];
}

/** @param speed about that of the release, m/s: where the drag of a smooth ball is looked up when it is mixed */
export function skyOf(request: HazardRequest, speed: number): Sky {
  const mean = nominalAir(request);
  const { lowDrag, highDrag, lift } = projectileAir(request.projectile);
  const others: { name: AirName; air: Air }[] = [];
  const nominal = mean.drag ?? dragCoefficientOf(mean, speed);
  if (mean.density > 0) {
    if (lowDrag < nominal) others.push({ name: "low-drag", air: { ...mean, drag: lowDrag } });
    if (highDrag > nominal) others.push({ name: "high-drag", air: { ...mean, drag: highDrag } });
    if (lift > 0) {
      others.push({ name: "lift", air: { ...mean, lift } });
      others.push({ name: "sink", air: { ...mean, lift: -lift } });
    }
  }
  const wind = request.air?.wind;
  const gust = wind?.gust ?? 0;
  if (wind && gust > wind.speed) {
    // The gust along the mean wind's own direction.
    const direction = (wind.direction * Math.PI) / 180;
    const air = { ...mean, windX: gust * Math.cos(direction), windZ: gust * Math.sin(direction) };
    others.push({ name: "gust", air });
  }
  return { mean, others };
}

/**
 * The airs of the worst case: low drag, lift of either sign, the gust along the bearing either way. What landed did so
 * on the ground as it lies, to its own side.
 */
export function worstSkies(request: HazardRequest): { name: AirName; air: Air }[] {
  const { forward, backward } = airsOf(request);
  const { cross } = nominalAir(request);
  return [...new Set([...forward, ...backward])].map((air) => ({
    name: "worst" as const,
    air: { ...air, cross },
  }));
}

/** The air a share of the way from the mean to another. */
export function between(mean: Air, other: Air, share: number, speed: number): Air {
  if (share <= 0) return mean;
  if (share >= 1) return other;
  const mix = (a: number, b: number) => a + share * (b - a);
  const drag =
    mean.drag === other.drag
      ? mean.drag
      : mix(mean.drag ?? dragCoefficientOf(mean, speed), other.drag ?? dragCoefficientOf(other, speed));
  return {
    ...mean,
    drag,
    lift: mix(mean.lift, other.lift),
    windX: mix(mean.windX, other.windX),
    windZ: mix(mean.windZ, other.windZ),
  };
}
