/**
 * What would help: for each part that has too little reserve, or none declared, the number that would be enough. Where
 * no closed form gives it, it is sought with the quick function itself.
 */
import type { HazardRequest } from "../contracts";
import type { ArmSection, SlingStrength, Strengths } from "../contracts/strengths";
import { driveAlong } from "../faults/arrivals";
import { armStrength, KNOT_FACTOR, SLING_DESIGN_FACTOR, WET_FACTOR } from "../loads/materials";
import { type Breakage, breakage } from "./breakage";
import type { Help, HelpCode, Wanted } from "./help-codes";
import { lighterDrive } from "./lighter";
import type { PartLoad } from "./parts";
import { isShort, largestOf, leastReserve, livesIn } from "./scope";
import { valueFor } from "./seek";

/** @param found the same request's breakage */
export function whatWouldHelp(request: HazardRequest, found: Breakage): Help[] {
  const wanted = wantedOf(found);
  const stronger = wanted.flatMap(({ part, scope, rows }) =>
    strongerPart(request, found, { part, scope, rows }).map(
      ([code, value]): Help => ({ part, scope, code, value, distance: null }),
    ),
  );
  const short = wanted.filter(({ rows }) => rows.some(isShort));
  return [...stronger, ...frameHelp(request, found), ...lighterDrive(request, short)];
}

/** What lacks a reserve. Where every life asks for no more than the throw, one number says it. */
function wantedOf({ parts }: Breakage): Wanted[] {
  const wants = (rows: readonly PartLoad[]) =>
    rows.some((row) => isShort(row) || row.reserve.strength === null);
  return [...new Set(parts.map(({ part }) => part))].flatMap((part) => {
    const meant = { part, scope: "meant" as const, rows: livesIn(parts, part, "meant") };
    const all = { part, scope: "all" as const, rows: livesIn(parts, part, "all") };
    const same = largestOf(all.rows) <= 1.001 * largestOf(meant.rows);
    return [...(wants(meant.rows) ? [meant] : []), ...(wants(all.rows) && !same ? [all] : [])];
  });
}

type Numbers = readonly (readonly [HelpCode, number | null])[];

function strongerPart(request: HazardRequest, found: Breakage, wanted: Wanted): Numbers {
  const { part, rows } = wanted;
  const factor = rows[0]?.reserve.designFactor ?? 1;
  switch (part) {
    case "sling":
      return slingHelp(request, wanted);
    case "arm":
      return armHelp(request, wanted);
    case "pivot":
    case "hanger":
      return [["holds", factor * largestOf(rows)]];
    case "stop":
      return stopHelp(request.strengths?.stop ?? {}, found, rows, factor);
    case "chamber": {
      const rating = rows[0]?.reserve.strength ?? null;
      return rating === null ? [] : [["chamber-pressure", rating / factor]];
    }
  }
}

const reserveWith = (request: HazardRequest, strengths: Strengths, { part, scope }: Wanted) =>
  leastReserve(livesIn(breakage({ ...request, strengths }).parts, part, scope));

/** Times what the sling bears, or would have to: beyond that no such sling is tied, and what it ties to fails first. */
const STRONGEST = 8;

/** A stronger sling of the same stretch is a stiffer one, and jerks harder: each way of making one is tried by itself. */
function slingHelp(request: HazardRequest, wanted: Wanted): Numbers {
  const declared = request.strengths?.sling;
  const stretch = declared?.stretch === undefined ? {} : { stretch: declared.stretch };
  const start = wanted.rows[0]?.reserve.strength ?? SLING_DESIGN_FACTOR * largestOf(wanted.rows);
  /** What such a sling's number would have to be; null where none is enough. */
  const needed = (made: (number: number) => SlingStrength, kept: number) => {
    const reserveAt = (strength: number) =>
      reserveWith(request, { ...request.strengths, sling: made(strength / kept) }, wanted);
    const reserve = reserveAt(start);
    const ends = [start / 100, start * STRONGEST] as const;
    const found =
      reserve === null ? null : valueFor(reserveAt, [start, reserve], SLING_DESIGN_FACTOR, 1, ends);
    return found === null ? null : found / kept;
  };
  const tested = () => needed((breakingStrength) => ({ breakingStrength, ...stretch }), 1);
  const rope = ({ knots, wet, legs }: { knots: boolean; wet: boolean; legs: number }) =>
    needed(
      (ropeRating) => ({ ropeRating, knots, wet, legs, ...stretch }),
      legs * (knots ? KNOT_FACTOR : 1) * (wet ? WET_FACTOR : 1),
    );
  if (!declared)
    return [
      ["sling-strength", tested()],
      ["rope-rating", rope({ knots: true, wet: true, legs: 1 })],
    ];
  if (!("ropeRating" in declared)) return [["sling-strength", tested()]];
  return declared.knots
    ? [
        ["rope-rating", rope(declared)],
        ["rope-rating-spliced", rope({ ...declared, knots: false })],
      ]
    : [["rope-rating", rope(declared)]];
}

/** A heavier arm also moves otherwise: that is left out, and said beside the number. */
function armHelp(request: HazardRequest, wanted: Wanted): Numbers {
  const { rows } = wanted;
  const { material, sections } = request.strengths?.arm ?? {};
  const first = rows[0]?.reserve;
  if (!first) return [];
  if (!sections) {
    if (!material) return [];
    const { strength, designFactor } = armStrength(material);
    return [["square-side", Math.cbrt((6 * designFactor * largestOf(rows)) / strength)]];
  }
  const needed = ["bending-strength", first.designFactor * largestOf(rows)] as const;
  const reserve = leastReserve(rows);
  if (!material || reserve === null) return [needed];
  const grown = (by: number) => ({
    pivot: grownSection(sections.pivot, by),
    ...(sections.tip ? { tip: grownSection(sections.tip, by) } : {}),
  });
  const reserveAt = (by: number) => {
    const arm = { ...request.strengths?.arm, sections: grown(by) };
    return reserveWith(request, { ...request.strengths, arm }, wanted);
  };
  const by = valueFor(reserveAt, [1, reserve], first.designFactor, 2, [0.05, 50]);
  const { pivot } = sections;
  const size = "depth" in pivot ? pivot.depth : pivot.diameter;
  return [["depth" in pivot ? "section-depth" : "section-diameter", by === null ? null : by * size], needed];
}

/** As wide as before, deeper in the plane of the swing; a tube keeps the shape of its ring. */
function grownSection(section: ArmSection, by: number): ArmSection {
  switch (section.shape) {
    case "rectangular":
    case "laminated":
      return { ...section, depth: section.depth * by };
    case "round":
      return { ...section, diameter: section.diameter * by };
    case "tube":
      return { ...section, diameter: section.diameter * by, wall: section.wall * by };
  }
}

function stopHelp(
  { stroke, force }: NonNullable<Strengths["stop"]>,
  found: Breakage,
  rows: readonly PartLoad[],
  factor: number,
): Numbers {
  const energy = Math.max(...rows.map(({ life }) => found.arrivals[life]?.energy ?? 0));
  const drive = driveAlong(found.stop);
  const out: [HelpCode, number | null][] = [];
  if (stroke !== undefined) out.push(["stop-force", factor * 2 * (energy / stroke + drive)]);
  if (force !== undefined) {
    const over = (push: number) => (push > 0 ? energy / push : null);
    out.push(["stop-stroke-spring", over(force / factor / 2 - drive)]);
    out.push(["stop-stroke-even", over(force / factor - drive)]);
  }
  return out;
}

/** What keeps the frame down: its own weight acts half a base from either edge, an anchor at the edge a whole one. */
function frameHelp({ machine, strengths }: HazardRequest, { loads, gravity }: Breakage): Help[] {
  const { stability } = loads;
  const { base } = machine as { base?: "fixed" | { footprint?: number } };
  const own = typeof base === "object" ? base.footprint : undefined;
  const footprint = strengths?.frame?.footprint ?? own;
  if (!stability?.tips || footprint === undefined) return [];
  const lacking = -Math.min(stability.front, stability.rear);
  const help = (code: HelpCode, value: number): Help => ({
    part: "frame",
    scope: "all",
    code,
    value,
    distance: null,
  });
  return [help("frame-mass", (2 * lacking) / (gravity * footprint)), help("anchors", lacking / footprint)];
}
