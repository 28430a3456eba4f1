/** What is drawn back and let fly: bows, bungees, springs, slingshots pulled by hand. */
import { z } from "zod";
import { fallThroughZero } from "../numeric/root";
import type { Instant, Releases } from "../release";
import { DrawCurve, LEAST_STEP } from "./draw-curve";
import { away, between, type Drawing, type Point } from "./drawing";
import { FASTEST, flung, tooFast } from "./flung";
import type { Conditions, MachineKind } from "./kind";
import { heightOrZero, mass, massOrZero } from "./numbers";

const drawSchema = z
  .array(z.strictObject({ length: z.number().min(0).max(100), force: z.number().min(0).max(1e7) }))
  .min(2)
  .max(200)
  .superRefine((points, context) => {
    points.forEach(({ length }, i) => {
      if (i === 0 || length >= points[i - 1].length + LEAST_STEP) return;
      const message = `Every draw length must exceed the one before: ${length} m comes after ${points[i - 1].length} m.`;
      context.addIssue({ code: "custom", path: [i, "length"], message });
    });
  });

const tensionSchema = z.strictObject({
  kind: z.literal("tension"),
  draw: drawSchema,
  drawForceScale: z.number().positive().max(5).default(1),
  movingMass: massOrZero,
  limbMass: mass.optional(),
  launchAngle: z.number().min(-90).max(180),
  launchHeight: heightOrZero,
});

type Tension = z.output<typeof tensionSchema>;

export const tension: MachineKind<typeof tensionSchema> = {
  kind: "tension",
  title: "Bow, bungee or spring",
  summary: "Limbs, cords or springs are drawn back and shoot the projectile along a straight line.",
  schema: tensionSchema,
  parameters: [
    {
      name: "movingMass",
      label: "Moving mass",
      dimension: "mass",
      required: true,
      help: "What moves along with the projectile: pouch and carriage in full, a third of an elastic cord, about a tenth of a bow's limbs; 0 throws farthest.",
      tolerance: { share: 0.2 },
    },
    {
      name: "limbMass",
      label: "Mass of limbs or cords",
      dimension: "mass",
      required: false,
      help: "Of the limbs, cords or springs themselves: how fast their pieces fly when they break. As light as the moving mass if left empty, which is the worst.",
    },
    {
      name: "launchAngle",
      label: "Launch angle",
      dimension: "angle",
      required: true,
      help: "Of the line along which it is drawn, above the horizontal; 0 is level downrange.",
      tolerance: { plus: 3 },
    },
    {
      name: "launchHeight",
      label: "Launch height",
      dimension: "length",
      required: true,
      help: "Of the projectile above the ground where the cords are at rest and it leaves.",
      tolerance: { plus: 0.1 },
    },
    {
      name: "drawForceScale",
      label: "Draw force, scale",
      dimension: "ratio",
      required: false,
      help: "Multiplies every draw force, 1 if left empty; its tolerance is how far all of them may err: cold or new cords pull harder.",
      tolerance: { plus: 0.1 },
    },
  ],
  tables: [
    {
      name: "draw",
      label: "Draw force against draw length",
      help: "Measured with a scale, from the rest position to the farthest that anybody can draw it; straight lines between the points, and from no force at length 0 to a first point beyond it.",
      columns: [
        { name: "length", label: "Draw length", dimension: "length" },
        { name: "force", label: "Draw force", dimension: "force" },
      ],
      fewest: 2,
      most: 200,
    },
  ],
  drawing,
  motion: {
    by: "formula",
    releases: (machine, conditions) => new TensionReleases(machine, conditions),
    way: (machine, conditions) => ({
      instants: new TensionReleases(machine, conditions).list.filter(({ hangUp }) => !hangUp),
    }),
    parts: ({ draw, drawForceScale, movingMass, limbMass, launchHeight }) => ({
      draw,
      drawForceScale,
      movingMass,
      limbMass,
      launchHeight,
    }),
    ceiling: (machine, { projectile, gravity }) => {
      const curve = curveOf(machine);
      const rise = curve.length * Math.sin(radians(machine.launchAngle));
      return {
        // A line that slopes down adds what the projectile falls along it.
        speed: Math.sqrt((2 * curve.energy) / projectile.mass + 2 * gravity * Math.max(0, -rise)),
        height: machine.launchHeight + Math.abs(rise),
        reach: curve.length * Math.abs(Math.cos(radians(machine.launchAngle))),
      };
    },
  },
  refusals: (machine, conditions) => {
    const stroke = new Stroke(machine, conditions);
    for (let i = 1; i <= SAMPLES; i++) {
      const at = -stroke.length * (1 - (i / SAMPLES) ** 2);
      if (stroke.speedSquared(at) > 0) continue;
      const message =
        "The draw force does not drive the projectile along the whole stroke. Give the forces in newtons from length 0 on, or lower the launch angle.";
      return [{ field: "draw", message }];
    }
    return [];
  },
  limits: (machine, conditions) => {
    const out: { path: string[]; message: string }[] = [];
    const { length } = curveOf(machine);
    const drawn = machine.launchHeight - length * Math.sin(radians(machine.launchAngle));
    if (drawn < 0) {
      const message = `The drawn projectile would lie ${(-drawn).toFixed(2)} m below the ground. Raise the launch height, or draw less or flatter.`;
      out.push({ path: ["machine", "launchHeight"], message });
    }
    const speed = Math.sqrt(Math.max(0, new Stroke(machine, conditions).speedSquared(0)));
    if (speed > FASTEST) {
      out.push({
        path: ["machine", "draw"],
        message: tooFast(speed, "Check the draw forces and the masses."),
      });
    }
    return out;
  },
  notModelled: [
    "Losses in cords and limbs, and the moving mass's own weight: every throw is computed a little too far for them.",
    "Cords, limbs or a carriage that break or come along: see the faults.",
    "A pouch that swings off its line as it rebounds: the angle of a torn sling is meant to cover it.",
    "A draw beyond the last point of the curve: give the curve to the farthest that anybody can draw it.",
  ],
  example: {
    kind: "tension",
    draw: [
      { length: 0, force: 0 },
      { length: 0.5, force: 260 },
      { length: 1.4, force: 520 },
      { length: 2.2, force: 830 },
    ],
    drawForceScale: 1,
    movingMass: 0.6,
    limbMass: 1.4,
    launchAngle: 38,
    launchHeight: 1.8,
  },
  exampleProjectile: { mass: 0.9, diameter: 0.12 },
};

const radians = (degrees: number) => (degrees * Math.PI) / 180;
const curveOf = ({ draw, drawForceScale }: Tension) => new DrawCurve(draw, drawForceScale);

/** Parts into which each leg of the way is divided. */
const SAMPLES = 40;

/**
 * The line of the launch: `s` is the way from the rest position, m, negative while drawn. ½(m + movingMass)·v² is
 * the work of the draw force less m·g times the height gained. Past rest the cords are taken to draw out again as
 * they were, so that what hangs in the pouch keeps its energy.
 */
class Stroke {
  readonly length: number;
  private readonly curve: DrawCurve;
  private readonly mass: number;
  private readonly weight: number;
  private readonly start: number;

  constructor(machine: Tension, { projectile, gravity }: Conditions) {
    this.curve = curveOf(machine);
    this.length = this.curve.length;
    this.mass = projectile.mass + machine.movingMass;
    this.weight = projectile.mass * gravity * Math.sin(radians(machine.launchAngle));
    this.start = this.potential(-this.length);
  }

  speedSquared(s: number): number {
    return (2 * (this.start - this.potential(s))) / this.mass;
  }

  private potential(s: number): number {
    return this.curve.work(Math.abs(s)) + this.weight * s;
  }
}

/**
 * The way of a projectile that never leaves its pouch, in four legs: driven to the rest position, on past it to
 * where it stops, back to rest and on to where it was drawn. Every leg is cut so that the speed changes evenly.
 */
class TensionReleases implements Releases {
  readonly list: Instant[] = [];
  readonly nominal: Instant;
  readonly branches = ["Driven by the cords", "Hanging in its pouch"];
  readonly allRound = null;
  private readonly stroke: Stroke;
  private readonly cos: number;
  private readonly sin: number;
  /** Where the hanging projectile turns, m past rest. */
  private readonly turn: number;
  /** s from the trigger, at every part of every leg. */
  private readonly times: Float64Array[] = [];

  constructor(
    private readonly machine: Tension,
    conditions: Conditions,
  ) {
    this.stroke = new Stroke(machine, conditions);
    this.cos = Math.cos(radians(machine.launchAngle));
    this.sin = Math.sin(radians(machine.launchAngle));
    const { length } = this.stroke;
    this.turn = this.stroke.speedSquared(length) >= 0 ? length : this.turning();
    this.timeLegs();
    for (let leg = 0; leg < 4; leg++) {
      for (let i = 0; i <= SAMPLES; i++) this.list.push(this.at(leg, i / SAMPLES));
    }
    this.nominal = this.at(0, 1);
  }

  near({ step }: Instant, fraction: number): Instant {
    return this.at(step, fraction);
  }

  private turning(): number {
    return fallThroughZero((s) => this.stroke.speedSquared(s), 0, this.stroke.length);
  }

  /** m along the line of the launch. */
  private place(leg: number, u: number): number {
    const { length } = this.stroke;
    const slowing = 1 - (1 - u) ** 2;
    if (leg === 0) return -length * (1 - u * u);
    if (leg === 1) return this.turn * slowing;
    if (leg === 2) return this.turn * (1 - u * u);
    return -length * slowing;
  }

  private speed(s: number): number {
    return Math.sqrt(Math.max(0, this.stroke.speedSquared(s)));
  }

  /** Midpoint rule: speed and way vary alike at the ends of a leg, where both vanish. */
  private timeLegs(): void {
    const least = 1e-6 * this.speed(0);
    let time = 0;
    for (let leg = 0; leg < 4; leg++) {
      const times = new Float64Array(SAMPLES + 1);
      for (let i = 0; i <= SAMPLES; i++) {
        if (i > 0) {
          const way = Math.abs(this.place(leg, i / SAMPLES) - this.place(leg, (i - 1) / SAMPLES));
          time += way / Math.max(least, this.speed(this.place(leg, (i - 0.5) / SAMPLES)));
        }
        times[i] = time;
      }
      this.times.push(times);
    }
  }

  private at(leg: number, u: number): Instant {
    const s = this.place(leg, u);
    const speed = leg < 2 ? this.speed(s) : -this.speed(s);
    const times = this.times[leg];
    const part = Math.min(SAMPLES - 1, Math.floor(u * SAMPLES));
    return flung({
      time: times[part] + (u * SAMPLES - part) * (times[part + 1] - times[part]),
      step: leg,
      fraction: u,
      segment: leg === 0 ? 0 : 1,
      x: s * this.cos,
      y: this.machine.launchHeight + s * this.sin,
      vx: speed * this.cos,
      vy: speed * this.sin,
      hangUp: leg > 0,
    });
  }
}

function drawing({ draw, launchAngle, launchHeight }: Tension): Drawing {
  const full = Math.max(0.1, ...draw.map(({ length }) => length));
  const rest: Point = [0, launchHeight];
  const drawn = away(rest, launchAngle, -full);
  const limb = Math.max(0.15 * full, Math.min(0.35 * full, 0.6 * launchHeight));
  const upper = away(rest, launchAngle + 90, limb);
  const lower = away(rest, launchAngle - 90, limb);
  const front = away(rest, launchAngle, 0.18 * full);
  const level: Point = [0.7 * full, launchHeight];
  return {
    parts: [
      { type: "frame", points: [rest, [0, 0]] },
      { type: "frame", points: [between(drawn, rest, 0.5), [between(drawn, rest, 0.5)[0], 0]] },
      { type: "track", points: [drawn, rest] },
      { type: "ghost", points: [rest, level] },
      { type: "rope", points: [upper, drawn, lower] },
      { type: "ghost", points: [upper, lower] },
      { type: "beam", points: [upper, front, lower] },
      { type: "arrow", points: [front, away(rest, launchAngle, 0.55 * full)] },
      { type: "projectile", centre: drawn },
    ],
    marks: [
      { parameter: "draw", type: "span", from: drawn, to: rest, offset: 40, at: 0.4 },
      { parameter: "movingMass", type: "spot", at: drawn, dx: -34, dy: 36 },
      { parameter: "launchAngle", type: "angle", vertex: rest, radius: 110, from: 0, to: launchAngle },
      { parameter: "launchHeight", type: "span", from: [0, 0], to: rest, offset: -26, at: 0.4 },
    ],
    extent: [upper, lower, drawn, level, away(rest, launchAngle, 0.6 * full), [-0.1, 0], [0.1, 0]],
    note: "To scale along the draw; the cords run from where they are held to the projectile, drawn.",
  };
}
