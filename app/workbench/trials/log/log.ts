/** A team's practice throws, each with the numbers of the machine that made it. Pure; kept as text in one browser. */
import { z } from "zod";
import { type Issue, issueSentence } from "@/app/_ui/issue-words";
import { type HazardRequest, hazardRequestSchema, machineKind, tuning } from "@/lib/throw";
import { changedIn, isStruck, traced } from "./history";
import { type Throw, type Trace, throwSchema } from "./throw-schema";

export {
  MEANS,
  MOST_PIECES,
  PARTS,
  type Piece,
  RANKS,
  type Rank,
  RESULTS,
  type Result,
  type Throw,
  type Trace,
  throwSchema,
} from "./throw-schema";

export const MOST_THROWS = 1000;
const LONGEST_NAME = 200;
const text = (most: number) => z.string().max(most);

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
export type ThrownMachine = Log["machines"][number];

export const emptyLog: Log = { version: 1, machines: [], throws: [] };
export const logToText = (log: Log): string => JSON.stringify(log);

/** A log kept earlier, empty where there was none; what is wrong with a text that is not one of ours. */
export function logFromText(kept: string | null): Log | { wrong: string } {
  if (kept === null) return emptyLog;
  try {
    const parsed = logSchema.safeParse(JSON.parse(kept));
    if (parsed.success) return parsed.data;
    const [issue] = parsed.error.issues as [Issue];
    return { wrong: issueSentence(issue, { label: issue.path.join(".") || "The log" }, "metric") };
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

/** A throw corrected, still of the machine that made it; what its numbers were before stays with it. */
export function corrected(log: Log, made: Throw, at: string): Log {
  const write = (before: Throw) => {
    const was = changedIn(before, made);
    return was ? traced(made, { at, did: "corrected", reason: "", was }) : made;
  };
  return {
    ...log,
    throws: inOrder(log.throws.map((each) => (each.id === made.id ? write(each) : each))),
  };
}

/** A throw with what was done about it. */
export const withTrace = (log: Log, id: string, entry: Trace): Log => ({
  ...log,
  throws: log.throws.map((each) => (each.id === id ? traced(each, entry) : each)),
});

/** Without a throw of which nothing need be known any more, and without a machine that no throw is left of. */
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

/**
 * Those that flew as meant, forwards, and those that went backwards. Something that broke calibrates nothing, and neither
 * does what was struck out.
 */
export function calibrating(throws: readonly Throw[]) {
  const counted = throws.filter((each) => each.distance !== null && !isStruck(each));
  return {
    forward: counted.filter(({ result }) => result === "landed"),
    backward: counted.filter(({ result }) => result === "backwards"),
  };
}
