/** The straight lines of the first page of a PDF as Chromium makes it, where they come to lie on paper. */
import { inflateSync } from "node:zlib";

export interface Line {
  /** mm from the lower left corner of the paper. */
  from: readonly [number, number];
  to: readonly [number, number];
}

/** mm in a point of 1/72 inch. */
const POINT = 25.4 / 72;

type Matrix = readonly [number, number, number, number, number, number];

export function firstPage(pdf: Buffer): { width: number; height: number; lines: Line[]; pages: number } {
  const text = pdf.toString("latin1");
  const pages = [...text.matchAll(/\/Type \/Page\n.*?endobj/gs)].map(([page]) => page);
  const page = pages[0] ?? "";
  const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(page);
  const contents = /\/Contents (\d+) 0 R/.exec(page);
  if (!box || !contents) throw new Error("This is no PDF as Chromium makes it.");
  const begin = text.indexOf("stream", text.indexOf(`\n${contents[1]} 0 obj`));
  const stream = pdf.subarray(text.indexOf("\n", begin) + 1, text.indexOf("endstream", begin));
  return {
    width: Number(box[1]) * POINT,
    height: Number(box[2]) * POINT,
    lines: linesOf(inflateSync(stream).toString("latin1")),
    pages: pages.length,
  };
}

/** Follows the operators that move the pen: q, Q, cm, m and l. */
function linesOf(content: string): Line[] {
  const lines: Line[] = [];
  const kept: Matrix[] = [];
  let matrix: Matrix = [1, 0, 0, 1, 0, 0];
  let pen: readonly [number, number] = [0, 0];
  let numbers: number[] = [];
  const at = (x: number, y: number): readonly [number, number] => [
    (matrix[0] * x + matrix[2] * y + matrix[4]) * POINT,
    (matrix[1] * x + matrix[3] * y + matrix[5]) * POINT,
  ];
  for (const word of content.split(/\s+/)) {
    if (/^[-+]?[\d.]+$/.test(word)) {
      numbers.push(Number(word));
      continue;
    }
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = numbers;
    if (word === "q") kept.push(matrix);
    else if (word === "Q") matrix = kept.pop() ?? matrix;
    else if (word === "cm") {
      const [A, B, C, D, E, F] = matrix;
      matrix = [
        A * a + C * b,
        B * a + D * b,
        A * c + C * d,
        B * c + D * d,
        A * e + C * f + E,
        B * e + D * f + F,
      ];
    } else if (word === "m") pen = at(a, b);
    else if (word === "l") {
      const to = at(a, b);
      lines.push({ from: pen, to });
      pen = to;
    }
    numbers = [];
  }
  return lines;
}
