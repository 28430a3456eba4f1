/** What the filling of a counterweight asks for. */
import { FILLS } from "@/lib/inspection";
import type { Asks } from "../numbers/asks";

export type Name =
  | "wanted"
  | "diameter"
  | "length"
  | "drumMass"
  | "cradleMass"
  | "density"
  | "voids"
  | "outerDiameter"
  | "outerLength"
  | "cradleWidth"
  | "cradleLength"
  | "gap";
export type Choice = "fill" | "stands" | "count";

const size = (label: string, help: string) => ({
  label,
  dimension: "length" as const,
  help,
  range: "positive" as const,
});

export const FILL_ASKS: Asks<Name> = {
  wanted: {
    label: "Counterweight wanted",
    dimension: "mass",
    help: "With drum and cradle; as declared if left empty.",
    range: "positive",
  },
  diameter: {
    ...size("Inside diameter of the drum", "Measured: drums that are sold as one size differ."),
    needed: true,
  },
  length: { ...size("Inside length of the drum", "From bottom to lid, along its axis."), needed: true },
  drumMass: {
    label: "Empty drum with its lid",
    dimension: "mass",
    help: "One of them; a steel drum of 55 US gallons is about 18 kg or 40 lb (from memory). 0 if left empty.",
    range: "not-negative",
  },
  cradleMass: {
    label: "Cradle and hanger",
    dimension: "mass",
    help: "All that swings with the drums; 0 if left empty.",
    range: "not-negative",
  },
  density: {
    label: "Density of the grains",
    dimension: "density",
    help: "Or of the liquid; as usual for the filling if left empty.",
    range: "positive",
  },
  voids: {
    label: "Share of gaps between the grains",
    dimension: "ratio",
    help: "As usual for the filling if left empty: fill a bucket, then measure the water that still goes in.",
    range: "share",
  },
  outerDiameter: size("Outside diameter of the drum", "Over its hoops, at the widest."),
  outerLength: size("Outside length of the drum", "Over its rims."),
  cradleWidth: size("Inside width of the cradle", "Where the diameter lies."),
  cradleLength: size("Inside length of the cradle", "Where the length lies, of all the drums together."),
  gap: {
    label: "Gap wanted all round",
    dimension: "length",
    help: "For getting it in; wedged tight afterwards. Common practice, no source.",
    start: 0.01,
    range: "not-negative",
  },
};
export const NAMES = Object.keys(FILL_ASKS) as Name[];

export const FILL_OPTIONS = {
  fill: FILLS,
  stands: ["upright", "lying"],
  count: ["1", "2", "3", "4", "6", "8"],
} as const;
