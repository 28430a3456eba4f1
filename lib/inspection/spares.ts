/** What a team takes along, the likeliest to fail first: the smallest reserve, then what a kind wears. */
import { type Breakage, leastReserve, type Machine, type PartName } from "../throw";
import type { Dimension } from "../units";

export interface Spare {
  id: string;
  what: string;
  reason: string;
  /** Least reserve of its part over all its lives; null where none is known. */
  reserve: number | null;
  /** That part's largest load. */
  load: { value: number; dimension: Dimension } | null;
}

interface Kept {
  id: string;
  what: string;
  reason: string;
  part?: PartName;
  for: readonly Machine["kind"][];
}

const WEIGHTED: readonly Machine["kind"][] = ["hinged-counterweight", "fixed-counterweight", "floating-arm"];
const ARMED: readonly Machine["kind"][] = [...WEIGHTED, "torsion"];
const ALL: readonly Machine["kind"][] = [...ARMED, "tension", "spinning-arm", "air-cannon", "measured"];

/** In the order in which they wear. */
const KEPT: readonly Kept[] = [
  {
    id: "sling",
    what: "A whole sling, made up and measured, and rope for one more",
    reason: "It chafes at pin and pouch at every throw.",
    part: "sling",
    for: ARMED,
  },
  {
    id: "pin",
    what: "Release pins, bent as the one in use, and one straight",
    reason: "A pin that bends changes every throw after.",
    for: ARMED,
  },
  {
    id: "trigger-line",
    what: "Trigger line and lanyard",
    reason: "They are stepped on, cut and burnt by knots.",
    for: ALL,
  },
  {
    id: "trigger",
    what: "Trigger parts and safety pins",
    reason: "Hooks wear at the edge that holds.",
    for: ALL,
  },
  {
    id: "skein",
    what: "Cord for a skein, wedges and washers",
    reason: "Twisted cord creeps and frays.",
    for: ["torsion"],
  },
  {
    id: "cord",
    what: "Bowstrings or bands, serving thread, wax",
    reason: "Cords and rubber break where they are bent.",
    for: ["tension"],
  },
  { id: "limb", what: "A limb or a set of springs", reason: "A dry fire breaks them.", for: ["tension"] },
  {
    id: "arm",
    what: "An arm, or its outer half with splints and bolts",
    reason: "It takes the longest to make, and ends the day.",
    part: "arm",
    for: [...ARMED, "spinning-arm"],
  },
  {
    id: "pivot",
    what: "Axle, bearings or bushes, and grease",
    reason: "A dry bearing eats its axle and the distance.",
    part: "pivot",
    for: [...ARMED, "spinning-arm"],
  },
  {
    id: "hanger",
    what: "Shackles, hinge bolts and chain of the counterweight",
    reason: "They carry more than its weight as it swings.",
    part: "hanger",
    for: WEIGHTED,
  },
  {
    id: "wheels",
    what: "Wheels and axle of the carriage, a length of track",
    reason: "A wheel that leaves its track is bent.",
    for: ["floating-arm"],
  },
  {
    id: "stop",
    what: "Filling for the end stop: sandbags, rubber, bolts",
    reason: "What crushes is spent after one blow.",
    part: "stop",
    for: ["floating-arm", "torsion"],
  },
  {
    id: "belt",
    what: "Belt or chain of the drive, keys, a fuse",
    reason: "They slip and break as it spins up.",
    for: ["spinning-arm"],
  },
  {
    id: "seals",
    what: "Valve seals and membranes, hose washers",
    reason: "A leak ends the day without a bang.",
    for: ["air-cannon"],
  },
  {
    id: "gauge",
    what: "A second gauge and a tested relief valve",
    reason: "Without a gauge that is believed nothing is filled.",
    part: "chamber",
    for: ["air-cannon"],
  },
  {
    id: "winch-rope",
    what: "Winch rope or cable with its hook",
    reason: "It is dragged over the ground and the frame.",
    for: [...ARMED, "tension"],
  },
  {
    id: "pegs",
    what: "Pegs, a heavy hammer, ties, boards to lay under feet",
    reason: "The ground is never as at home.",
    for: ALL,
  },
  {
    id: "fasteners",
    what: "Bolts, nuts, washers and pins of every size on the machine, with the wrenches",
    reason: "They are shaken off and lost in the grass.",
    for: ALL,
  },
];

const PART_DIMENSION: Record<string, Dimension> = {
  force: "force",
  stress: "stress",
  torque: "torque",
  gauge: "gauge",
  energy: "energy",
};

/** @param found what may break; null before it is computed: then in the order of wear alone */
export function sparesFor(machine: Machine, found: Breakage | null): Spare[] {
  const slung = "slingLength" in machine && machine.slingLength !== undefined;
  return KEPT.filter(({ id, for: kinds }) => {
    if (id === "sling" || id === "pin") return slung;
    if (id === "stop")
      return kinds.includes(machine.kind) && (machine.kind === "torsion" || found?.stop !== null);
    return kinds.includes(machine.kind);
  })
    .map(({ id, what, reason, part }): Spare => {
      const rows = part && found ? found.parts.filter((row) => row.part === part) : [];
      const largest = rows.reduce<(typeof rows)[number] | null>(
        (best, row) => (best && best.reserve.load >= row.reserve.load ? best : row),
        null,
      );
      return {
        id,
        what,
        reason,
        reserve: leastReserve(rows),
        load: largest && {
          value: largest.reserve.load,
          dimension: PART_DIMENSION[largest.quantity] ?? "ratio",
        },
      };
    })
    .sort((a, b) => (a.reserve ?? Number.POSITIVE_INFINITY) - (b.reserve ?? Number.POSITIVE_INFINITY));
}
