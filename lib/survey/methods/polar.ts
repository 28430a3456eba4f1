/** A bearing and a horizontal distance from a peg: what a compass with a tape and a laser have in common. */
import { groundDirect } from "../../earth";
import { own } from "../budget";
import { type BearingEntry, DECLINATION, FIRING_POINT, type Ground, RADIANS, trueBearing } from "../site";
import type { Level } from "../slope";
import { metres, type Warning } from "../warnings";
import type { Placed } from "./method";

/** Nearer than this to a peg, setting up over it by eye turns the bearing by degrees, m. */
export const TOO_NEAR = 3;

export function placedByPolar(
  ground: Ground,
  from: string | undefined,
  entry: BearingEntry,
  bearingUncertainty: number,
  level: Level,
): Placed {
  const { site, plane } = ground;
  const station = ground.station(from);
  const { bearing, declinationUncertainty } = trueBearing(entry, site);
  const { horizontal } = level;
  const direction = bearing * RADIANS + station.convergence;
  const [east, north] = [Math.sin(direction), Math.cos(direction)];
  const turn = horizontal * bearingUncertainty * RADIANS;
  const drift = horizontal * declinationUncertainty * RADIANS;
  const fromFiringPoint = station.id === FIRING_POINT;
  const warnings: Warning[] = [...level.warnings];
  if (!fromFiringPoint && horizontal < TOO_NEAR)
    warnings.push({
      code: "too-near",
      text: `The landing point is only ${metres(horizontal)} from ${station.name}: setting up over the peg by eye spoils the bearing. Measure from a peg farther away, or by tapes from two pegs.`,
    });
  return {
    point: groundDirect(station.point, bearing, horizontal, plane.height),
    budget: [
      ...level.parts.map(({ source, size }) => own(source, size * east, size * north)),
      own("bearing", turn * north, -turn * east),
      { source: DECLINATION, shared: true, east: drift * north, north: -drift * east },
      ...station.budget,
    ],
    warnings,
    ...(fromFiringPoint && { fromFiringPoint: { distance: horizontal, bearing } }),
  };
}
