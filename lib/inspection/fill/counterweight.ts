/** A counterweight made of drums: how full for the wanted mass, what it weighs full, and whether it fits its cradle. */
import { type Drum, depthFor, drumHeight, drumVolume, filledTo } from "./drum";

export interface Counterweight {
  /** Alike and filled alike. */
  count: number;
  drum: Drum;
  /** One of them, empty, kg. */
  drumMass: number;
  /** Cradle, hanger and bolts, kg. */
  cradleMass: number;
  /** Of the fill as it lies, kg/m³. */
  bulk: number;
}

export interface Charge {
  /** Of the fill in one drum, above its inside bottom, m. */
  depth: number;
  /** Of a drum's height, 0 to 1. */
  share: number;
  /** Of the fill in all of them, m³ and kg. */
  volume: number;
  fill: number;
  /** With drums and cradle, kg. */
  mass: number;
  /** Of drum and fill above the inside bottom, m; the empty drum's own taken in its middle. */
  centre: number;
}

export const chargeAt = (weight: Counterweight, depth: number): Charge => {
  const { count, drum, drumMass, cradleMass, bulk } = weight;
  const { volume, centre } = filledTo(drum, depth);
  const fill = volume * bulk;
  const one = fill + drumMass;
  return {
    depth,
    share: depth / drumHeight(drum),
    volume: count * volume,
    fill: count * fill,
    mass: count * one + cradleMass,
    centre: one > 0 ? (fill * centre + (drumMass * drumHeight(drum)) / 2) / one : 0,
  };
};

export const chargeFull = (weight: Counterweight): Charge => chargeAt(weight, drumHeight(weight.drum));

export type ChargeFor =
  | { ok: true; charge: Charge }
  /** Drums and cradle alone weigh more, or full drums less, by so much, kg. */
  | { ok: false; why: "too-heavy-empty" | "too-light-full"; by: number };

/** The charge that makes the counterweight weigh this, kg. */
export function chargeFor(weight: Counterweight, wanted: number): ChargeFor {
  const { count, drum, drumMass, cradleMass, bulk } = weight;
  const fill = wanted - cradleMass - count * drumMass;
  if (fill < 0) return { ok: false, why: "too-heavy-empty", by: -fill };
  const depth = depthFor(drum, fill / bulk / count);
  if (depth === null) return { ok: false, why: "too-light-full", by: fill - count * drumVolume(drum) * bulk };
  return { ok: true, charge: chargeAt(weight, depth) };
}

/** What is left all round between what lies in the cradle and the cradle, m; negative where it does not go in. */
export const gapIn = (inside: number, outside: number): number => (inside - outside) / 2;
