/** Numbers as the paper says them. */
import { wholeDistance } from "@/app/_ui/kept-distance";
import type { PlanMachine, RangePlan } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";

/** A distance that people must keep: rounded up, never down. */
export const keepOff = (metres: number, system: UnitSystem): string => wholeDistance(metres, system, "up");

/** "44.20012° N 31.60034° W": about a metre. */
export function cornerText([longitude, latitude]: readonly [number, number]): string {
  const part = (degrees: number, letters: string) =>
    `${Math.abs(degrees).toFixed(5)}° ${letters[degrees < 0 ? 1 : 0]}`;
  return `${part(latitude, "NS")} ${part(longitude, "EW")}`;
}

/** What a declination means: east is positive. */
export function magneticWords(declination: number): string {
  if (Math.abs(declination) < 0.05) return "Magnetic north is true north here, as entered for this site.";
  const side = declination > 0 ? "east" : "west";
  return `Magnetic north lies ${Math.abs(declination).toFixed(1)}° ${side} of true north, as entered for this site.`;
}

type PlanConflict = PlanMachine["conflicts"][number];

const withMachine = (machines: readonly PlanMachine[], agreed: boolean) =>
  machines.flatMap((machine) =>
    machine.conflicts
      .filter((conflict) => (conflict.agreed !== null) === agreed)
      .map((conflict): { machine: PlanMachine; conflict: PlanConflict } => ({ machine, conflict })),
  );

/** What stands against firing like this. */
export const openConflicts = (machines: readonly PlanMachine[]) => withMachine(machines, false);
/** What would, but for an agreement in writing. */
export const agreedConflicts = (machines: readonly PlanMachine[]) => withMachine(machines, true);

/** All that is drawn of the site: its features, and the barriers that are signed for. */
export const drawnOn = ({ features, barriers = [] }: RangePlan) => [
  ...features.map(({ id, kind, name, geometry }) => ({ id, kind: kind as string, name, geometry })),
  ...barriers.map(({ id, name, geometry }) => ({ id, kind: "barrier", name, geometry })),
];
