/** Words on the plan that keep out of each other's way; what finds no room stands in the tables alone. */
import type { Size } from "./plan-scale";

export interface PlanLabel {
  x: number;
  y: number;
  text: string;
  look: "feature" | "touched" | "zone" | "pegName";
  /** Larger goes first. */
  priority: number;
}

/** Height of the letters, mm. */
export const LETTERS = { feature: 2.3, touched: 2.4, zone: 2.5, pegName: 2 } as const;

/** Of its own box from the point, best first. */
const OFFSETS = [
  [0, 0],
  [0, -1.2],
  [0, 1.2],
  [0.6, 0],
  [-0.6, 0],
  [0.6, -1.2],
  [-0.6, -1.2],
  [0.6, 1.2],
  [-0.6, 1.2],
  [0, -2.4],
  [0, 2.4],
  [0.6, -2.4],
  [-0.6, -2.4],
  [0.6, 2.4],
  [-0.6, 2.4],
  [0, -3.6],
  [0, 3.6],
] as const;

interface Box {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

const apart = (a: Box, b: Box) =>
  a.right < b.left || a.left > b.right || a.bottom < b.top || a.top > b.bottom;

/** Where each label's middle goes, for those that find room beside what is taken already. */
export function placeLabels(
  labels: readonly PlanLabel[],
  map: Size,
  taken: readonly Box[] = [],
): PlanLabel[] {
  const boxes = [...taken];
  const placed: PlanLabel[] = [];
  for (const label of [...labels].sort((a, b) => b.priority - a.priority)) {
    const height = LETTERS[label.look] * 1.3;
    // What letters of these faces take on the average; bold ones more.
    const bold = label.look === "zone" || label.look === "touched";
    const width = label.text.length * LETTERS[label.look] * (bold ? 0.64 : 0.56) + 1;
    if (label.x < 0 || label.y < 0 || label.x > map.width || label.y > map.height) continue;
    for (const [right, down] of OFFSETS) {
      const x = Math.min(Math.max(label.x + right * width, width / 2 + 1), map.width - width / 2 - 1);
      const y = Math.min(Math.max(label.y + down * height, height / 2 + 1), map.height - height / 2 - 1);
      const box = { left: x - width / 2, right: x + width / 2, top: y - height / 2, bottom: y + height / 2 };
      if (!boxes.every((other) => apart(box, other))) continue;
      boxes.push(box);
      placed.push({ ...label, x, y });
      break;
    }
  }
  return placed;
}
