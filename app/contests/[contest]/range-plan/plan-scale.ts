/**
 * Paper and scale of the range plan. Paper in millimetres, ground in metres on the local plane; a scale of 1:n puts
 * n millimetres of ground on one of paper.
 */
import type { UnitSystem } from "@/lib/units";

export const PAPERS = {
  a4: { title: "A4", width: 210, height: 297 },
  a3: { title: "A3", width: 297, height: 420 },
  letter: { title: "Letter", width: 215.9, height: 279.4 },
  tabloid: { title: "Tabloid", width: 279.4, height: 431.8 },
} as const;
export type Paper = keyof typeof PAPERS;
export const PAPER_NAMES = Object.keys(PAPERS) as Paper[];
export type Turn = "portrait" | "landscape";

/** What the printer keeps for itself on every side, mm. */
export const MARGIN = 10;
/** Of the panel with legend, scale bar and signature: below the map, or beside it on a lying sheet, mm. */
const PANEL = { portrait: 66, landscape: 66 } as const;
/** Between them; the style sheet has it too. */
export const GAP = 3;
const FOOT = 304.8;
const INCH = 25.4;

export interface Size {
  width: number;
  height: number;
}
export interface SheetLayout {
  /** Inside the margins. */
  sheet: Size;
  map: Size;
  panel: Size;
}

/** A sheet by its paper, with the paper's own size as it is turned. */
export function sheetLayout(name: Paper, turn: Turn): SheetLayout & { paper: Size } {
  const { width, height } = PAPERS[name];
  const paper = turn === "portrait" ? { width, height } : { width: height, height: width };
  // A hair less than there is, or rounding sends the last line to a page of its own.
  const sheet = { width: paper.width - 2 * MARGIN, height: paper.height - 2 * MARGIN - 0.5 };
  return { paper, ...layoutOf(sheet, turn) };
}

/** Map and panel on a sheet of this size. */
export function layoutOf(sheet: Size, turn: Turn): SheetLayout {
  if (turn === "portrait")
    return {
      sheet,
      map: { width: sheet.width, height: sheet.height - PANEL.portrait - GAP },
      panel: { width: sheet.width, height: PANEL.portrait },
    };
  return {
    sheet,
    map: { width: sheet.width - PANEL.landscape - GAP, height: sheet.height },
    panel: { width: PANEL.landscape, height: sheet.height },
  };
}

/** 1:n, and inches to feet as American plans say it. */
export const SCALES: Record<UnitSystem, readonly number[]> = {
  metric: [
    100, 200, 250, 300, 400, 500, 750, 1000, 1250, 1500, 2000, 2500, 3000, 4000, 5000, 7500, 10_000, 12_500,
    20_000, 25_000, 50_000, 100_000,
  ],
  us: [
    10, 20, 30, 40, 50, 60, 80, 100, 150, 200, 300, 400, 500, 600, 800, 1000, 2000, 3000, 5000, 10_000,
  ].map((feet) => feet * 12),
};

/** The largest round scale at which so much ground fits the map with a rim; the smallest there is if none does. */
export function largestScale(ground: Size, map: Size, system: UnitSystem): number {
  const scales = SCALES[system];
  const fits = (scale: number) =>
    paperLength(ground.width, scale) <= map.width - 2 * RIM &&
    paperLength(ground.height, scale) <= map.height - 2 * RIM;
  return scales.find(fits) ?? (scales.at(-1) as number);
}

/** White between what is drawn and the frame, where the grid has its numbers, mm. */
const RIM = 6;

/** mm on paper of so many metres. */
export const paperLength = (metres: number, scale: number): number => (metres * 1000) / scale;

/** A scale that somebody typed: 1:1250, 1250, or 1 in = 40 ft; null when it is none. */
export function readScale(text: string): number | null {
  const plain = text.trim().replace(/[\s_]/g, "").toLowerCase();
  const inches = /^1(?:in|")=(\d+)(?:ft|')$/.exec(plain);
  const ratio = /^(?:1:)?(\d+)$/.exec(plain);
  const scale = inches ? Number(inches[1]) * 12 : ratio ? Number(ratio[1]) : Number.NaN;
  return scale >= 50 && scale <= 200_000 ? scale : null;
}

/** "1:1000", or "1 in = 40 ft (1:480)" where inches go into feet. */
export function scaleWords(scale: number, system: UnitSystem): string {
  const ratio = `1:${scale}`;
  return system === "us" && scale % 12 === 0 ? `1 in = ${scale / 12} ft (${ratio})` : ratio;
}

/** Ground in one unit of the reader, in mm: a metre or a foot. */
const unitOf = (system: UnitSystem) => (system === "us" ? FOOT : 1000);
const ROUND = [1, 2, 5] as const;

/** The largest of 1, 2, 5, 10, … units that takes at most so many mm of paper; the number of units. */
function roundUnits(most: number, scale: number, system: UnitSystem): number {
  const units = (most * scale) / unitOf(system);
  const power = 10 ** Math.floor(Math.log10(units));
  return Math.max(...ROUND.filter((step) => step * power <= units * (1 + 1e-12))) * power;
}

export interface Bar {
  /** Metres or feet that the whole bar stands for. */
  units: number;
  /** mm of paper. */
  length: number;
  parts: number;
}

/** A scale bar at most `most` mm long. */
export function scaleBar(scale: number, system: UnitSystem, most: number): Bar {
  const units = roundUnits(most, scale, system);
  const first = Number(units.toExponential()[0]);
  return { units, length: (units * unitOf(system)) / scale, parts: first === 2 ? 4 : 5 };
}

/** Between lines of the grid: metres or feet, and the same in m. */
export function gridStep(scale: number, system: UnitSystem): { units: number; metres: number } {
  const units = roundUnits(2 * INCH, scale, system);
  return { units, metres: (units * unitOf(system)) / 1000 };
}
