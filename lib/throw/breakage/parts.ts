/** Each part of the machine in each of its lives: what loads it, when, and what is left. */
import type { Loads, Peak, Reserve } from "../contracts/loads";
import type { Arrival } from "../faults/arrivals";
import type { Bending } from "../loads/bending";
import { reserveOf } from "../loads/reserve";

export type PartName = "sling" | "arm" | "pivot" | "hanger" | "stop" | "chamber";
/**
 * `throw` until the loop slips, `after` it unloaded, `hang-up` when it never slips, `dry-fire` with nothing in the
 * sling from the trigger, `torn` when the sling tears at the worst instant.
 */
export type Life = "throw" | "after" | "hang-up" | "dry-fire" | "torn";

export interface PartLoad {
  part: PartName;
  life: Life;
  /** What load and strength are: N, Pa, N·m, Pa above the air's, J. */
  quantity: "force" | "stress" | "torque" | "gauge" | "energy";
  reserve: Reserve;
  /** When it peaks, s from the trigger; null where that does not matter. */
  time: number | null;
  /** Of the arm, m from the pivot towards the tip. */
  station: number | null;
  /** Whether it is the jerk of a slack sling that comes taut. */
  jerk: boolean;
}

/** Loads without the projectile, from the trigger on. */
export type DryPeaks = { arm: Bending; pivot: Peak; hanger: Peak } | null;

const NAMES = { throw: "throw", after: "after", hangUp: "hang-up" } as const;

/** The same strength against another load. */
const against = (load: number, { strength, designFactor, explanation }: Reserve): Reserve =>
  reserveOf(load, strength, designFactor, explanation);

export function slingLoads({ sling }: Loads): PartLoad[] {
  if (!sling) return [];
  const row = (life: Life, peak: Peak | null, reserve: Reserve | null): PartLoad[] => {
    if (!reserve || !(reserve.load > 0)) return [];
    const jerk = sling.jerks.find(
      ({ hangUp, peakForce }) => hangUp === (life === "hang-up") && peakForce >= reserve.load * (1 - 1e-12),
    );
    const time = jerk?.time ?? peak?.time ?? null;
    return [
      { part: "sling", life, quantity: "force", reserve, time, station: null, jerk: jerk !== undefined },
    ];
  };
  return [
    ...row("throw", sling.tension.throw, sling.reserve),
    ...row("hang-up", sling.tension.hangUp, sling.hangUpReserve),
  ];
}

export function armLoads(
  { arm }: Loads,
  bendings: Record<keyof typeof NAMES, Bending | null>,
  dry: DryPeaks,
): PartLoad[] {
  if (!arm) return [];
  const quantity = arm.envelope.some(({ stress }) => stress !== null) ? "stress" : "torque";
  const row = (life: Life, bending: Bending | null | undefined): PartLoad[] => {
    if (!bending) return [];
    const { load, ...where } = bending;
    return [{ part: "arm", life, quantity, reserve: against(load, arm.reserve), ...where }];
  };
  return [
    ...(["throw", "after", "hangUp"] as const).flatMap((key) => row(NAMES[key], bendings[key])),
    ...row("dry-fire", dry?.arm),
  ];
}

/** Pivot or hanger. */
export function hardwareLoads(
  part: "pivot" | "hanger",
  loads: Loads,
  dry: Peak | null | undefined,
): PartLoad[] {
  const borne = loads[part];
  if (!borne) return [];
  const row = (life: Life, peak: Peak | null | undefined): PartLoad[] =>
    peak
      ? [
          {
            part,
            life,
            quantity: "force",
            reserve: against(peak.value, borne.reserve),
            time: peak.time,
            station: null,
            jerk: false,
          },
        ]
      : [];
  return [
    ...(["throw", "after", "hangUp"] as const).flatMap((key) => row(NAMES[key], borne.force[key])),
    ...row("dry-fire", dry),
  ];
}

/**
 * The stop as a spring over its declared stroke, which takes what arrives and what weight and springs still do over
 * that stroke: F = 2·(E/s + D). Without a stroke the energy alone is told.
 */
export function stopLoads(
  arrivals: Readonly<Partial<Record<Life, Arrival>>>,
  drive: number,
  declared: { stroke?: number | undefined; force?: number | undefined },
  designFactor: number,
): PartLoad[] {
  const { stroke, force } = declared;
  return (["throw", "dry-fire", "torn"] as const).flatMap((life): PartLoad[] => {
    const arrival = arrivals[life];
    if (!arrival) return [];
    const reserve =
      stroke === undefined
        ? reserveOf(arrival.energy, null, designFactor, "Declare over which way the stop brakes.")
        : reserveOf(
            2 * (arrival.energy / stroke + drive),
            force ?? null,
            designFactor,
            force === undefined
              ? "Declare the most force that the stop and what holds it can take."
              : "The declared force, the stop taken as a spring over its declared way: one that crushes evenly peaks at half as much.",
          );
    const quantity = stroke === undefined ? "energy" : "force";
    return [{ part: "stop", life, quantity, reserve, time: arrival.arrives, station: null, jerk: false }];
  });
}

export function chamberLoads({ chamber }: Loads): PartLoad[] {
  if (!chamber) return [];
  const { reserve } = chamber;
  return [
    { part: "chamber", life: "throw", quantity: "gauge", reserve, time: 0, station: null, jerk: false },
  ];
}
