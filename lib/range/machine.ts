/** What a machine may become, and who may be where meanwhile. */
import type { RangeEvent } from "./events";
import { type Facts, type MachineState, machineOf, nameIn, type RangeState } from "./state";

const NEXT: Record<MachineState, readonly MachineState[]> = {
  safe: ["raising"],
  raising: ["armed", "safe", "fired"],
  armed: ["fired", "misfired", "safe"],
  fired: ["safe"],
  misfired: ["safe", "fired"],
};

const WORDS: Record<MachineState, string> = {
  safe: "made safe",
  raising: "raising",
  armed: "armed",
  fired: "fired",
  misfired: "misfired",
};
export const stateWords = (state: MachineState): string => WORDS[state];

/** Who may be where, for the crew and for everybody near. */
export const whereWords: Record<MachineState, string> = {
  safe: "Made safe: its zone holds nobody back. Who may be there is the range’s to say.",
  raising:
    "Its zone is live. At the machine only those who raise it, never before, behind or under the arm; everybody else is out of its zone.",
  armed:
    "Its zone is live. At the trigger one person, at the end of the lanyard; the rest of the crew in its place. Nobody at the machine, nobody in the zone.",
  fired:
    "Its zone is live until it is made safe: parts may still move or hang. Only who makes it safe goes to it, when the chief says so.",
  misfired:
    "Its zone is live. Nobody goes near before its waiting time is over; then one named person, alone, from the side.",
};

type Change = Extract<RangeEvent, { do: "machine" }>;

/** Why a machine does not become what is asked; empty when it does. */
export function changeProblems(state: RangeState, change: Change, facts: Facts): string[] {
  const { machineId, to, step, at } = change;
  const machine = machineOf(state, machineId);
  const name = nameIn(facts.machines, machineId);
  if (!facts.machines.some(({ id }) => id === machineId)) return [`${name}: choose another.`];
  if (machine.step !== step)
    return [`${name} is ${stateWords(machine.state)} by now: look at it, and enter what is so.`];
  if (!NEXT[machine.state].includes(to))
    return [
      `${name} is ${stateWords(machine.state)}. From there it can become: ${NEXT[machine.state].map(stateWords).join(", ")}.`,
    ];
  if (to === "raising") return raisingProblems(state, machineId, facts);
  if (machine.state === "misfired" && to === "safe") return afterMisfire(state, machineId, at, name);
  return [];
}

function raisingProblems(state: RangeState, machineId: string, { machines }: Facts): string[] {
  const problems: string[] = [];
  if (state.holds.length > 0)
    problems.push("A hold stands: nobody raises until the safety officer lifts it.");
  if (state.out.length > 0)
    problems.push(`${tagsOut(state.out.length)}: nobody raises until everybody is tagged in at the line.`);
  if (state.hot && state.hot.machineId !== machineId)
    problems.push(`The range is hot for ${nameIn(machines, state.hot.machineId)}: raise when it is cold.`);
  const reached = machines.find(({ id }) => id === machineId)?.reaches ?? [];
  for (const other of machines) {
    const { state: now } = machineOf(state, other.id);
    if (other.id === machineId || now === "safe") continue;
    if (other.reaches.includes(machineId))
      problems.push(
        `${other.name} is ${stateWords(now)}, and this machine stands in its zone: wait until it is made safe.`,
      );
    // Its crew is at it: raising would bring them into a live zone.
    else if (reached.includes(other.id))
      problems.push(
        `${other.name} is ${stateWords(now)}, and stands in the zone of this machine: wait until it is made safe.`,
      );
  }
  return problems;
}

function afterMisfire(state: RangeState, machineId: string, at: number, name: string): string[] {
  const { since, approach } = machineOf(state, machineId);
  const left = since + state.times.misfireWait * 1000 - at;
  if (left > 0) return [waitWords(name, left)];
  if (approach === null) return [`The safety officer first names the one person who goes to ${name}.`];
  return [];
}

export const waitWords = (name: string, left: number): string =>
  `${name} misfired: nobody goes near for another ${Math.ceil(left / 60_000)} min.`;

export const tagsOut = (count: number): string => (count === 1 ? "One tag is out" : `${count} tags are out`);

/** Whether a machine went off though the range was not hot for it. */
export const wentOffUnheard = (state: RangeState, { machineId, to }: Change): boolean =>
  to === "fired" && state.hot?.machineId !== machineId;
