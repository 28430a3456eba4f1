/** An arm that a motor spins up: the projectile leaves its end along the circle. */
import { z } from "zod";
import type { Instant, Releases } from "../release";
import { away, between, type Drawing, type Mark, type Part, type Point } from "./drawing";
import { FASTEST, flung, tooFast } from "./flung";
import type { MachineKind, Way } from "./kind";
import { heightOrZero, length, massOrZero } from "./numbers";

const spinningArmSchema = z.strictObject({
  kind: z.literal("spinning-arm"),
  armLength: length,
  spinRate: z.number().min(0.001).max(10_000),
  plane: z.enum(["vertical", "horizontal"]),
  releaseAngle: z.number().min(-360).max(360),
  releaseJitter: z.number().min(0).max(180).default(0),
  launchHeight: heightOrZero,
  tilt: z.number().min(0).max(45).default(0),
  armMass: massOrZero.optional(),
});

type SpinningArm = z.output<typeof spinningArmSchema>;

const radians = (degrees: number) => (degrees * Math.PI) / 180;
const isLevel = ({ plane }: SpinningArm) => plane === "horizontal";

export const spinningArm: MachineKind<typeof spinningArmSchema> = {
  kind: "spinning-arm",
  title: "Spinning arm",
  summary: "A motor spins an arm up, in an upright or a level plane, and the projectile leaves its end.",
  schema: spinningArmSchema,
  choices: [
    {
      name: "plane",
      label: "Plane of the arm",
      help: "Upright: the top of the circle moves downrange. Level: clockwise seen from above.",
      options: [
        { value: "vertical", label: "Upright" },
        { value: "horizontal", label: "Level" },
      ],
    },
  ],
  parameters: [
    {
      name: "armLength",
      label: "Arm length",
      dimension: "length",
      required: true,
      help: "From the axis to the centre of the projectile at full spin.",
      tolerance: { share: 0.01 },
    },
    {
      name: "spinRate",
      label: "Spin rate",
      dimension: "rate",
      required: true,
      help: "The fastest that the motor can turn the arm, whatever is meant.",
      tolerance: { share: 0.05 },
    },
    {
      name: "releaseAngle",
      label: "Release angle",
      dimension: "angle",
      required: true,
      help: "Direction in which it is meant to leave: upright above the horizontal downrange, level to the right of the bearing.",
      onlyNominal: true,
      toleranceFrom: "releaseJitter",
    },
    {
      name: "releaseJitter",
      label: "Release jitter",
      dimension: "angle",
      required: false,
      help: "How far either way the release angle comes out from one throw to the next, 0 if left empty; the worst case takes the whole circle.",
      onlyNominal: true,
    },
    {
      name: "launchHeight",
      label: "Axis height",
      dimension: "length",
      required: true,
      help: "Of the middle of the circle above the ground.",
      tolerance: { plus: 0.1 },
    },
    {
      name: "tilt",
      label: "Tilt of a level plane",
      dimension: "angle",
      required: false,
      help: "By which a level plane leans, to any side; 0 if left empty. It raises throws by as much.",
      tolerance: { plus: 2 },
      when: { choice: "plane", is: "horizontal" },
    },
    {
      name: "armMass",
      label: "Arm mass",
      dimension: "mass",
      required: false,
      help: "Without projectile and balance weight: for what a broken arm throws and what the hub bears.",
    },
  ],
  drawing: (machine) => (isLevel(machine) ? levelDrawing(machine) : uprightDrawing(machine)),
  motion: {
    by: "formula",
    releases: (machine) => (isLevel(machine) ? new LevelReleases(machine) : new UprightReleases(machine)),
    way: turnOf,
    parts: ({ armLength, armMass, spinRate, plane, launchHeight }) => ({
      armLength,
      armMass,
      spinRate,
      plane,
      launchHeight,
    }),
    ceiling: (machine) => ({
      speed: machine.armLength * machine.spinRate,
      height: machine.launchHeight + machine.armLength * rise(machine),
      reach: machine.armLength,
    }),
  },
  limits: (machine) => {
    const out: { path: string[]; message: string }[] = [];
    const { armLength, launchHeight } = machine;
    const low = launchHeight - armLength * rise(machine);
    if (low < 0) {
      const message = `The arm would strike the ground: the circle reaches ${(-low).toFixed(2)} m below it. Raise the axis, or shorten the arm${isLevel(machine) ? " or tilt it less" : ""}.`;
      out.push({ path: ["machine", "launchHeight"], message });
    }
    const speed = armLength * machine.spinRate;
    if (speed > FASTEST) {
      const message = tooFast(speed, "Give the spin rate in radians a second: 60 rev/min is 6.28.");
      out.push({ path: ["machine", "spinRate"], message });
    }
    return out;
  },
  notModelled: [
    "The arm's drive: the spin rate is taken as the fastest it can turn, and as steady while the projectile leaves.",
    "Spin-up: what leaves then is slower than at full spin, in the same directions.",
    "A sling or a cup that lets the projectile move outwards as it leaves: give the arm length to its farthest place.",
    "An arm or a balance weight that comes off: it leaves as the projectile does, in any direction of the circle.",
  ],
  example: {
    kind: "spinning-arm",
    armLength: 1.6,
    spinRate: 19,
    plane: "vertical",
    releaseAngle: 42,
    releaseJitter: 6,
    launchHeight: 2.4,
    tilt: 0,
  },
  exampleProjectile: { mass: 1.2, diameter: 0.14 },
};

/** How far above the axis the circle reaches, as a share of the arm. */
const rise = (machine: SpinningArm) => (isLevel(machine) ? Math.sin(radians(machine.tilt)) : 1);

/** Degrees of the circle between neighbouring instants: less than a flight changes noticeably in. */
const SPACING = 3;

/** Every direction of one turn at full spin, from straight up over downrange: the top moves downrange. */
class UprightReleases implements Releases {
  readonly list: Instant[] = [];
  readonly nominal: Instant;
  readonly branches = ["Any instant of a turn at full spin"];
  readonly allRound = null;

  constructor(private readonly machine: SpinningArm) {
    const parts = 360 / SPACING;
    for (let i = 0; i <= parts; i++) this.list.push(this.at(i / parts));
    // From straight up the direction falls as the arm turns.
    const turned = (90 - machine.releaseAngle) / 360;
    this.nominal = this.at(turned - Math.floor(turned));
  }

  near(_instant: Instant, fraction: number): Instant {
    return this.at(fraction);
  }

  private at(fraction: number): Instant {
    const { armLength, spinRate, launchHeight } = this.machine;
    const direction = Math.PI / 2 - 2 * Math.PI * fraction;
    const [cos, sin] = [Math.cos(direction), Math.sin(direction)];
    const speed = armLength * spinRate;
    return flung({
      time: (2 * Math.PI * fraction) / spinRate,
      fraction,
      x: -armLength * sin,
      y: launchHeight + armLength * cos,
      vx: speed * cos,
      vy: speed * sin,
    });
  }
}

/** The last turn before the release as meant. */
function turnOf(machine: SpinningArm): Way {
  const { spinRate, launchHeight } = machine;
  const { nominal } = isLevel(machine) ? new LevelReleases(machine) : new UprightReleases(machine);
  const period = (2 * Math.PI) / spinRate;
  const parts = 360 / SPACING;
  const { x, y, vx, vy, z = 0, vz = 0, time } = nominal;
  const instants = Array.from({ length: parts + 1 }, (_, i) => {
    const before = 2 * Math.PI * (1 - i / parts);
    const [cos, sin] = [Math.cos(before), Math.sin(before)];
    // A circle about the axis, back from where it is left: place and velocity stand square to each other.
    return flung({
      time: time - (1 - i / parts) * period,
      fraction: i / parts,
      x: x * cos - (vx / spinRate) * sin,
      y: launchHeight + (y - launchHeight) * cos - (vy / spinRate) * sin,
      z: z * cos - (vz / spinRate) * sin,
      vx: vx * cos + x * spinRate * sin,
      vy: vy * cos + (y - launchHeight) * spinRate * sin,
      vz: vz * cos + z * spinRate * sin,
    });
  });
  return { instants, period };
}

/**
 * A level plane: a late release goes in any direction, from a point aside by the arm. The list holds one azimuth's
 * throws and those the other way: nobody knows to which side the plane leans, so the throws of every place on a
 * tilted circle belong to every azimuth, with the height that goes with each.
 */
class LevelReleases implements Releases {
  readonly list: Instant[] = [];
  readonly nominal: Instant;
  readonly branches = ["Any instant of a turn, thrown downrange", "Any instant of a turn, thrown uprange"];
  readonly allRound: { aside: number };

  constructor(private readonly machine: SpinningArm) {
    const { armLength, spinRate, launchHeight, tilt } = machine;
    this.allRound = { aside: armLength };
    // The elevation swings between −tilt and tilt in a turn: a small tilt takes few places.
    const parts = Math.max(12, Math.ceil((360 * Math.sin(radians(tilt))) / SPACING));
    for (const way of [0, 1]) {
      if (tilt === 0) this.list.push(this.at(way, 0));
      else for (let i = 0; i <= parts; i++) this.list.push(this.at(way, i / parts));
    }
    const azimuth = radians(machine.releaseAngle);
    const [cos, sin] = [Math.cos(azimuth), Math.sin(azimuth)];
    this.nominal = flung({
      fraction: 0,
      // Clockwise seen from above: the arm points to the left of where the projectile goes.
      x: armLength * sin,
      z: -armLength * cos,
      y: launchHeight,
      vx: armLength * spinRate * cos,
      vz: armLength * spinRate * sin,
      vy: 0,
    });
  }

  near({ step }: Instant, fraction: number): Instant {
    return this.at(step, fraction);
  }

  /** @param way 0 along the bearing, 1 against it */
  private at(way: number, fraction: number): Instant {
    const { armLength, spinRate, launchHeight, tilt } = this.machine;
    const lean = Math.sin(radians(tilt));
    const turn = 2 * Math.PI * fraction;
    const up = lean * Math.cos(turn);
    const level = Math.sqrt(1 - up * up);
    const sign = way === 0 ? 1 : -1;
    const speed = armLength * spinRate;
    const raised = armLength * lean * Math.sin(turn);
    return flung({
      time: turn / spinRate,
      step: way,
      segment: way,
      fraction,
      // The arm stays square to the velocity, so where that climbs a raised place lies behind.
      x: (-sign * raised * up) / level,
      y: launchHeight + raised,
      vx: sign * speed * level,
      vy: speed * up,
    });
  }
}

/** The circle about its axis, the arm as the projectile leaves it, towards an angle of the picture. */
function circleOf(axis: Point, { armLength }: SpinningArm, leaves: number): { parts: Part[]; marks: Mark[] } {
  const end = away(axis, leaves + 90, armLength);
  const head = away(end, leaves, 0.75 * armLength);
  return {
    parts: [
      { type: "arc", centre: axis, radius: armLength, from: 0, to: 180 },
      { type: "arc", centre: axis, radius: armLength, from: 180, to: 360 },
      { type: "ghost", points: [end, [end[0] + 0.9 * armLength, end[1]]] },
      { type: "beam", points: [axis, end] },
      { type: "arrow", points: [end, head] },
      { type: "joint", centre: axis },
      { type: "projectile", centre: end },
    ],
    marks: [
      { parameter: "armLength", type: "span", from: axis, to: end, offset: 26 },
      { parameter: "spinRate", type: "spot", at: axis, dx: 44, dy: 10 },
      { parameter: "releaseAngle", type: "angle", vertex: end, radius: 96, from: 0, to: leaves },
      { parameter: "releaseJitter", type: "spot", at: between(end, head, 0.9), dx: -40, dy: 30 },
    ],
  };
}

function uprightDrawing(machine: SpinningArm): Drawing {
  const { armLength, launchHeight, releaseAngle } = machine;
  const axis: Point = [0, launchHeight];
  const { parts, marks } = circleOf(axis, machine, releaseAngle);
  const end = away(axis, releaseAngle + 90, armLength);
  const foot = 0.3 * launchHeight;
  return {
    parts: [{ type: "frame", points: [[-foot, 0], axis, [foot, 0]] }, ...parts],
    marks: [
      ...marks,
      { parameter: "launchHeight", type: "span", from: [0, 0], to: axis, offset: 0, at: 0.25 },
    ],
    extent: [
      [-armLength, launchHeight + armLength],
      [armLength, Math.min(0, launchHeight - armLength)],
      away(end, releaseAngle, 0.8 * armLength),
    ],
    note: "To scale; the arm is drawn as the projectile leaves it, turning clockwise.",
  };
}

/** From the side below; above it the same seen from above, with the bearing to the right. */
function levelDrawing(machine: SpinningArm): Drawing {
  const { armLength, launchHeight, releaseAngle, tilt = 0 } = machine;
  const axis: Point = [0, launchHeight];
  const above: Point = [0, launchHeight + 1.55 * armLength];
  const { parts, marks } = circleOf(above, machine, -releaseAngle);
  const end = away(above, 90 - releaseAngle, armLength);
  const foot = 0.2 * armLength;
  return {
    parts: [
      {
        type: "frame",
        points: [
          [-foot, 0],
          [0, 0.5 * launchHeight],
          [foot, 0],
        ],
      },
      { type: "frame", points: [[0, 0.5 * launchHeight], axis] },
      { type: "ghost", points: [away(axis, tilt, -1.15 * armLength), away(axis, tilt, 1.15 * armLength)] },
      { type: "beam", points: [away(axis, 0, -armLength), away(axis, 0, armLength)] },
      { type: "joint", centre: axis },
      ...parts,
    ],
    marks: [
      ...marks,
      { parameter: "launchHeight", type: "span", from: [0, 0], to: axis, offset: 28, at: 0.4 },
      { parameter: "tilt", type: "angle", vertex: axis, radius: 120, from: 0, to: tilt },
    ],
    extent: [
      [-1.15 * armLength, 0],
      [1.15 * armLength, above[1] + armLength],
      away(end, -releaseAngle, 0.8 * armLength),
    ],
    note: "To scale: below from the side, above it seen from above with the bearing to the right, as the projectile leaves.",
  };
}
