/** What help is told, by its code: the words are the reader's pages'. */
import type { PartLoad, PartName } from "./parts";
import type { Scope } from "./scope";

export type HelpCode =
  /** One rope's rating with the declared knots and water (half for knots and wet if nothing is declared), N. */
  | "rope-rating"
  /** The same rope spliced instead of knotted, N. */
  | "rope-rating-spliced"
  /** The made-up sling's breaking strength, N. */
  | "sling-strength"
  /** Depth, or outer diameter, at the pivot with all of the arm grown alike in the plane of the swing, m. */
  | "section-depth"
  | "section-diameter"
  /** Side of a square section of the declared material, m. */
  | "square-side"
  /** Stress that the material must bear, Pa. */
  | "bending-strength"
  /** What pivot or hanger must hold, N. */
  | "holds"
  /** Way of the stop as a spring, and as something that crushes evenly, m. */
  | "stop-stroke-spring"
  | "stop-stroke-even"
  /** What the stop must hold over its declared way, N. */
  | "stop-force"
  /** Pressure that the rating allows, Pa above the air's. */
  | "chamber-pressure"
  /** To be added to the frame, kg; what anchors at the edge that lifts must hold down, N. */
  | "frame-mass"
  | "anchors"
  /** Counterweight, kg, or share of the springs' torque. */
  | "counterweight"
  | "springs";

export interface Help {
  part: PartName | "frame";
  scope: Scope;
  code: HelpCode;
  /** SI; null when no such number is enough. */
  value: number | null;
  /** Of the throw as meant with the lighter drive, m. */
  distance: number | null;
}

export interface Wanted {
  part: PartName;
  scope: Scope;
  rows: readonly PartLoad[];
}
