/**
 * Where the parts of a cocked machine are, from its declared numbers: what the labelled drawing shows.
 * World frame of the throw: x downrange, y up, metres, origin on the ground at the firing point.
 */

export type Point = readonly [number, number];

/** Lines and discs of the machine itself, to scale. */
export type Shape =
  | { type: "line"; look: "arm" | "sling" | "frame" | "track" | "hanger" | "ghost"; points: readonly Point[] }
  | { type: "disc"; look: "counterweight" | "projectile" | "joint"; centre: Point; radius: number }
  | { type: "joint"; centre: Point };

/** How one parameter is pointed out; `name` is the API's. Offsets and radii are in drawn pixels, y up. */
export type Pointer =
  | { name: string; type: "span"; from: Point; to: Point; offset: number; at?: number }
  | { name: string; type: "spot"; at: Point; dx: number; dy: number }
  | { name: string; type: "angle"; vertex: Point; radius: number; from: number; to: number }
  /** The angle of the sling at release, drawn in its own corner: not to scale but at the true angle. */
  | { name: string; type: "release"; angle: number };

export interface MachineDrawing {
  shapes: readonly Shape[];
  pointers: readonly Pointer[];
  /** What must fit in the picture. */
  extent: readonly Point[];
  /** What the reader should know of how it is drawn. */
  note: string;
}

const machineNote = "To scale; a counterweight without a radius is drawn as a block of stone.";

export type Numbers = Readonly<Record<string, number>>;

const radians = (degrees: number) => (degrees * Math.PI) / 180;
const along = (from: Point, direction: Point, length: number): Point => [
  from[0] + direction[0] * length,
  from[1] + direction[1] * length,
];
const between = (a: Point, b: Point, at: number): Point => [
  a[0] + (b[0] - a[0]) * at,
  a[1] + (b[1] - a[1]) * at,
];

/** Where a taut sling of this length lays the projectile on its trough, downrange of the tip. */
export function laidOut(tip: Point, slingLength: number, troughHeight: number): Point {
  const drop = tip[1] - troughHeight;
  return [tip[0] + Math.sqrt(Math.max(0, slingLength ** 2 - drop ** 2)), troughHeight];
}

/** A counterweight without a declared size is drawn as stone in a box would be, about 2000 kg/m³. */
const drawnRadius = (mass: number, declared: number | undefined) =>
  declared && declared > 0 ? declared : Math.cbrt(mass / 2000) * 0.55;

interface ArmPlaces {
  fulcrum: Point;
  tip: Point;
  shortEnd: Point;
  weight: Point;
  projectile: Point;
}

function commonShapes(numbers: Numbers, places: ArmPlaces): Shape[] {
  const { fulcrum, tip, shortEnd, weight, projectile } = places;
  return [
    { type: "line", look: "sling", points: [tip, projectile] },
    { type: "line", look: "arm", points: [tip, shortEnd] },
    { type: "joint", centre: fulcrum },
    {
      type: "disc",
      look: "counterweight",
      centre: weight,
      radius: drawnRadius(numbers.counterweightMass, numbers.counterweightSize),
    },
    { type: "disc", look: "projectile", centre: projectile, radius: Math.max(0.05, numbers.diameter / 2) },
  ];
}

function commonPointers(numbers: Numbers, places: ArmPlaces): Pointer[] {
  const { fulcrum, tip, shortEnd, weight, projectile } = places;
  const whole = numbers.longArm + numbers.shortArm;
  const centre = between(shortEnd, tip, Math.min(1, (numbers.armCentre ?? whole / 2) / whole));
  const trough: Point = [Math.max(projectile[0] * 0.4, projectile[0] - 0.8), numbers.troughHeight ?? 0];
  return [
    { name: "releaseAngle", type: "release", angle: numbers.releaseAngle },
    { name: "longArm", type: "span", from: tip, to: fulcrum, offset: 34, at: 0.42 },
    { name: "shortArm", type: "span", from: fulcrum, to: shortEnd, offset: 34 },
    { name: "armMass", type: "spot", at: between(tip, fulcrum, 0.22), dx: -14, dy: 52 },
    { name: "armCentre", type: "span", from: shortEnd, to: centre, offset: 30, at: 0.86 },
    { name: "armInertia", type: "spot", at: centre, dx: 30, dy: -42 },
    {
      name: "cockedAngle",
      type: "angle",
      vertex: fulcrum,
      radius: 84,
      from: 180,
      to: 180 + numbers.cockedAngle,
    },
    { name: "slingLength", type: "spot", at: between(tip, projectile, 0.42), dx: 0, dy: 30 },
    { name: "troughHeight", type: "spot", at: projectile, dx: 34, dy: 32 },
    { name: "troughFriction", type: "spot", at: trough, dx: -4, dy: -34 },
    { name: "counterweightMass", type: "spot", at: weight, dx: 58, dy: 0 },
    { name: "counterweightSize", type: "spot", at: weight, dx: 50, dy: -36 },
    { name: "counterweightInertia", type: "spot", at: weight, dx: 16, dy: -58 },
  ];
}

function pivoted(numbers: Numbers, hanger: number): MachineDrawing {
  const slope = radians(numbers.cockedAngle);
  const outward: Point = [-Math.cos(slope), -Math.sin(slope)];
  const fulcrum: Point = [0, numbers.pivotHeight];
  const tip = along(fulcrum, outward, numbers.longArm);
  const shortEnd = along(fulcrum, outward, -numbers.shortArm);
  const weight: Point = [shortEnd[0], shortEnd[1] - hanger];
  const projectile = laidOut(tip, numbers.slingLength, numbers.troughHeight ?? 0);
  const places = { fulcrum, tip, shortEnd, weight, projectile };
  const foot = numbers.pivotHeight * 0.32;
  const radius = drawnRadius(numbers.counterweightMass, numbers.counterweightSize);
  return {
    shapes: [
      { type: "line", look: "frame", points: [[-foot, 0], fulcrum, [foot, 0]] },
      ...(hanger > 0
        ? ([{ type: "line", look: "hanger", points: [shortEnd, weight] }] satisfies Shape[])
        : []),
      ...commonShapes(numbers, places),
    ],
    pointers: [
      ...commonPointers(numbers, places),
      { name: "pivotHeight", type: "span", from: [0, 0], to: fulcrum, offset: 0, at: 0.3 },
      ...(hanger > 0
        ? ([
            { name: "hangerLength", type: "span", from: shortEnd, to: weight, offset: 26 },
          ] satisfies Pointer[])
        : []),
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
    note: machineNote,
  };
}

function floating(numbers: Numbers): MachineDrawing {
  const slope = radians(numbers.cockedAngle);
  const outward: Point = [-Math.cos(slope), -Math.sin(slope)];
  const fulcrum: Point = [-numbers.shortArm * Math.cos(slope), numbers.trackHeight];
  const shortEnd: Point = [0, numbers.trackHeight + numbers.shortArm * Math.sin(slope)];
  const tip = along(fulcrum, outward, numbers.longArm);
  const projectile = laidOut(tip, numbers.slingLength, numbers.troughHeight ?? 0);
  const places = { fulcrum, tip, shortEnd, weight: shortEnd, projectile };
  const radius = drawnRadius(numbers.counterweightMass, numbers.counterweightSize);
  const end = numbers.endStop ?? numbers.shortArm * 1.3;
  const start = fulcrum[0] - 0.25;
  const height = numbers.trackHeight;
  const stop = numbers.endStop;
  return {
    shapes: [
      {
        type: "line",
        look: "track",
        points: [
          [0, 0],
          [0, shortEnd[1] + radius],
        ],
      },
      {
        type: "line",
        look: "track",
        points: [
          [start, height],
          [end, height],
        ],
      },
      {
        type: "line",
        look: "frame",
        points: [
          [start, 0],
          [start, height],
        ],
      },
      {
        type: "line",
        look: "frame",
        points: [
          [end, 0],
          [end, height],
        ],
      },
      ...(stop === undefined
        ? []
        : ([
            {
              type: "line",
              look: "arm",
              points: [
                [stop, height],
                [stop, height + 0.3],
              ],
            },
          ] satisfies Shape[])),
      ...commonShapes(numbers, places),
    ],
    pointers: [
      ...commonPointers(numbers, places).filter((pointer) => pointer.name !== "counterweightInertia"),
      { name: "trackHeight", type: "span", from: [start, 0], to: [start, height], offset: 16, at: 0.35 },
      { name: "carriageMass", type: "spot", at: fulcrum, dx: 34, dy: -34 },
      stop === undefined
        ? { name: "endStop", type: "spot", at: [end, height], dx: 26, dy: 26 }
        : { name: "endStop", type: "span", from: [0, height], to: [stop, height], offset: -28, at: 0.6 },
    ],
    extent: [tip, projectile, [radius, shortEnd[1] + radius], [-radius, 0], [start, 0], [end, height]],
    note: machineNote,
  };
}

function measured(numbers: Numbers): MachineDrawing {
  const slope = radians(numbers.launchAngle);
  const release: Point = [0, numbers.launchHeight];
  // One tenth of a second of flight, so that the arrow's length says the speed.
  const arrow = along(release, [Math.cos(slope), Math.sin(slope)], numbers.releaseSpeed * 0.1);
  const head = (turn: number): Point =>
    along(arrow, [Math.cos(slope + turn), Math.sin(slope + turn)], -0.06 * numbers.releaseSpeed * 0.1 - 0.15);
  const level: Point = [Math.max(1.5, Math.abs(arrow[0]) * 0.6), numbers.launchHeight];
  return {
    shapes: [
      { type: "line", look: "ghost", points: [release, level] },
      { type: "line", look: "arm", points: [release, arrow] },
      { type: "line", look: "arm", points: [head(0.5), arrow, head(-0.5)] },
      { type: "disc", look: "projectile", centre: release, radius: Math.max(0.05, numbers.diameter / 2) },
    ],
    pointers: [
      { name: "releaseSpeed", type: "spot", at: between(release, arrow, 0.7), dx: -34, dy: 22 },
      { name: "launchAngle", type: "angle", vertex: release, radius: 70, from: 0, to: numbers.launchAngle },
      { name: "launchHeight", type: "span", from: [0, 0], to: release, offset: 22 },
    ],
    extent: [arrow, release, level, [-1, 0], [1, 0]],
    note: "To scale; the arrow is the way of a tenth of a second.",
  };
}

/** The drawing of one kind; `numbers` holds every required parameter and the projectile's `diameter`. */
export function drawMachine(kind: string, numbers: Numbers): MachineDrawing {
  switch (kind) {
    case "hinged-counterweight":
      return pivoted(numbers, numbers.hangerLength);
    case "fixed-counterweight":
      return pivoted(numbers, 0);
    case "floating-arm":
      return floating(numbers);
    case "measured":
      return measured(numbers);
    default:
      throw new Error(`No drawing of the machine kind ${kind}`);
  }
}
