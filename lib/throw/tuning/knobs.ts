/**
 * The numbers of a machine that can be turned: every numeric parameter that is declared and asked for, the projectile's
 * mass and size, and the arm's ratio, which moves the pivot along an arm whose whole length stays.
 */
import type { Dimension } from "../../units";
import type { HazardRequest } from "../contracts/request";
import { isAskedFor, type ParameterInfo } from "../machines/kind";
import { machineKind } from "../machines/registry";

export interface Knob {
  /** A parameter's API name or path, `mass` or `diameter` of the projectile, or `armRatio`: long arm / short arm. */
  name: string;
  label: string;
  dimension: Dimension;
  /** SI; angles in degrees. */
  present: number;
  /** Between what it may sensibly be tried, if nobody says otherwise; the contract takes both ends. */
  low: number;
  high: number;
  /** Whether a team turns it to tune, rather than measures it. */
  tunes: boolean;
}

export const ARM_RATIO = "armRatio";

/** What a team turns first, in that order. The others are measured or given. */
const TUNED = [
  "releaseAngle",
  "slingLength",
  "counterweightMass",
  ARM_RATIO,
  "hangerLength",
  "chamberPressure",
  "elevation",
  "launchAngle",
  "spinRate",
  "releaseSpeed",
  "drawForceScale",
  "preloadTorque",
  "stopAngle",
  "cockedAngle",
  "armLength",
  "barrelLength",
  "endStop",
  "launchHeight",
  "movingMass",
];

/** Degrees either way, and shares of what is not an angle. */
const TURN = 25;
const SHARE = 0.4;

type Values = Record<string, unknown>;
const machineOf = (request: HazardRequest) => request.machine as unknown as Values;
const hasRatio = ({ longArm, shortArm }: Values) =>
  typeof longArm === "number" && typeof shortArm === "number";

/** A number of the request by its name; undefined when it has none. */
export function knobValue(request: HazardRequest, name: string): number | undefined {
  if (name === "mass" || name === "diameter") return request.projectile[name];
  const machine = machineOf(request);
  if (name === ARM_RATIO) {
    return hasRatio(machine) ? (machine.longArm as number) / (machine.shortArm as number) : undefined;
  }
  const found = name.split(".").reduce<unknown>((at, part) => (at as Values | undefined)?.[part], machine);
  return typeof found === "number" ? found : undefined;
}

/** The request with one number changed. Nothing is checked. */
export function withValue(request: HazardRequest, name: string, value: number): HazardRequest {
  if (name === "mass" || name === "diameter") {
    return { ...request, projectile: { ...request.projectile, [name]: value } };
  }
  const machine: Values = { ...machineOf(request) };
  if (name === ARM_RATIO) {
    const whole = (machine.longArm as number) + (machine.shortArm as number);
    machine.shortArm = whole / (1 + value);
    machine.longArm = whole - (machine.shortArm as number);
  } else {
    const [head, inner] = name.split(".") as [string, string | undefined];
    machine[head] = inner === undefined ? value : { ...(machine[head] as Values), [inner]: value };
  }
  return { ...request, machine: machine as unknown as HazardRequest["machine"] };
}

export const withValues = (request: HazardRequest, values: Readonly<Record<string, number>>): HazardRequest =>
  Object.entries(values).reduce((changed, [name, value]) => withValue(changed, name, value), request);

/** Whether the contract takes the machine's numbers, each in its own range. */
export const isInRange = ({ machine }: HazardRequest): boolean =>
  machineKind(machine.kind).schema.safeParse(machine).success;

/** Every knob of a request: what a team turns first, then the rest in the order of the form. */
export function knobsOf(request: HazardRequest): Knob[] {
  const machine = machineOf(request);
  const { parameters, choices } = machineKind(request.machine.kind);
  const own = parameters.flatMap((info): ParameterInfo[] =>
    isAskedFor(info, choices, machine) && knobValue(request, info.name) !== undefined ? [info] : [],
  );
  const named: Pick<Knob, "name" | "label" | "dimension">[] = [
    ...own,
    ...(hasRatio(machine)
      ? [{ name: ARM_RATIO, label: "Long arm to short arm", dimension: "ratio" as const }]
      : []),
    { name: "mass", label: "Projectile mass", dimension: "mass" },
    { name: "diameter", label: "Projectile diameter", dimension: "length" },
  ];
  const rank = (name: string) => (TUNED.includes(name) ? TUNED.indexOf(name) : TUNED.length);
  return named
    .map(({ name, label, dimension }): Knob => {
      const present = knobValue(request, name) as number;
      const [low, high] = usualRange(request, name, dimension, present);
      return { name, label, dimension, present, low, high, tunes: TUNED.includes(name) };
    })
    .sort((a, b) => rank(a.name) - rank(b.name));
}

function usualRange(request: HazardRequest, name: string, dimension: Dimension, present: number) {
  const spread = dimension === "angle" ? TURN : SHARE * Math.abs(present) || 0.1;
  const rated = name === "chamberPressure" ? (knobValue(request, "ratedPressure") ?? Infinity) : Infinity;
  return [
    lastTaken(request, name, present, present - spread),
    lastTaken(request, name, present, Math.min(rated, present + spread)),
  ] as const;
}

/** The value nearest to `wanted`, seen from the present one, that the contract takes. */
function lastTaken(request: HazardRequest, name: string, present: number, wanted: number): number {
  const takes = (value: number) => isInRange(withValue(request, name, value));
  if (takes(wanted)) return wanted;
  let [good, bad] = [present, wanted];
  for (let i = 0; i < 30; i++) {
    const middle = (good + bad) / 2;
    if (takes(middle)) good = middle;
    else bad = middle;
  }
  return good;
}
