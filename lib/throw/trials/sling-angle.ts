/** The sling's angle at the release, from the last frame that holds the projectile and the first that does not. */
import type { Pixel } from "./film-plane";
import type { FrameMarks } from "./footage";
import type { Told } from "./throw-fit";

const RADIAN = Math.PI / 180;

/** Halfway between the two frames; what is between them is not known. */
export function slingAngleAt(
  pivot: Pixel | null,
  towards: "right" | "left",
  tap: number,
  before: FrameMarks | undefined,
  after: FrameMarks | undefined,
): Told | null {
  if (!pivot || !before || !after) return null;
  const mirror = towards === "right" ? 1 : -1;
  const one = ({ tip, projectile }: FrameMarks) => {
    if (!tip || !projectile) return null;
    const direction = (from: Pixel, to: Pixel) => Math.atan2(from[1] - to[1], mirror * (to[0] - from[0]));
    const off = direction(tip, projectile) - direction(pivot, tip);
    const sling = Math.hypot(projectile[0] - tip[0], projectile[1] - tip[1]);
    const arm = Math.hypot(tip[0] - pivot[0], tip[1] - pivot[1]);
    return {
      angle: (off - 2 * Math.PI * Math.round(off / (2 * Math.PI))) / RADIAN,
      error: (Math.SQRT2 * tap * Math.hypot(1 / sling, 1 / arm)) / RADIAN,
    };
  };
  const [a, b] = [one(before), one(after)];
  if (!a || !b || !Number.isFinite(a.error + b.error)) return null;
  const later = b.angle + 360 * Math.round((a.angle - b.angle) / 360);
  const unseen = Math.abs(a.angle - later) / 2 / Math.sqrt(3);
  return {
    value: (a.angle + later) / 2,
    uncertainty: 2 * Math.hypot(unseen, Math.hypot(a.error, b.error) / 2),
  };
}
