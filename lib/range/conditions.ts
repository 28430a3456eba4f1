/** What stands in the way of hot, and what ends it: sentences that say what to do. */
import { stateWords, tagsOut } from "./machine";
import { type Facts, isSilent, type MachineState, machineOf, nameIn, type RangeState } from "./state";

/** "live": neither hot nor on hold, but not cold: a machine is not made safe, and whoever walks downrange may come into its zone. */
export type Mode = "cold" | "live" | "hot" | "hold";

export function modeOf(state: RangeState, { machines }: Pick<Facts, "machines">, at: number): Mode {
  if (state.holds.length > 0) return "hold";
  if (state.hot) return isSilent(state.hot, at, state.times) ? "hold" : "hot";
  return machines.some(({ id }) => machineOf(state, id).state !== "safe") ? "live" : "cold";
}

/** Whether a machine is not made safe and its zone holds people, or may. */
const isLive = (state: RangeState, { id, holds }: Facts["machines"][number]): boolean =>
  machineOf(state, id).state !== "safe" && (holds === null || holds.length > 0);

/** Whether people may go downrange: those who walk there come into every zone. */
export function walkingProblems(state: RangeState, facts: Facts): string[] {
  const problems =
    state.holds.length > 0 ? ["A hold stands: nobody walks until the safety officer lifts it."] : [];
  if (state.hot) problems.push(`The range is hot for ${nameIn(facts.machines, state.hot.machineId)}.`);
  for (const { id, name } of facts.machines) {
    const { state: now } = machineOf(state, id);
    if (now !== "safe") problems.push(`${name} is ${stateWords(now)}, not made safe.`);
  }
  return problems;
}

/** Why the range does not go hot for a machine; empty when it may. */
export function standsInTheWay(state: RangeState, facts: Facts, machineId: string, at: number): string[] {
  const name = nameIn(facts.machines, machineId);
  const { state: now } = machineOf(state, machineId);
  return [
    ...state.holds.map(
      ({ by, why }) => `A hold stands, by ${by ?? "the program"}: ${why} The safety officer lifts it.`,
    ),
    ...(state.hot
      ? [`The range is hot for ${nameIn(facts.machines, state.hot.machineId)}: put it cold.`]
      : []),
    ...(now === "armed" ? [] : [notArmed(name, now)]),
    ...brokenBy(state, facts, machineId, at),
    ...staleClears(state, facts, at),
    ...unticked(state, facts, machineId),
  ];
}

const notArmed = (name: string, now: MachineState): string =>
  now === "misfired" || now === "fired"
    ? `${name} is ${stateWords(now)}: it is made safe before anything else.`
    : `${name} is ${stateWords(now)}: its crew’s chief enters armed when it is.`;

/** What ends hot while it stands. */
export function brokenBy(state: RangeState, facts: Facts, machineId: string, at: number): string[] {
  const name = nameIn(facts.machines, machineId);
  const firing = facts.firing[machineId];
  if (!firing) return [`${name} is not placed on this range: place it, and look again.`];
  return [
    ...(firing.noZone === null ? [] : [`${name} has no keep-out zone: ${firing.noZone}`]),
    ...firing.permit.map((reason) => `No firing permit of ${name} stands: ${reason}`),
    ...(state.out.length === 0 ? [] : [`${tagsOut(state.out.length)}: tag everybody in at the line.`]),
    ...postProblems(state, facts, machineId, at),
    ...otherMachines(state, facts, machineId),
  ];
}

function postProblems(state: RangeState, facts: Facts, machineId: string, at: number): string[] {
  if (facts.posts.length === 0)
    return ["No post is laid out: draw at least one among the site features, with somebody who says clear."];
  const mustLeave = facts.firing[machineId]?.mustLeave ?? [];
  return facts.posts.flatMap(({ id, name }) => {
    const clear = state.clears[id];
    if (!clear) return [`${name} has not said clear: call the post.`];
    if (isSilent(clear, at, state.times))
      return [`${name} has not been heard: its phone has lost the server, and it counts as not clear.`];
    if (mustLeave.includes(id) && !clear.left)
      return [`${name} lies in the zone: whoever stands there leaves it, and says clear from outside.`];
    return [];
  });
}

/** A clear grows old before hot, not during it. */
const staleClears = ({ clears, times }: RangeState, { posts }: Facts, at: number): string[] =>
  posts.flatMap(({ id, name }) => {
    const clear = clears[id];
    const stale = clear && Math.abs(at - clear.at) > times.clearLasts * 1000;
    return stale ? [`${name} said clear long ago: have it look, and say clear again.`] : [];
  });

function unticked({ ticked }: RangeState, facts: Facts, machineId: string): string[] {
  const firing = facts.firing[machineId];
  if (!firing) return [];
  const holds = ticked?.machineId === machineId && ticked.version === firing.version;
  const keys = holds ? ticked.keys : [];
  const left = firing.list.filter(({ key }) => !keys.includes(key)).map(({ name }) => name);
  if (left.length === 0) return [];
  return [`Stand-clear list: tick ${listed(left)} when ${left.length === 1 ? "it is" : "they are"} clear.`];
}

function otherMachines(state: RangeState, { machines }: Facts, machineId: string): string[] {
  return machines
    .filter((each) => each.id !== machineId && isLive(state, each))
    .map(({ id, name, holds }) => {
      const now = stateWords(machineOf(state, id).state);
      const who = holds === null ? "its zone is not known" : `its zone holds ${listed(holds)}`;
      return `${name} is ${now}, and ${who}: make it safe first.`;
    });
}

const SHOWN = 3;
const listed = (names: readonly string[]): string =>
  names.length > SHOWN
    ? `${names.slice(0, SHOWN).join(", ")} and ${names.length - SHOWN} more`
    : names.join(", ");
