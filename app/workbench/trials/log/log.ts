/** A team's practice throws, each with the numbers of the machine that made it. Pure; kept as text in one browser. */
import { z } from "zod";
import {
  FOUND_PLACES,
  FOUND_THINGS,
  type HazardRequest,
  hazardRequestSchema,
  machineKind,
  tuning,
} from "@/lib/throw";

export const RESULTS = ["landed", "backwards", "straight-up", "no-release", "misfire", "broke"] as const;
export type Result = (typeof RESULTS)[number];
/** How a distance was measured. */
export const MEANS = ["tape", "wheel", "laser", "phone", "paces"] as const;
export const PARTS = ["sling", "arm", "pivot", "hanger", "stop", "chamber"] as const;
export const MOST_THROWS = 1000;
const LONGEST_NAME = 200;
export const MOST_PIECES = 12;

const finite = z.number();
const told = z.strictObject({ value: finite, uncertainty: finite.min(0) });
const text = (most: number) => z.string().max(most);

/** SI units; angles in degrees. */
const pieceSchema = z.strictObject({
  /** Which part it is of; null when nobody can tell. */
  part: z.enum(PARTS).nullable(),
  found: z.enum(FOUND_THINGS),
  place: z.enum(FOUND_PLACES),
  distance: finite.min(0).max(20_000),
  /** Clockwise from the bearing. */
  direction: finite.min(-360).max(360),
  uncertainty: finite.min(0.05).max(500),
  note: text(300),
});

const throwSchema = z.strictObject({
  id: text(60).min(1),
  /** Of the log's machines. */
  machine: text(60),
  /** Time of day where it was thrown: YYYY-MM-DDTHH:MM. */
  at: z
    .string()
    .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d$/, "Give date and time as 2031-05-03T14:20.")
    .refine((at) => !Number.isNaN(Date.parse(at)), "There is no such date or time."),
  /** By parameter: the first setting of the machine, and what else was changed. */
  settings: z.record(text(60), finite),
  wind: z
    .strictObject({
      speed: finite.min(0).max(60),
      direction: finite.min(-360).max(360),
      height: finite.min(0.5).max(100),
      by: text(80),
    })
    .nullable(),
  mass: finite.min(0.001).max(5000).nullable(),
  result: z.enum(RESULTS),
  /** Along the bearing, m; positive in the direction of the result. Null where nothing landed. */
  distance: finite.positive().max(20_000).nullable(),
  /** To the right of the bearing, m. */
  aside: finite.min(-20_000).max(20_000).nullable(),
  /** Standard, m. */
  uncertainty: finite.min(0).max(100).nullable(),
  /** Nobody said, where it is left out. */
  means: z.enum(MEANS).optional(),
  note: text(500),
  pieces: z.array(pieceSchema).max(MOST_PIECES),
  /** Read off a film. */
  film: z.strictObject({ speed: told, launchAngle: told, slingAngle: told.nullable() }).nullable(),
});

const machineSchema = z.strictObject({
  id: text(60).min(1),
  /** Of the bench, when it was first thrown. */
  name: text(LONGEST_NAME),
  request: hazardRequestSchema,
});

const logSchema = z
  .strictObject({
    version: z.literal(1),
    machines: z.array(machineSchema).max(MOST_THROWS),
    throws: z.array(throwSchema).max(MOST_THROWS),
  })
  .refine(
    ({ machines, throws }) => throws.every(({ machine }) => machines.some(({ id }) => id === machine)),
    { message: "A throw belongs to a machine that the log does not hold." },
  );

export type Log = z.output<typeof logSchema>;
export type Throw = Log["throws"][number];
export type Piece = Throw["pieces"][number];
export type ThrownMachine = Log["machines"][number];
export { throwSchema };

export const emptyLog: Log = { version: 1, machines: [], throws: [] };
export const logToText = (log: Log): string => JSON.stringify(log);

/** A log kept earlier, empty where there was none; what is wrong with a text that is not one of ours. */
export function logFromText(kept: string | null): Log | { wrong: string } {
  if (kept === null) return emptyLog;
  try {
    const parsed = logSchema.safeParse(JSON.parse(kept));
    if (parsed.success) return parsed.data;
    const [issue] = parsed.error.issues;
    return { wrong: `${issue?.path.join(".") || "The log"}: ${issue?.message ?? "not readable"}` };
  } catch {
    return { wrong: "It is cut off, or no log at all." };
  }
}

/** What makes two requests the same machine for its throws: all numbers but the weighed mass and what only aims. */
export function sameMachineKey({ machine, projectile }: HazardRequest): string {
  const aims = machineKind(machine.kind).parameters.filter(({ onlyNominal }) => onlyNominal);
  const numbers: Record<string, unknown> = { ...machine };
  for (const { name } of aims) delete numbers[name];
  const { mass: _, ...body } = projectile;
  return JSON.stringify([Object.entries(numbers).sort(), Object.entries(body).sort()]);
}

/** The number that a team sets from throw to throw: the pin of a sling, an elevation, a draw. */
export const mainSetting = (request: HazardRequest): tuning.Knob =>
  tuning.knobsOf(request).find(({ tunes }) => tunes) as tuning.Knob;

/** The log with a throw of this machine put in or corrected: the machine's numbers are kept once. */
export function withThrow(
  log: Log,
  made: Omit<Throw, "machine">,
  { name: given, request: thrown }: Omit<ThrownMachine, "id">,
  newId: string,
): Log {
  const machine = { name: given.slice(0, LONGEST_NAME), request: thrown };
  const same = JSON.stringify(machine.request);
  const known = log.machines.find(
    ({ name, request }) => name === machine.name && JSON.stringify(request) === same,
  );
  const id = known?.id ?? newId;
  const machines = known ? log.machines : [...log.machines, { ...machine, id }];
  return { ...log, machines, throws: inOrder([...log.throws, { ...made, machine: id }]) };
}

/** A throw corrected, still of the machine that made it. */
export const corrected = (log: Log, made: Throw): Log => ({
  ...log,
  throws: inOrder(log.throws.map((each) => (each.id === made.id ? made : each))),
});

/** Without a throw, and without a machine that no throw is left of. */
export function without(log: Log, id: string): Log {
  const throws = log.throws.filter((each) => each.id !== id);
  return {
    ...log,
    throws,
    machines: log.machines.filter((m) => throws.some((each) => each.machine === m.id)),
  };
}

const inOrder = (throws: readonly Throw[]) =>
  [...throws].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));

export const requestOf = (log: Log, { machine }: Throw): HazardRequest =>
  (log.machines.find(({ id }) => id === machine) as ThrownMachine).request;

export interface Group {
  key: string;
  name: string;
  request: HazardRequest;
  throws: Throw[];
}

/** Throws by the machine that made them, in the order in which the machines were first thrown. */
export function groupsOf(log: Log): Group[] {
  const groups = new Map<string, Group>();
  for (const each of log.throws) {
    const machine = log.machines.find(({ id }) => id === each.machine) as ThrownMachine;
    const key = sameMachineKey(machine.request);
    const group = groups.get(key) ?? { key, name: machine.name, request: machine.request, throws: [] };
    group.throws.push(each);
    groups.set(key, group);
  }
  return [...groups.values()];
}

/** Those that flew as meant, forwards, and those that went backwards. Something that broke calibrates nothing. */
export const calibrating = (throws: readonly Throw[]) => ({
  forward: throws.filter(({ result, distance }) => result === "landed" && distance !== null),
  backward: throws.filter(({ result, distance }) => result === "backwards" && distance !== null),
});
