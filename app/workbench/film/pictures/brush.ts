/** Drawing on a canvas in the page's look. Lengths in CSS pixels. */
import type { Point } from "@/lib/throw";

/** The page's own colours, and three for forces: none of them a safety colour. */
export const INK = "#1b1813";
export const INK_SOFT = "#494238";
export const PAPER = "#fdfbf5";
export const LINE = "#81786a";
export const HARVEST = "#7a3a0f";
export const STONE = "#cfc6b4";
export const SLING = "#6a1b7a";
export const PIVOT = "#0b5a50";
export const WEIGHT = "#3d4a8a";
export const BENDING = "rgb(122 58 15 / 0.3)";

export type Brush = CanvasRenderingContext2D;

export interface Stroke {
  colour?: string;
  width?: number;
  dash?: readonly number[];
}

export function line(
  brush: Brush,
  points: readonly Point[],
  { colour = INK, width = 2, dash = [] }: Stroke = {},
) {
  const [first, ...rest] = points;
  if (!first) return;
  brush.strokeStyle = colour;
  brush.lineWidth = width;
  brush.lineCap = dash.length > 0 ? "butt" : "round";
  brush.lineJoin = "round";
  brush.setLineDash(dash as number[]);
  brush.beginPath();
  brush.moveTo(first[0], first[1]);
  for (const [x, y] of rest) brush.lineTo(x, y);
  brush.stroke();
}

export function disc(brush: Brush, [x, y]: Point, radius: number, fill: string, width = 2) {
  brush.setLineDash([]);
  brush.beginPath();
  brush.arc(x, y, radius, 0, 2 * Math.PI);
  brush.fillStyle = fill;
  brush.fill();
  brush.strokeStyle = INK;
  brush.lineWidth = width;
  brush.stroke();
}

/** Shorter arrows have no head to tell. */
const LEAST_ARROW = 5;

/** An arrow with its letter: a force is told by more than its colour. */
export function arrow(brush: Brush, from: Point, [dx, dy]: Point, colour: string, letter: string) {
  const length = Math.hypot(dx, dy);
  if (length < LEAST_ARROW) return;
  const to: Point = [from[0] + dx, from[1] + dy];
  const angle = Math.atan2(dy, dx);
  const head = Math.min(11, length * 0.6);
  const side = (turn: number): Point => [
    to[0] - head * Math.cos(angle + turn),
    to[1] - head * Math.sin(angle + turn),
  ];
  line(brush, [from, to], { colour: PAPER, width: 6 });
  line(brush, [from, to], { colour, width: 3 });
  line(brush, [side(0.5), to, side(-0.5)], { colour, width: 3 });
  text(brush, letter, [to[0] + 12 * Math.cos(angle), to[1] + 12 * Math.sin(angle)], { colour, bold: true });
}

export function text(
  brush: Brush,
  words: string,
  [x, y]: Point,
  { colour = INK, bold = false, align = "center" as CanvasTextAlign } = {},
) {
  brush.font = `${bold ? "700 " : ""}14px system-ui, sans-serif`;
  brush.textAlign = align;
  brush.textBaseline = "middle";
  brush.setLineDash([]);
  brush.lineJoin = "round";
  brush.lineWidth = 4;
  brush.strokeStyle = PAPER;
  brush.strokeText(words, x, y);
  brush.fillStyle = colour;
  brush.fillText(words, x, y);
}

/** The ground as everywhere in this program: a line with strokes below it. */
export function ground(brush: Brush, width: number, y: number) {
  line(
    brush,
    [
      [0, y],
      [width, y],
    ],
    { colour: INK_SOFT, width: 2 },
  );
  for (let x = 6; x < width; x += 14)
    line(
      brush,
      [
        [x, y + 2],
        [x - 6, y + 9],
      ],
      { colour: INK_SOFT, width: 1 },
    );
}

/** Pairs of a flat array of metres, in pixels. */
export function placed(flat: readonly number[], toPixels: (point: Point) => Point): Point[] {
  const points: Point[] = [];
  for (let i = 0; i + 1 < flat.length; i += 2)
    points.push(toPixels([flat[i] as number, flat[i + 1] as number]));
  return points;
}

/** The largest of 1, 2 or 5 times a power of ten that is not above a value. */
export function roundBelow(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return ([5, 2, 1].find((step) => step * power <= value) ?? 1) * power;
}
