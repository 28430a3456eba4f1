/** Compressed gas drives the projectile out of a barrel. */
import { z } from "zod";
import type { Instant, Releases } from "../release";
import { adiabaticSpeed, adiabaticTime, adiabaticWork, type Drive, isothermalSpeed } from "./chamber";
import { away, between, boxAlong, type Drawing, type Mark, type Part, type Point } from "./drawing";
import { FASTEST, flung, tooFast } from "./flung";
import type { Conditions, MachineKind, Way } from "./kind";
import { heightOrZero, length, mass } from "./numbers";
import { type Shot, shootThroughValve, ValveShot } from "./valve";

const pressure = z.number().min(1).max(1e8);

const airCannonSchema = z.strictObject({
  kind: z.literal("air-cannon"),
  chamberVolume: z.number().min(1e-6).max(100),
  chamberPressure: pressure,
  barrelLength: length,
  boreDiameter: z.number().min(0.001).max(5),
  elevation: z.number().min(-90).max(180),
  muzzleHeight: heightOrZero,
  friction: z.number().min(0).max(1e7).default(0),
  valve: z
    .union([
      z.literal("ideal"),
      z.strictObject({
        flowCoefficient: z.number().positive().max(1e6),
        openingTime: z.number().min(0).max(10).default(0),
      }),
    ])
    .default("ideal"),
  ratedPressure: pressure,
  capMass: mass.optional(),
});

export type AirCannon = z.output<typeof airCannonSchema>;

export const airCannon: MachineKind<typeof airCannonSchema> = {
  kind: "air-cannon",
  title: "Air cannon",
  summary: "Compressed air from a chamber drives the projectile out of a barrel.",
  schema: airCannonSchema,
  choices: [
    {
      name: "valve",
      label: "Valve",
      help: "What the throw as meant is computed with; the worst case always takes a valve that does not hinder.",
      options: [
        { value: "ideal", label: "Does not hinder" },
        { value: "real", label: "Known flow and opening" },
      ],
      // The numbers of a real valve are fields of their own, and an object in the API.
      writes: { real: {} },
      reads: ({ valve }) => (valve === undefined || valve === "ideal" ? "ideal" : "real"),
    },
  ],
  parameters: [
    {
      name: "chamberVolume",
      label: "Chamber volume",
      dimension: "volume",
      required: true,
      help: "Of everything that is under pressure before the shot, up to the valve.",
      tolerance: { share: 0.03 },
    },
    {
      name: "chamberPressure",
      label: "Chamber pressure",
      dimension: "gauge",
      required: true,
      help: "Above the air around, at the trigger, as its gauge reads.",
      tolerance: { share: 0.05 },
    },
    {
      name: "barrelLength",
      label: "Barrel length",
      dimension: "length",
      required: true,
      help: "On which the gas drives the projectile: from where it rests to the muzzle.",
      tolerance: { share: 0.01 },
    },
    {
      name: "boreDiameter",
      label: "Bore",
      dimension: "length",
      required: true,
      help: "Inside diameter of the barrel, on which the gas presses; the projectile's own diameter is for the flight.",
      tolerance: { share: 0.005 },
    },
    {
      name: "elevation",
      label: "Elevation",
      dimension: "angle",
      required: true,
      help: "Of the barrel above the horizontal downrange.",
      tolerance: { plus: 3 },
    },
    {
      name: "muzzleHeight",
      label: "Muzzle height",
      dimension: "length",
      required: true,
      help: "Above the ground.",
      tolerance: { plus: 0.1 },
    },
    {
      name: "friction",
      label: "Friction in the barrel",
      dimension: "force",
      required: false,
      help: "A constant force against the projectile; 0 if left empty, which throws farthest.",
      tolerance: { share: 0.3 },
    },
    {
      name: "valve.flowCoefficient",
      label: "Flow coefficient Kv",
      dimension: "ratio",
      required: true,
      help: "How well the open valve lets through, as its maker states it: cubic metres of water an hour at 1 bar. Of a Cv (US gallons a minute at 1 psi) enter 0.865 of it. Unknown: choose the ideal valve, which throws farthest.",
      onlyNominal: true,
      when: { choice: "valve", is: "real" },
    },
    {
      name: "valve.openingTime",
      label: "Opening time",
      dimension: "time",
      required: false,
      help: "From the trigger to fully open, evenly; 0 if left empty.",
      onlyNominal: true,
      when: { choice: "valve", is: "real" },
    },
    {
      name: "ratedPressure",
      label: "Rated pressure",
      dimension: "gauge",
      required: true,
      help: "The lowest rating of chamber, valve, barrel and fittings for gas, not for water, as marked on them.",
    },
    {
      name: "capMass",
      label: "Heaviest cap",
      dimension: "mass",
      required: false,
      help: "Of the end cap, barrel or valve that may be shot off when the chamber fails.",
    },
  ],
  drawing,
  motion: {
    by: "formula",
    releases: (machine, conditions) => new CannonReleases(machine, conditions),
    way: barrelWay,
    parts: ({ chamberVolume, chamberPressure, boreDiameter, muzzleHeight, ratedPressure, capMass }) => ({
      chamberVolume,
      chamberPressure,
      boreDiameter,
      muzzleHeight,
      ratedPressure,
      capMass,
    }),
    ceiling: (machine, conditions) => ({
      speed: isothermalSpeed(driveOf(machine, conditions), conditions.projectile.mass),
      height: machine.muzzleHeight,
      reach: 0,
    }),
  },
  refusals: (machine, conditions) => {
    if (adiabaticWork(driveOf(machine, conditions)) > 0) return [];
    const message =
      "The gas does not drive the projectile out of the barrel: the air and friction take more than it gives. Raise the chamber's pressure or volume, or shorten the barrel.";
    return [{ field: "chamberPressure", message }];
  },
  limits: (machine, conditions) => {
    const out: { path: string[]; message: string }[] = [];
    const { projectile } = conditions;
    if (machine.chamberPressure > machine.ratedPressure) {
      const message = `The chamber's pressure of ${bar(machine.chamberPressure)} is above its rating of ${bar(machine.ratedPressure)}. Lower the pressure, or use a vessel rated for it.`;
      out.push({ path: ["machine", "chamberPressure"], message });
    }
    if (projectile.diameter > machine.boreDiameter) {
      const message = `The projectile of ${millimetres(projectile.diameter)} does not fit the bore of ${millimetres(machine.boreDiameter)}. Measure both again.`;
      out.push({ path: ["machine", "boreDiameter"], message });
    }
    const speed = adiabaticSpeed(driveOf(machine, conditions), projectile.mass);
    if (speed > FASTEST) {
      const message = tooFast(
        speed,
        "Check pressure (in pascals: 6 bar is 600000), bore and projectile mass.",
      );
      out.push({ path: ["machine", "chamberPressure"], message });
    }
    return out;
  },
  notModelled: [
    "The inertia of the gas, leaks past the projectile and gravity along the barrel: but for a barrel so long that the gas pulls the projectile back, every one makes the throw shorter.",
    "A barrel that is pointed elsewhere than declared: see the faults; keep it pinned to its mount.",
    "Gases other than air, liquid gas, steam and anything that burns: they do more work than computed here.",
  ],
  example: {
    kind: "air-cannon",
    chamberVolume: 0.02,
    chamberPressure: 350_000,
    barrelLength: 2.4,
    boreDiameter: 0.105,
    elevation: 38,
    muzzleHeight: 1.7,
    friction: 30,
    valve: { flowCoefficient: 90, openingTime: 0.03 },
    ratedPressure: 600_000,
    capMass: 1.4,
  },
  exampleProjectile: { mass: 0.8, diameter: 0.1 },
};

const bar = (pascals: number) => `${(pascals / 1e5).toFixed(2)} bar`;
const millimetres = (metres: number) => `${(metres * 1000).toFixed(1)} mm`;

/** The bore's area drives; the chamber holds its gauge pressure above the air around. */
export function driveOf(machine: AirCannon, { pressure: atmosphere }: Pick<Conditions, "pressure">): Drive {
  return {
    volume: machine.chamberVolume,
    pressure: machine.chamberPressure + atmosphere,
    area: (Math.PI / 4) * machine.boreDiameter ** 2,
    length: machine.barrelLength,
    atmosphere,
    friction: machine.friction,
  };
}

/** Slower shots than these parts of the ideal one differ little from their neighbours. */
const SPEEDS = 48;
const STANDARD_TEMPERATURE = 288.15; // K, ISO 2533

/**
 * Any speed from 0 (a valve that hangs, a leak) to the ideal valve's, at the muzzle along the barrel. What goes
 * uprange is what these do: an elevation beyond 90° within its tolerance, or the wind.
 */
class CannonReleases implements Releases {
  readonly list: Instant[] = [];
  readonly branches = ["Any speed up to that of a valve that does not hinder"];
  readonly allRound = null;
  private readonly drive: Drive;
  private readonly fastest: number;
  private readonly time: number;
  private shot: Shot | null | undefined;

  constructor(
    private readonly machine: AirCannon,
    private readonly conditions: Conditions,
  ) {
    const { mass } = conditions.projectile;
    this.drive = driveOf(machine, conditions);
    this.fastest = adiabaticSpeed(this.drive, mass);
    const time = adiabaticTime(this.drive, mass);
    this.time = Number.isFinite(time) ? time : 0;
    for (let i = 0; i <= SPEEDS; i++) this.list.push(this.at(i / SPEEDS));
  }

  /** With the declared valve; worked out only when asked for. */
  get nominal(): Instant | null {
    const shot = this.declaredShot();
    if (!shot) return null;
    return { ...this.at(shot.speed / this.fastest), time: shot.time };
  }

  get nominalReason(): string | null {
    return this.declaredShot()
      ? null
      : "With the declared valve the projectile is not seen to leave the barrel: the gas comes too slowly to drive it out.";
  }

  near(_instant: Instant, fraction: number): Instant {
    return this.at(fraction);
  }

  private declaredShot(): Shot | null {
    if (this.shot === undefined) this.shot = this.shoot();
    return this.shot;
  }

  private shoot(): Shot | null {
    const { valve } = this.machine;
    if (this.fastest === 0) return null;
    if (valve === "ideal") return { speed: this.fastest, time: this.time };
    const { projectile, temperature } = this.conditions;
    try {
      return shootThroughValve(this.drive, valve, projectile.mass, temperature ?? STANDARD_TEMPERATURE);
    } catch (error) {
      // A valve that cannot be followed decides nothing but the throw as meant.
      if (error instanceof RangeError) return null;
      throw error;
    }
  }

  private at(fraction: number): Instant {
    const angle = (this.machine.elevation * Math.PI) / 180;
    const speed = fraction * this.fastest;
    return flung({
      time: this.time,
      fraction,
      x: 0,
      y: this.machine.muzzleHeight,
      vx: speed * Math.cos(angle),
      vy: speed * Math.sin(angle),
    });
  }
}

/** From the breech to the muzzle. */
function barrelWay(machine: AirCannon, conditions: Conditions): Way {
  const { barrelLength, muzzleHeight, elevation, valve } = machine;
  const { projectile, temperature } = conditions;
  const drive = driveOf(machine, conditions);
  const angle = (elevation * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const instants: Instant[] = [];
  const each = (time: number, way: number, speed: number) => {
    const x = (way - barrelLength) * cos;
    const y = muzzleHeight + (way - barrelLength) * sin;
    instants.push(flung({ time, fraction: way / barrelLength, x, y, vx: speed * cos, vy: speed * sin }));
  };
  if (valve === "ideal") adiabaticTime(drive, projectile.mass, each);
  else new ValveShot(drive, valve, projectile.mass, temperature ?? STANDARD_TEMPERATURE).run(each);
  return { instants };
}

/** The chamber as a level cylinder about twice as long as wide, behind the barrel. */
function drawing(machine: AirCannon): Drawing {
  const { barrelLength, boreDiameter, elevation, muzzleHeight, chamberVolume, valve } = machine;
  const muzzle: Point = [0, muzzleHeight];
  const breech = away(muzzle, elevation, -barrelLength);
  const breadth = Math.max(1.5 * boreDiameter, Math.cbrt((2 * chamberVolume) / Math.PI));
  const long = chamberVolume / ((Math.PI / 4) * breadth ** 2);
  const gap = Math.max(0.12 * barrelLength, boreDiameter);
  const behind = breech[0] > 0 ? 1 : -1;
  const neck = away(breech, elevation, -gap / 2);
  const front: Point = [breech[0] + behind * gap, Math.max(neck[1], 0.6 * breadth)];
  const back: Point = [front[0] + behind * long, front[1]];
  const prop = between(breech, muzzle, 0.55);
  const level: Point = [breech[0] - behind * 0.75 * barrelLength, breech[1]];
  const low = Math.min(0, breech[1] - boreDiameter);
  const upright = (from: Point): Part => ({ type: "frame", points: [from, [from[0], 0]] });
  const valveMarks: Mark[] =
    valve === "ideal"
      ? []
      : [
          { parameter: "valve.flowCoefficient", type: "spot", at: neck, dx: -34, dy: 66 },
          { parameter: "valve.openingTime", type: "spot", at: neck, dx: 10, dy: 84 },
        ];
  return {
    parts: [
      upright(prop),
      upright(between(back, front, 0.2)),
      upright(between(back, front, 0.8)),
      { type: "ghost", points: [breech, level] },
      { type: "frame", points: [front, neck, breech] },
      { type: "box", points: boxAlong(breech, muzzle, 1.25 * boreDiameter) },
      { type: "box", points: boxAlong(back, front, breadth) },
      {
        type: "beam",
        points: [away(back, 90, 0.55 * breadth), away(back, -90, 0.55 * breadth)],
      },
      { type: "joint", centre: neck },
      { type: "projectile", centre: away(breech, elevation, 0.6 * boreDiameter) },
      { type: "arrow", points: [muzzle, away(muzzle, elevation, 0.2 * barrelLength)] },
    ],
    marks: [
      ...valveMarks,
      { parameter: "chamberVolume", type: "spot", at: between(back, front, 0.4), dx: -20, dy: 52 },
      { parameter: "chamberPressure", type: "spot", at: between(back, front, 0.35), dx: -30, dy: 84 },
      { parameter: "ratedPressure", type: "spot", at: between(back, front, 0.75), dx: 70, dy: -44 },
      { parameter: "capMass", type: "spot", at: back, dx: -40, dy: -6 },
      { parameter: "barrelLength", type: "span", from: breech, to: muzzle, offset: 38, at: 0.6 },
      { parameter: "boreDiameter", type: "spot", at: muzzle, dx: 44, dy: -24 },
      { parameter: "elevation", type: "angle", vertex: breech, radius: 120, from: 0, to: elevation },
      { parameter: "muzzleHeight", type: "span", from: [0, 0], to: muzzle, offset: -20, at: 0.35 },
      { parameter: "friction", type: "spot", at: between(breech, muzzle, 0.3), dx: -18, dy: 30 },
    ],
    extent: [
      [back[0] + behind * 0.5 * breadth, back[1] + breadth],
      muzzle,
      away(muzzle, elevation, 0.25 * barrelLength),
      [0, low],
    ],
    note: "To scale; the chamber is drawn as a level cylinder of its volume.",
  };
}
