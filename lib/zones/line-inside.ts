/** The parts of a line that lie inside an area. */
import type { EdgeIndex } from "./edge-index";
import type { Point } from "./planar";

const turn = (a: Point, b: Point, c: Point) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** `area`: the edges of its rings. `meets`: whether the line comes to them at all; if not it is all in or all out. */
export function lineInside(line: readonly Point[], area: EdgeIndex, meets: boolean): Point[][] {
  const [start] = line;
  if (!meets) return start && area.contains(...start) ? [[...line]] : [];
  const pieces: Point[][] = [];
  const { ends } = area;
  for (let index = 1; index < line.length; index++) {
    const a = line[index - 1] as Point;
    const b = line[index] as Point;
    const at = (t: number): Point => [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    const cuts = [0, 1];
    for (const edge of area.near(a[0], a[1], b[0], b[1])) {
      const c: Point = [ends[edge * 4], ends[edge * 4 + 1]];
      const d: Point = [ends[edge * 4 + 2], ends[edge * 4 + 3]];
      // Where the line through the edge cuts this segment, if the edge's ends lie on either side of the segment or on
      // it. A cut too many does no harm: the middles decide.
      const [toC, toD] = [turn(a, b, c), turn(a, b, d)];
      if (toC * toD > 0) continue;
      const [fromA, fromB] = [turn(c, d, a), turn(c, d, b)];
      const t = fromA / (fromA - fromB);
      if (t > 0 && t < 1) cuts.push(t);
    }
    cuts.sort((first, second) => first - second);
    for (let cut = 1; cut < cuts.length; cut++) {
      const [from, to] = [cuts[cut - 1], cuts[cut]];
      if (to - from < 1e-12 || !area.contains(...at((from + to) / 2))) continue;
      const last = pieces.at(-1);
      const end = last?.at(-1);
      const begin = at(from);
      if (last && end && Math.hypot(end[0] - begin[0], end[1] - begin[1]) < 1e-9) last.push(at(to));
      else pieces.push([begin, at(to)]);
    }
  }
  return pieces;
}
