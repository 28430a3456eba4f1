/** A stop from the energy that arrives: way, force, bolts, anchoring, and the drop test that proves it. */
import { type Absorbed, absorb } from "./absorb";
import { type Anchoring, anchoring } from "./anchor";
import { BOLT_SIZES, type Bolting, boltsFor, shearStrengthOf } from "./bolts";
import { STOP_KINDS, type StopInput } from "./contract";
import { type DropTest, dropTest, usualMass } from "./drop";

export interface StopDesign {
  /** With which the moving mass arrives, m/s; null without one. */
  speed: number | null;
  /** Every kind under the same limit; the measured curve only where it is given. */
  kinds: Absorbed[];
  /** The one that is chosen. */
  chosen: Absorbed;
  /** For the chosen one: null when it cannot stop what arrives. */
  bolts: { chosen: Bolting; shearStrength: number; sizes: Bolting[] } | null;
  anchors: Anchoring | null;
  drop: DropTest | null;
}

export function designStop(input: StopInput): StopDesign {
  const { energy, movingMass, bolt, frame, gravity } = input;
  const offered = STOP_KINDS.filter((kind) => kind !== "curve" || input.curve);
  const kinds = offered.map((kind) => absorb(input, kind));
  const chosen = kinds.find(({ kind }) => kind === input.kind) ?? absorb(input, input.kind);
  const { force, stroke, energy: taken } = chosen;
  const shear = shearStrengthOf(bolt.class, bolt.shearStrength);
  const bolts = (size: (typeof BOLT_SIZES)[number], peak: number) =>
    boltsFor(peak, size, shear, bolt.planes, bolt.designFactor);
  // Sizes of the same kind of thread, to choose among.
  const alike = BOLT_SIZES.filter((size) => size.startsWith("M") === bolt.size.startsWith("M"));
  return {
    speed: movingMass === undefined ? null : Math.sqrt((2 * energy) / movingMass),
    kinds,
    chosen,
    bolts:
      force === null
        ? null
        : {
            chosen: bolts(bolt.size, force),
            shearStrength: shear,
            sizes: alike.map((size) => bolts(size, force)),
          },
    anchors: force === null || !frame ? null : anchoring(force, frame, gravity),
    drop:
      stroke === null || taken === null
        ? null
        : dropTest(taken, stroke, gravity, input.drop?.mass ?? usualMass(taken, stroke, gravity)),
  };
}
