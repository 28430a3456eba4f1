/** The failures of machines whose throw follows from formulas. */
import { airProperties } from "../../earth";
import type { Fault, Figure } from "../contracts/faults";
import type { HazardRequest } from "../contracts/request";
import { drawEnergy, partsOf } from "../loads/formula-loads";
import type { FormulaParts } from "../machines/kind";
import { chamberFaults } from "./chamber";
import { circle, farthest, type PieceFlights, reachOf } from "./flights";

/** Stations at which a spinning arm may break. */
const STATIONS = 10;

export function formulaFaults(request: HazardRequest, flights: PieceFlights): Fault[] {
  const parts = partsOf(request);
  if (parts.armLength !== undefined && parts.spinRate !== undefined)
    return [spinningArm(request, parts, flights)];
  if (parts.draw) return tension(request, parts, flights);
  return chamberFaults(parts, airProperties(request.air ?? {}).pressure, flights);
}

/** The outer piece of a spinning arm goes off along the tangent of its own centre's circle. */
function spinningArm(request: HazardRequest, parts: FormulaParts, flights: PieceFlights): Fault {
  const { armLength = 0, spinRate: rate = 0, armMass, launchHeight = 0, plane } = parts;
  const height = launchHeight + (plane === "horizontal" ? 0 : armLength);
  const { mass } = request.projectile;
  const thrown = Array.from({ length: STATIONS }, (_, i) => {
    const station = (armLength * i) / STATIONS;
    const own = armMass === undefined ? 0 : armMass * (1 - station / armLength);
    const centre = (station + armLength) / 2;
    const alone = { name: "Outer piece of the arm", mass: own > 0 ? own : null };
    const together = { name: "Outer piece of the arm with the projectile", mass: own + mass };
    const mixed = (own * centre + mass * armLength) / (own + mass);
    return [
      ...flights.flyAnywhere(alone, rate * centre, height, station),
      ...flights.flyAnywhere(together, rate * mixed, height, station),
    ];
  });
  const pieces = farthest(thrown.flat());
  const { reach, rest } = reachOf(pieces);
  const far = (of: typeof reach) => armLength + Math.max(of.forward, of.backward);
  return {
    code: "arm-breaks",
    title: "The spinning arm breaks",
    assumptions: [
      "It breaks at any of 10 stations at full rate; the outer piece leaves along the tangent of its own centre's circle, at whatever angle carries it farthest.",
      armMass === undefined
        ? "The arm's mass is unknown: its piece flies without drag."
        : "The arm is a uniform rod.",
    ],
    notes: ["The rest of the arm runs on out of balance and may walk or throw the whole machine."],
    figures: [figure("tip-speed", "Speed of the arm's end", rate * armLength, "m/s")],
    pieces,
    reach: circle(far(reach)),
    rest: circle(far(rest)),
    allRound: true,
  };
}

function tension(request: HazardRequest, parts: FormulaParts, flights: PieceFlights): Fault[] {
  const { movingMass = 0, limbMass, launchHeight = 0 } = parts;
  const { energy } = drawEnergy(parts);
  const { mass } = request.projectile;
  // Limbs or cords without a declared mass are taken as heavy as what they throw.
  const moving = movingMass > 0 ? movingMass : mass;
  const whole = limbMass ?? moving;
  const speed = Math.sqrt((2 * energy) / whole);
  const pieces = flights.flyAnywhere({ name: "Limb or cord", mass: whole }, speed, launchHeight, null);
  const { reach, rest } = reachOf(pieces);
  const farthestOf = (of: typeof reach) => circle(Math.max(of.forward, of.backward));
  const share = moving / (moving + mass);
  return [
    {
      code: "limb-breaks",
      title: "A limb, cord or spring breaks at full draw",
      assumptions: [
        "All the stored energy goes into the limb or cord itself, which flies off whole any way that carries it farthest.",
        limbMass !== undefined
          ? "Limbs or cords weigh what was declared."
          : movingMass > 0
            ? "What limbs or cords weigh is not declared: no more than the moving mass."
            : "No moving mass is declared: one as heavy as the projectile is taken.",
      ],
      notes: [
        "A cord that breaks whips back at who draws it: nobody stands in its line, in front or behind.",
      ],
      figures: [
        figure("stored-energy", "Stored energy", energy, "J"),
        figure("piece-speed", "Speed of the piece", speed, "m/s"),
      ],
      pieces,
      reach: farthestOf(reach),
      rest: farthestOf(rest),
      allRound: true,
    },
    {
      code: "dry-fire",
      title: "Dry fire: let go with nothing to throw",
      assumptions: ["All the stored energy stays in the moving mass and what stops it."],
      notes: ["Limbs and cords that are dry-fired break: see there for where they go."],
      figures: [
        figure("arrival-energy", "Stays in the moving mass", energy, "J"),
        figure("normal-energy", "Stays in it after a throw as meant", energy * share, "J"),
        figure("ratio", "Multiple of what stays after a throw as meant", 1 / share, "ratio"),
      ],
      pieces: [],
      ...reachOf([]),
      allRound: false,
    },
  ];
}

const figure = (code: string, label: string, value: number | null, unit: Figure["unit"]): Figure => ({
  code,
  label,
  value,
  unit,
});
