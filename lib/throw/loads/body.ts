/** Where the mass of an arm machine sits, as far as its forces need it. */
import type { Strengths } from "../contracts/strengths";
import { armBody } from "../machines/arm";
import type { SwungMachine } from "../setup";
import type { SwingSetup } from "../swing/carrier";

export interface Body {
  armMass: number;
  /** Of the arm's centre beyond the pivot towards the tip, m. */
  armOffset: number;
  /** Of the arm about its centre, kg·m². */
  armInertia: number;
  longArm: number;
  shortArm: number;
  /** The arm as lumps at stations from the pivot towards the tip; null for a uniform rod. */
  lumps: readonly { station: number; mass: number }[] | null;
  counterweightMass: number;
  /** About its own centre, kg·m². */
  counterweightInertia: number;
  /** Half its size, m. */
  counterweightSize: number;
  carriageMass: number;
}

/** What kinds name alike, whatever else they have. */
interface Parts {
  armMass?: number;
  armCentre?: number;
  armInertia?: number;
  counterweightMass?: number;
  counterweightInertia?: number;
  carriageMass?: number;
}

export function bodyOf(machine: SwungMachine, setup: SwingSetup, strengths: Strengths | undefined): Body {
  const parts: Parts = machine;
  const { carrier } = setup;
  const longArm = carrier.tipY;
  const { shortArm } = carrier;
  const armMass = parts.armMass ?? 0;
  const { offset, inertia } = armBody({
    longArm,
    shortArm,
    armMass,
    armCentre: parts.armCentre,
    armInertia: parts.armInertia,
  });
  const declared = strengths?.arm?.masses;
  const total = declared?.reduce((sum, { mass }) => sum + mass, 0) ?? 0;
  return {
    armMass,
    armOffset: offset,
    armInertia: inertia,
    longArm,
    shortArm,
    lumps:
      declared?.map(({ at, mass }) => ({ station: at - shortArm, mass: (mass * armMass) / total })) ?? null,
    counterweightMass: parts.counterweightMass ?? 0,
    counterweightInertia: parts.counterweightInertia ?? 0,
    counterweightSize: carrier.counterweightSize,
    carriageMass: parts.carriageMass ?? 0,
  };
}

/** Mass (kg) and centre (m from the pivot towards the tip) of the arm beyond a station. */
export function outerPart(body: Body, station: number): { mass: number; centre: number } {
  const { armMass, longArm, shortArm, lumps } = body;
  if (!lumps) {
    const share = (longArm - station) / (longArm + shortArm);
    return { mass: armMass * share, centre: (longArm + station) / 2 };
  }
  let mass = 0;
  let moment = 0;
  for (const lump of lumps) {
    if (lump.station < station) continue;
    mass += lump.mass;
    moment += lump.mass * lump.station;
  }
  return { mass, centre: mass > 0 ? moment / mass : (longArm + station) / 2 };
}

/** Stations on the long arm, the pivot included and the tip not; and on the short one. */
const LONG_STATIONS = 15;
const SHORT_STATIONS = 5;

/** Where bending is looked at, m from the pivot towards the tip, from the short end on. */
export function stationsOf({ longArm, shortArm }: Body): number[] {
  const stations: number[] = [];
  if (shortArm > 0) {
    for (let i = SHORT_STATIONS - 1; i > 0; i--) stations.push((-shortArm * i) / SHORT_STATIONS);
  }
  for (let i = 0; i < LONG_STATIONS; i++) stations.push((longArm * i) / LONG_STATIONS);
  return stations;
}
