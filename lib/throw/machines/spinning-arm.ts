/** An arm that a motor spins up: the projectile leaves its end along the circle. */
import { z } from "zod";
import type { Instant, Releases } from "../release";
import { FASTEST, flung, tooFast } from "./flung";
import type { MachineKind } from "./kind";
import { heightOrZero, length } from "./numbers";

const spinningArmSchema = z.strictObject({
  kind: z.literal("spinning-arm"),
  armLength: length,
  spinRate: z.number().positive().max(10_000),
  plane: z.enum(["vertical", "horizontal"]),
  releaseAngle: z.number().min(-360).max(360),
  releaseJitter: z.number().min(0).max(180).default(0),
  launchHeight: heightOrZero,
  tilt: z.number().min(0).max(45).default(0),
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
  ],
  motion: {
    by: "formula",
    releases: (machine) => (isLevel(machine) ? new LevelReleases(machine) : new UprightReleases(machine)),
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

/**
 * A level plane: a late release goes in any direction, from a point aside by the arm. The list holds one azimuth's
 * throws: nobody knows to which side the plane leans, so every elevation between −tilt and tilt belongs to every
 * azimuth, with the height that goes with it on the upper half of the circle.
 */
class LevelReleases implements Releases {
  readonly list: Instant[] = [];
  readonly nominal: Instant;
  readonly branches = ["Any instant of a turn at full spin, towards any side"];
  readonly allRound: { aside: number };

  constructor(private readonly machine: SpinningArm) {
    const { armLength, spinRate, launchHeight, tilt } = machine;
    this.allRound = { aside: armLength };
    const parts = Math.max(1, Math.ceil((2 * tilt) / SPACING));
    if (tilt === 0) this.list.push(this.at(0.5));
    else for (let i = 0; i <= parts; i++) this.list.push(this.at(i / parts));
    const azimuth = radians(machine.releaseAngle);
    const [cos, sin] = [Math.cos(azimuth), Math.sin(azimuth)];
    this.nominal = flung({
      fraction: 0.5,
      // Clockwise seen from above: the arm points to the left of where the projectile goes.
      x: armLength * sin,
      z: -armLength * cos,
      y: launchHeight,
      vx: armLength * spinRate * cos,
      vz: armLength * spinRate * sin,
      vy: 0,
    });
  }

  near(_instant: Instant, fraction: number): Instant {
    return this.at(fraction);
  }

  private at(fraction: number): Instant {
    const { armLength, spinRate, launchHeight, tilt } = this.machine;
    const lean = Math.sin(radians(tilt));
    const turn = Math.PI * fraction;
    const up = lean * Math.cos(turn);
    const speed = armLength * spinRate;
    return flung({
      time: turn / spinRate,
      fraction,
      x: 0,
      y: launchHeight + armLength * lean * Math.sin(turn),
      vx: speed * Math.sqrt(1 - up * up),
      vy: speed * up,
    });
  }
}
