/** The flight as meant from the side, to scale, with its highest point and where it lands. */
import type { FilmPaths, Point, Reel } from "@/lib/throw";
import { disc, ground, HARVEST, INK, INK_SOFT, line, placed, text } from "./brush";
import type { Scene } from "./layers";

const MARGIN = 26;
const ABOVE = 26;
const BELOW = 40;
/** High throws are drawn narrower rather than taller than this, px. */
const TALLEST = 300;

export interface FlightScene extends Scene {
  /** Pixels a metre. */
  scale: number;
}

/** Null when nothing is thrown. @param words of the apex and of the landing */
export function flightScene(
  reel: Reel,
  paths: FilmPaths,
  width: number,
  words: { apex: string; landing: string },
): FlightScene | null {
  const { film } = reel;
  if (!film.flight || paths.flight.length < 4) return null;
  const { terrain } = film.request;
  let [left, right, top, bottom] = [0, 1, 1, 0];
  for (let i = 0; i < paths.flight.length; i += 2) {
    left = Math.min(left, paths.flight[i] as number);
    right = Math.max(right, paths.flight[i] as number);
    top = Math.max(top, paths.flight[i + 1] as number);
    bottom = Math.min(bottom, paths.flight[i + 1] as number);
  }
  const scale = Math.min((width - 2 * MARGIN) / (right - left), TALLEST / (top - bottom));
  const start = (width - (right - left) * scale) / 2;
  const level = ABOVE + top * scale;
  const height = Math.round(level - bottom * scale + BELOW);
  const toPixels = ([x, y]: Point): Point => [start + (x - left) * scale, level - y * scale];
  const apex = film.marks.find(({ of }) => of === "apex");
  const land = (x: number) => -(terrain?.below ?? 0) - x * Math.tan(((terrain?.slope ?? 0) * Math.PI) / 180);
  const sloped = terrain !== undefined && (terrain.below !== 0 || terrain.slope !== 0);
  return {
    width,
    height,
    scale,
    still: (brush) => {
      if (sloped) {
        line(brush, [toPixels([left, land(left)]), toPixels([right, land(right)])], { colour: INK_SOFT });
        const [x, y] = toPixels([0, 0]);
        line(
          brush,
          [
            [x - 14, y],
            [x + 14, y],
          ],
          { colour: INK_SOFT },
        );
      } else ground(brush, width, level);
      line(brush, placed(paths.flight, toPixels), { colour: HARVEST, width: 2.5 });
      const [x, y] = toPixels([0, 0]);
      line(
        brush,
        [
          [x, y],
          [x, y - 14],
        ],
        { colour: INK },
      );
      line(
        brush,
        [
          [x - 5, y - 7],
          [x + 5, y - 7],
        ],
        { colour: INK },
      );
      if (apex) {
        const { projectile } = reel.at(apex.time);
        const above = toPixels([projectile.x, projectile.y]);
        line(brush, [above, toPixels([projectile.x, land(projectile.x)])], {
          colour: INK_SOFT,
          width: 1,
          dash: [4, 4],
        });
        text(brush, words.apex, [inside(above[0], words.apex, width), above[1] - 13]);
      }
      const { projectile } = reel.at(film.end);
      const landed = toPixels([projectile.x, projectile.y]);
      line(
        brush,
        [
          [landed[0] - 6, landed[1] - 6],
          [landed[0] + 6, landed[1] + 6],
        ],
        { width: 3 },
      );
      line(
        brush,
        [
          [landed[0] - 6, landed[1] + 6],
          [landed[0] + 6, landed[1] - 6],
        ],
        { width: 3 },
      );
      text(brush, words.landing, [inside(landed[0], words.landing, width), landed[1] + 24]);
    },
    moving: (brush, { projectile }) => {
      disc(brush, toPixels([projectile.x, projectile.y]), 6, HARVEST, 1.5);
    },
  };
}

/** Words about this long, moved so that they stay within the picture. */
function inside(x: number, words: string, width: number): number {
  const half = 4.4 * words.length;
  return Math.min(width - half - 2, Math.max(half + 2, x));
}
