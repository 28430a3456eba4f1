/** What the drawings of machines with an arm, a sling and a counterweight share. */
import { away, between, type Drawing, type Mark, type Part, type Point } from "./drawing";

/** The numbers that the shared parts are drawn from. */
export interface DrawnArm {
  longArm: number;
  shortArm: number;
  cockedAngle: number;
  armCentre?: number | undefined;
  counterweightMass: number;
  counterweightSize?: number | undefined;
  slingLength: number;
  troughHeight?: number | undefined;
  releaseAngle: number;
}

const NOTE = "To scale; a counterweight without a radius is drawn as a block of stone.";

/** Where a taut sling of this length lays the projectile on its trough, downrange of the tip. */
export function laidOut(tip: Point, slingLength: number, troughHeight: number): Point {
  const drop = tip[1] - troughHeight;
  return [tip[0] + Math.sqrt(Math.max(0, slingLength ** 2 - drop ** 2)), troughHeight];
}

/** A counterweight without a declared size is drawn as stone in a box would be, about 2000 kg/m³. */
const drawnRadius = (mass: number, declared: number | undefined) =>
  declared && declared > 0 ? declared : Math.cbrt(mass / 2000) * 0.55;

/** The trough under a laid-out sling, from below the tip to a little past the projectile. */
export function troughUnder(tip: Point, projectile: Point): Part[] {
  const [x, y] = projectile;
  if (y <= 0) return [];
  const from = Math.min(tip[0], x - 0.2);
  const post = (at: number): Part => ({
    type: "frame",
    points: [
      [at, 0],
      [at, y],
    ],
  });
  return [
    {
      type: "trough",
      points: [
        [from, y],
        [x + 0.2, y],
      ],
    },
    post(from),
    post(x + 0.2),
  ];
}

/** The marks of a sling from the tip to the projectile on its trough, and of its release. */
export function slingMarks(tip: Point, projectile: Point, releaseAngle: number): Mark[] {
  const trough = between([tip[0], projectile[1]], projectile, 0.85);
  return [
    { parameter: "releaseAngle", type: "release", angle: releaseAngle },
    { parameter: "slingLength", type: "spot", at: between(tip, projectile, 0.42), dx: 0, dy: 30 },
    { parameter: "troughHeight", type: "spot", at: projectile, dx: 34, dy: 32 },
    { parameter: "troughFriction", type: "spot", at: trough, dx: -4, dy: -34 },
  ];
}

interface Places {
  fulcrum: Point;
  tip: Point;
  shortEnd: Point;
  weight: Point;
  projectile: Point;
}

/** Arm, sling and counterweight where the engine cocks them. */
function placesOf(machine: DrawnArm, fulcrum: Point, hanger: number): Places {
  const outward = 180 + machine.cockedAngle;
  const tip = away(fulcrum, outward, machine.longArm);
  const shortEnd = away(fulcrum, outward, -machine.shortArm);
  return {
    fulcrum,
    tip,
    shortEnd,
    weight: [shortEnd[0], shortEnd[1] - hanger],
    projectile: laidOut(tip, machine.slingLength, machine.troughHeight ?? 0),
  };
}

function sharedParts(machine: DrawnArm, { fulcrum, tip, shortEnd, weight, projectile }: Places): Part[] {
  return [
    ...troughUnder(tip, projectile),
    { type: "rope", points: [tip, projectile] },
    { type: "beam", points: [tip, shortEnd] },
    { type: "joint", centre: fulcrum },
    {
      type: "weight",
      centre: weight,
      radius: drawnRadius(machine.counterweightMass, machine.counterweightSize),
    },
    { type: "projectile", centre: projectile },
  ];
}

function sharedMarks(machine: DrawnArm, { fulcrum, tip, shortEnd, weight, projectile }: Places): Mark[] {
  const whole = machine.longArm + machine.shortArm;
  const centre = between(shortEnd, tip, Math.min(1, (machine.armCentre ?? whole / 2) / whole));
  return [
    ...slingMarks(tip, projectile, machine.releaseAngle),
    { parameter: "longArm", type: "span", from: tip, to: fulcrum, offset: 34, at: 0.42 },
    { parameter: "shortArm", type: "span", from: fulcrum, to: shortEnd, offset: 34 },
    { parameter: "armMass", type: "spot", at: between(tip, fulcrum, 0.22), dx: -14, dy: 52 },
    { parameter: "armCentre", type: "span", from: shortEnd, to: centre, offset: 30, at: 0.86 },
    { parameter: "armInertia", type: "spot", at: centre, dx: 30, dy: -42 },
    {
      parameter: "cockedAngle",
      type: "angle",
      vertex: fulcrum,
      radius: 84,
      from: 180,
      to: 180 + machine.cockedAngle,
    },
    { parameter: "counterweightMass", type: "spot", at: weight, dx: 58, dy: 0 },
    { parameter: "counterweightSize", type: "spot", at: weight, dx: 50, dy: -36 },
    { parameter: "counterweightInertia", type: "spot", at: weight, dx: 16, dy: -58 },
  ];
}

/** An arm on a fixed pivot; without a hanger the counterweight sits on the arm's short end. */
export function pivotedDrawing(machine: DrawnArm & { pivotHeight: number }, hanger: number | null): Drawing {
  const fulcrum: Point = [0, machine.pivotHeight];
  const places = placesOf(machine, fulcrum, hanger ?? 0);
  const { tip, shortEnd, weight, projectile } = places;
  const foot = machine.pivotHeight * 0.32;
  const radius = drawnRadius(machine.counterweightMass, machine.counterweightSize);
  const hung: Part[] = hanger === null ? [] : [{ type: "rope", points: [shortEnd, weight] }];
  const measured: Mark[] =
    hanger === null
      ? []
      : [{ parameter: "hangerLength", type: "span", from: shortEnd, to: weight, offset: 26 }];
  return {
    parts: [
      { type: "frame", points: [[-foot, 0], fulcrum, [foot, 0]] },
      ...hung,
      ...sharedParts(machine, places),
    ],
    marks: [
      ...sharedMarks(machine, places),
      { parameter: "pivotHeight", type: "span", from: [0, 0], to: fulcrum, offset: 0, at: 0.3 },
      ...measured,
    ],
    extent: [
      tip,
      shortEnd,
      projectile,
      [weight[0] + radius, weight[1] + radius],
      [weight[0] - radius, weight[1] - radius],
      [-foot, 0],
      [foot, 0],
    ],
    note: NOTE,
  };
}

/** An arm whose counterweight drops down a vertical track while its fulcrum runs along a level one. */
export function floatingDrawing(
  machine: DrawnArm & { trackHeight: number; endStop?: number | undefined },
): Drawing {
  const { trackHeight: height, endStop: stop } = machine;
  const joint = away([0, height], machine.cockedAngle, machine.shortArm);
  const fulcrum: Point = [-joint[0], height];
  const places = placesOf(machine, fulcrum, 0);
  const { tip, shortEnd, projectile } = places;
  const radius = drawnRadius(machine.counterweightMass, machine.counterweightSize);
  const start = fulcrum[0] - 0.25;
  const end = stop ?? machine.shortArm * 1.3;
  const upright = (x: number, from: number, to: number): Point[] => [
    [x, from],
    [x, to],
  ];
  const stopPart: Part[] =
    stop === undefined ? [] : [{ type: "frame", points: upright(stop, height, height + 0.3) }];
  const stopMark: Mark =
    stop === undefined
      ? { parameter: "endStop", type: "spot", at: [end, height], dx: 26, dy: 26 }
      : { parameter: "endStop", type: "span", from: [0, height], to: [stop, height], offset: -28, at: 0.6 };
  return {
    parts: [
      { type: "track", points: upright(0, 0, shortEnd[1] + radius) },
      {
        type: "track",
        points: [
          [start, height],
          [end, height],
        ],
      },
      { type: "frame", points: upright(start, 0, height) },
      { type: "frame", points: upright(end, 0, height) },
      ...stopPart,
      ...sharedParts(machine, places),
    ],
    marks: [
      ...sharedMarks(machine, places).filter(({ parameter }) => parameter !== "counterweightInertia"),
      {
        parameter: "trackHeight",
        type: "span",
        from: [start, 0],
        to: [start, height],
        offset: 16,
        at: 0.35,
      },
      { parameter: "carriageMass", type: "spot", at: fulcrum, dx: 34, dy: -34 },
      stopMark,
    ],
    extent: [tip, projectile, [radius, shortEnd[1] + radius], [-radius, 0], [start, 0], [end, height]],
    note: NOTE,
  };
}
