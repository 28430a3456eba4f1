/** What anchoring asks for. */
import type { Asks } from "../numbers/asks";

export type Name =
  | "level"
  | "upward"
  | "height"
  | "frameMass"
  | "footprint"
  | "friction"
  | "pegLevel"
  | "pegUp"
  | "factor";

const force = (label: string, help: string) => ({
  label,
  dimension: "force" as const,
  help,
  range: "not-negative" as const,
});

export const ASKS: Asks<Name> = {
  level: force("Level push on the frame", "The largest of the machine's own loads if left empty."),
  upward: force("Lift on the frame", "The largest of the machine's own loads if left empty."),
  height: {
    label: "Height of the push",
    dimension: "length",
    help: "Of pivot or track if left empty.",
    range: "not-negative",
  },
  frameMass: {
    label: "Frame with its ballast",
    dimension: "mass",
    help: "All that stands still; as declared on What may break if left empty.",
    range: "positive",
  },
  footprint: {
    label: "Length of the base",
    dimension: "length",
    help: "Along the throw; as declared on What may break if left empty.",
    range: "positive",
  },
  friction: {
    label: "Friction on the ground",
    dimension: "ratio",
    help: "Wet grass has less. Common practice, no source.",
    start: 0.3,
    range: "not-negative",
  },
  pegLevel: {
    label: "One peg holds level",
    dimension: "force",
    help: "Tried in this very ground: pull one with a scale in the line.",
    range: "positive",
  },
  pegUp: {
    label: "One peg holds upwards",
    dimension: "force",
    help: "Tried in this very ground.",
    range: "positive",
  },
  factor: {
    label: "Factor on the pegs",
    dimension: "ratio",
    help: "Ground differs from step to step. Common practice, no source.",
    start: 2,
    range: "factor",
  },
};
