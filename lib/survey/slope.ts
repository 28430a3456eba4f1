/**
 * A distance along the slope brought to the horizontal, in straight-line trigonometry. What the curve of the earth and
 * of the sight adds is below 2 mm over 300 m at 5°, and is left out.
 */
import { RADIANS } from "./site";
import { DEFAULT_UNCERTAINTY } from "./uncertainty";
import { degrees, metres, unplaceable, type Warning } from "./warnings";

export const SLOPES = ["level", "elevation", "zenith", "rise"] as const;

export interface SlopeEntry {
  /** How the slope was measured; already horizontal if left out. */
  slope?: (typeof SLOPES)[number] | undefined;
  /** Degrees above the horizontal at the instrument. */
  elevation?: number | undefined;
  /** Degrees from straight up at the instrument. */
  zenith?: number | undefined;
  /** Of the ground from the peg to the landing point, up positive, m. */
  rise?: number | undefined;
  /** Above the peg, m. */
  instrumentHeight?: number | undefined;
  /** Above the landing point, m. */
  targetHeight?: number | undefined;
  /** Of the angle, degrees. */
  angleUncertainty?: number | undefined;
  /** Of the rise, m. */
  riseUncertainty?: number | undefined;
}

export interface Level {
  /** m */
  horizontal: number;
  /** By which one standard uncertainty of each source changes it, m. */
  parts: { source: string; size: number }[];
  /** Of the ground from the peg to the landing point, m; null when not measured. */
  rise: number | null;
  warnings: Warning[];
}

/** An elevation steeper than this is hardly ever sighted to a landing point: a zenith angle may have been meant. */
const TAKEN_FOR_THE_OTHER = 45;
/** Ground steeper than this is no fairground. */
const STEEP = 20;

/** The horizontal part of a distance with its uncertainties. Throws Unplaceable when the rise exceeds the distance. */
export function levelled(distance: number, sigma: number, entry: SlopeEntry): Level {
  const { slope = "level", instrumentHeight = 0, targetHeight = 0 } = entry;
  if (slope === "level")
    return { horizontal: distance, parts: [{ source: "distance", size: sigma }], rise: null, warnings: [] };
  if (slope === "rise") {
    const ground = entry.rise ?? 0;
    const between = ground + targetHeight - instrumentHeight;
    if (Math.abs(between) >= distance)
      unplaceable(
        "rise-too-large",
        `A distance of ${metres(distance)} cannot rise by ${metres(Math.abs(between))}: check the rise, the heights and their units.`,
      );
    const horizontal = Math.sqrt((distance - between) * (distance + between));
    const uncertainty = entry.riseUncertainty ?? DEFAULT_UNCERTAINTY.rise;
    return {
      horizontal,
      parts: [
        { source: "distance", size: (sigma * distance) / horizontal },
        { source: "rise", size: (uncertainty * between) / horizontal },
      ],
      rise: ground,
      warnings: steepness(ground, horizontal),
    };
  }
  const elevation = slope === "zenith" ? 90 - (entry.zenith ?? 90) : (entry.elevation ?? 0);
  const [sin, cos] = [Math.sin(elevation * RADIANS), Math.cos(elevation * RADIANS)];
  const horizontal = distance * cos;
  const rise = distance * sin + instrumentHeight - targetHeight;
  const uncertainty = (entry.angleUncertainty ?? DEFAULT_UNCERTAINTY.inclination) * RADIANS;
  const warnings: Warning[] =
    Math.abs(elevation) > TAKEN_FOR_THE_OTHER
      ? [
          {
            code: "zenith-or-elevation",
            text:
              slope === "zenith"
                ? `A zenith angle of ${degrees(entry.zenith ?? 0)} looks almost straight ${elevation > 0 ? "up" : "down"}: 90° is level. If ${degrees(entry.zenith ?? 0)} was read from the level, enter it as an elevation.`
                : `An elevation of ${degrees(elevation)} looks almost straight ${elevation > 0 ? "up" : "down"}: 0° is level. If it was read from straight up, enter it as a zenith angle.`,
          },
        ]
      : steepness(rise, horizontal);
  return {
    horizontal,
    parts: [
      { source: "distance", size: sigma * cos },
      { source: "angle", size: -distance * sin * uncertainty },
    ],
    rise,
    warnings,
  };
}

function steepness(rise: number, horizontal: number): Warning[] {
  const slope = Math.atan2(Math.abs(rise), horizontal) / RADIANS;
  if (slope <= STEEP) return [];
  return [
    {
      code: "steep",
      text: `The ground would ${rise > 0 ? "rise" : "fall"} by ${metres(Math.abs(rise))} over ${metres(horizontal)}: check the angle, its sign and the heights of instrument and target.`,
    },
  ];
}
