/** Where and when the arm is bent hardest: the moments along it by what its section and a jerk make of them. */
import type { ArmSection, Strengths } from "../contracts/strengths";
import type { StationJerk } from "./jerks";
import { sectionBetween, sectionModulus } from "./section";

export interface Bending {
  /** Stress, Pa, where a section is declared; else moment, N·m. */
  load: number;
  /** s */
  time: number;
  /** From the pivot towards the tip, m. */
  station: number;
  /** Whether it is the jerk of a sling that comes taut. */
  jerk: boolean;
}

/** Section modulus at each station, m³; null without a declared section. */
export function moduliOf(
  stations: readonly number[],
  longArm: number,
  sections: NonNullable<Strengths["arm"]>["sections"],
): (number | null)[] {
  const at = ({ pivot, tip }: { pivot: ArmSection; tip?: ArmSection | undefined }, station: number) =>
    sectionModulus(sectionBetween(pivot, tip, Math.max(0, station) / longArm));
  return stations.map((station) => (sections ? at(sections, station) : null));
}

/**
 * @param peak the largest moment at a station (N·m) and when
 * @param jerks those of the same life
 */
export function worstBending(
  stations: readonly number[],
  moduli: readonly (number | null)[],
  peak: (station: number) => { value: number; time: number },
  jerks: readonly StationJerk[],
): Bending {
  let worst: Bending = { load: Number.NEGATIVE_INFINITY, time: 0, station: 0, jerk: false };
  stations.forEach((station, i) => {
    const offer = (moment: number, time: number, jerk: boolean) => {
      const load = moment / (moduli[i] ?? 1);
      if (load > worst.load) worst = { load, time, station, jerk };
    };
    const { value, time } = peak(i);
    offer(value, time, false);
    for (const each of jerks) offer(each.moments[i], each.time, true);
  });
  return worst;
}
