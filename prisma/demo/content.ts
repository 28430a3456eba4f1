/** Who takes part in the demo, with what, and what happened in its first two rounds. All invented. */
import type { z } from "zod";
import type { declarationSchema } from "../../lib/throw";
import { HEIGHT, MIDDLE, type Place } from "./site";

export const CONTEST = {
  slug: "harvest-fair",
  name: "Thistledown Harvest Fair",
  place: "Thistledown Meadow, an invented place",
  date: "2026-10-03",
  units: "metric",
  ...MIDDLE,
  height: HEIGHT,
  declination: -9.5,
  rounds: 3,
};

export const AIR = {
  air: { temperature: 286.15, pressure: 100_900, wind: { speed: 4, gust: 8 } },
  reason: "Limit for the day, after the morning's briefing.",
};

/** From north to south, on a line across the field; throws go east. */
export const FIRING_LINE: readonly Place[] = [
  [-110, 30],
  [-110, 18],
  [-110, 6],
  [-110, -6],
  [-110, -18],
  [-110, -30],
];

export const DIVISIONS = ["Heavy counterweight", "Light counterweight", "Free design"] as const;

type Declaration = z.input<typeof declarationSchema>;

interface DemoEntrant {
  number: number;
  name: string;
  division: (typeof DIVISIONS)[number];
  machine: {
    name: string;
    firingPoint: number;
    bearing: number;
    declaration: Declaration;
    /** The revision before, and what changed since. */
    was?: Declaration;
    change?: string;
  };
}

const PUMPKIN = { mass: 4, diameter: 0.22, shape: "pumpkin" } as const;
const GOURD = { mass: 1.5, diameter: 0.14, shape: "pumpkin" } as const;

const heavyHinged = (counterweightMass: number): Declaration => ({
  machine: {
    kind: "hinged-counterweight",
    longArm: 4.2,
    shortArm: 1.05,
    pivotHeight: 2.9,
    cockedAngle: 40,
    armMass: 42,
    counterweightMass,
    hangerLength: 0.8,
    slingLength: 3.6,
    troughFriction: 0.2,
    releaseAngle: 38,
  },
  projectile: PUMPKIN,
  // Built in a workshop, measured with a tape and weighed.
  tolerances: {
    longArm: 0.01,
    shortArm: 0.005,
    pivotHeight: 0.01,
    cockedAngle: 1,
    armMass: 1,
    counterweightMass: 2,
    hangerLength: 0.01,
    slingLength: 0.02,
    troughFriction: 0.05,
    leanAlong: 0.5,
    leanAcross: 0.5,
    mass: 0.1,
    diameter: 0.01,
  },
});

export const ENTRANTS: readonly DemoEntrant[] = [
  {
    number: 1,
    name: "Barley Hill Hurlers",
    division: "Heavy counterweight",
    machine: { name: "Patient Heron", firingPoint: 3, bearing: 90, declaration: heavyHinged(340) },
  },
  {
    number: 2,
    name: "Copper Kettle Crew",
    division: "Heavy counterweight",
    machine: {
      name: "Second Helping",
      firingPoint: 5,
      bearing: 92,
      declaration: {
        machine: {
          kind: "fixed-counterweight",
          longArm: 3.2,
          shortArm: 0.9,
          pivotHeight: 2.2,
          cockedAngle: 40,
          armMass: 28,
          counterweightMass: 310,
          counterweightInertia: 6,
          counterweightSize: 0.3,
          slingLength: 2.6,
          troughFriction: 0.2,
          releaseAngle: 40,
        },
        projectile: PUMPKIN,
      },
    },
  },
  {
    number: 3,
    name: "The Wheelwright Three",
    division: "Heavy counterweight",
    machine: { name: "Slow Monday", firingPoint: 1, bearing: 91.5, declaration: heavyHinged(305) },
  },
  {
    number: 4,
    name: "Damp Straw Society",
    division: "Light counterweight",
    machine: {
      name: "Duck Weather",
      firingPoint: 6,
      bearing: 86,
      declaration: {
        machine: {
          kind: "hinged-counterweight",
          longArm: 2.6,
          shortArm: 0.7,
          pivotHeight: 1.9,
          cockedAngle: 40,
          armMass: 16,
          counterweightMass: 120,
          hangerLength: 0.5,
          slingLength: 2.2,
          troughFriction: 0.2,
          releaseAngle: 38,
        },
        projectile: GOURD,
      },
    },
  },
  {
    number: 5,
    name: "North Paddock School",
    division: "Light counterweight",
    machine: {
      name: "Lunch Break",
      firingPoint: 2,
      bearing: 95,
      declaration: {
        machine: {
          kind: "fixed-counterweight",
          longArm: 3.2,
          shortArm: 0.9,
          pivotHeight: 2.2,
          cockedAngle: 40,
          armMass: 28,
          counterweightMass: 200,
          counterweightInertia: 4,
          counterweightSize: 0.25,
          slingLength: 2.6,
          troughFriction: 0.2,
          releaseAngle: 40,
        },
        projectile: PUMPKIN,
      },
    },
  },
  {
    number: 6,
    name: "Bent Nail Collective",
    division: "Light counterweight",
    machine: {
      name: "Quick Lettuce",
      firingPoint: 2,
      bearing: 91,
      declaration: {
        machine: {
          kind: "floating-arm",
          longArm: 2.7,
          shortArm: 1.35,
          trackHeight: 2.1,
          cockedAngle: 45,
          armMass: 16,
          counterweightMass: 180,
          counterweightSize: 0.25,
          carriageMass: 7,
          slingLength: 2.4,
          troughFriction: 0.2,
          releaseAngle: 42,
          endStop: 0.9,
        },
        projectile: PUMPKIN,
      },
    },
  },
  {
    number: 7,
    name: "Turnip Street Engineers",
    division: "Free design",
    machine: {
      name: "Spring Onion",
      firingPoint: 5,
      bearing: 90,
      declaration: {
        machine: { kind: "measured", releaseSpeed: 29, launchAngle: 41, launchHeight: 2.4 },
        projectile: PUMPKIN,
      },
    },
  },
  {
    number: 8,
    name: "Saddlers' Yard",
    division: "Free design",
    machine: {
      name: "Loud Uncle",
      firingPoint: 4,
      bearing: 89,
      // Faster since its rebuild: its backward reach now meets the spectator bank, as the map says.
      was: {
        machine: { kind: "measured", releaseSpeed: 29.5, launchAngle: 42, launchHeight: 3.1 },
        projectile: PUMPKIN,
      },
      change: "New springs; speed measured again, ten throws by video.",
      declaration: {
        machine: { kind: "measured", releaseSpeed: 37, launchAngle: 42, launchHeight: 3.1 },
        projectile: PUMPKIN,
      },
    },
  },
];

/** What the day is planned by, s: quick people on a small field. */
export const ORDER_RULES = { call: 60, clearing: 60, measure: 180, stepBack: 30, rearm: 900, live: 180 };

/** How long machines take that are slower or quicker than that, by entrant number, s. */
export const TIMES: Readonly<Record<number, { rearm: number; live: number }>> = {
  1: { rearm: 1800, live: 360 },
  2: { rearm: 1500, live: 300 },
  3: { rearm: 1800, live: 360 },
  4: { rearm: 600, live: 120 },
  8: { rearm: 480, live: 120 },
};

/** The entrant whose team gets a badge. */
export const TEAM_BADGE = 8;

/** A throw by its share of the meant distance and its degrees off the bearing, or what went wrong. */
export type MeasuredShot = { share: number; aside: number; byPosition?: true } | "foul" | "misfire" | "burst";

interface DemoEntry {
  first: MeasuredShot;
  corrected?: MeasuredShot;
  reason?: string;
}

const landed = (share: number, aside: number): DemoEntry => ({ first: { share, aside } });

/** By entrant number, a round each. */
export const FIXES: readonly Record<number, DemoEntry>[] = [
  {
    1: landed(0.968, 1.5),
    2: landed(1.012, -0.5),
    3: { first: "misfire" },
    4: { first: { share: 0.985, aside: -2, byPosition: true } },
    5: landed(0.941, 2.5),
    // Digits dropped, seen when the tape was read again.
    6: {
      first: { share: 0.0973, aside: -1 },
      corrected: { share: 0.973, aside: -1 },
      reason: "A digit was left out; the tape was read again with the other judge.",
    },
    7: landed(1.021, 0.5),
    8: { first: "foul" },
  },
  {
    1: landed(1.006, -1),
    2: landed(0.977, 1),
    3: landed(0.992, -1.5),
    4: landed(1.014, 0.5),
    5: { first: "burst" },
    6: landed(1.019, 1.5),
    7: landed(0.958, -2.5),
    8: { first: { share: 0.983, aside: 1.5, byPosition: true } },
  },
];
