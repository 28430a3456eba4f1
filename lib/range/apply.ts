/** One event after the other: what the range is after it, or why it stays as it is. */
import { brokenBy, standsInTheWay, walkingProblems } from "./conditions";
import type { RangeEvent } from "./events";
import { type HoldDone, liftProblems, withHold } from "./hold";
import { changeProblems, waitWords, wentOffUnheard } from "./machine";
import { type Facts, type Hold, isSilent, machineOf, nameIn, nextTurn, type RangeState } from "./state";

/** "refused": `because` says why, and nothing has changed by it. */
export type Done = HoldDone | "refused";
export interface Outcome {
  state: RangeState;
  done: Done;
  because: string[];
}

type Of<D extends RangeEvent["do"]> = Extract<RangeEvent, { do: D }>;

/** The event, and then what time and facts have ended meanwhile. */
export function apply(before: RangeState, event: RangeEvent, facts: Facts): Outcome {
  // What had ended before it came is ended first: a lease that lapsed is not renewed by a late beat.
  const state = settle(before, facts, event.at);
  const outcome = step(state, event, facts);
  return { ...outcome, state: settle(outcome.state, facts, event.at) };
}

/** Puts a hot range on hold whose lease has lapsed or whose conditions no longer stand. */
export function settle(state: RangeState, facts: Facts, at: number): RangeState {
  const { hot } = state;
  if (!hot) return state;
  const [why] = isSilent(hot, at, state.times)
    ? ["The page that held the range hot has lost the server."]
    : brokenBy(state, facts, hot.machineId, at);
  return why ? held(state, { id: `hot-${hot.id}`, at, by: null, why }) : state;
}

const held = (state: RangeState, hold: Hold): RangeState => withHold(state, hold, hold.at).state;

function step(state: RangeState, event: RangeEvent, facts: Facts): Outcome {
  const done = (after: RangeState): Outcome => ({ state: after, done: "applied", because: [] });
  const already: Outcome = { state, done: "already", because: [] };
  const unless = (because: string[], after: () => RangeState): Outcome =>
    because.length > 0 ? { state, done: "refused", because } : done(after());
  switch (event.do) {
    case "hold": {
      const { id, by, why, at } = event;
      const hold = { id, at: Math.min(event.pressedAt, at), by, why };
      return { ...withHold(state, hold, at), because: [] };
    }
    case "lift":
      return unless(liftProblems(state, event.holds), () => ({
        ...nextTurn(state),
        holds: [],
        liftedAt: event.at,
      }));
    case "clear":
      return unless(clearProblems(state, event, facts), () => saidClear(state, event));
    case "not-clear":
      return done(saidNotClear(state, event, facts));
    case "tick":
      return unless(tickProblems(state, event, facts), () => ticked(state, event));
    case "tag-out":
      return state.out.includes(event.tag) ? already : taggedOut(state, event, facts, unless);
    case "tag-in":
      return state.out.includes(event.tag)
        ? done({ ...state, out: state.out.filter((tag) => tag !== event.tag) })
        : already;
    case "machine":
      return unless(changeProblems(state, event, facts), () => changed(state, event, facts));
    case "approach":
      return unless(approachProblems(state, event, facts), () => {
        const machine = { ...machineOf(state, event.machineId), approach: event.tag };
        return {
          ...state,
          out: [...state.out, event.tag],
          machines: { ...state.machines, [event.machineId]: machine },
        };
      });
    case "hot":
      return state.hot?.id === event.id
        ? already
        : unless(hotProblems(state, event, facts), () => hot(state, event));
    case "cold":
      return state.hot?.id === event.hot ? done({ ...nextTurn(state), hot: null }) : already;
    case "beat-hot":
      return state.hot?.id === event.hot
        ? done({ ...state, hot: { ...state.hot, heardAt: Math.max(state.hot.heardAt, event.at) } })
        : already;
    case "beat-post":
      return done(beaten(state, event));
    case "times":
      return done({ ...state, times: event.times });
    case "look":
      return already;
  }
}

const MOVED_ON = "The range has moved on since this page was read: look again, then say it again.";

function clearProblems(state: RangeState, { post, turn }: Of<"clear">, { posts }: Facts): string[] {
  if (!posts.some(({ id }) => id === post)) return ["There is no such post now: choose another."];
  if (state.holds.length > 0) return ["A hold stands: say clear when it is lifted."];
  return state.turn === turn ? [] : [MOVED_ON];
}

function saidClear(state: RangeState, { post, phone, left, at }: Of<"clear">): RangeState {
  return { ...state, clears: { ...state.clears, [post]: { phone, left, at, heardAt: at } } };
}

function saidNotClear(state: RangeState, { post, by, at }: Of<"not-clear">, { posts }: Facts): RangeState {
  const { [post]: _, ...clears } = state.clears;
  const after = { ...state, clears };
  if (!state.hot) return after;
  const why = `${nameIn(posts, post)} says not clear.`;
  return held(after, { id: `post-${state.hot.id}-${post}`, at, by, why });
}

function tickProblems(state: RangeState, event: Of<"tick">, { firing }: Facts): string[] {
  const { machineId, version, key, turn } = event;
  const list = firing[machineId];
  if (!list?.list.some((each) => each.key === key)) return ["This is not on the list now: look again."];
  return state.turn === turn && list.version === version ? [] : [MOVED_ON];
}

function ticked(state: RangeState, { machineId, version, key, done }: Of<"tick">): RangeState {
  const before = state.ticked;
  const same = before?.machineId === machineId && before.version === version;
  const others = (same ? before.keys : []).filter((each) => each !== key);
  return { ...state, ticked: { machineId, version, keys: done ? [...others, key] : others } };
}

function taggedOut(
  state: RangeState,
  { tag, already, at }: Of<"tag-out">,
  facts: Facts,
  unless: (because: string[], after: () => RangeState) => Outcome,
): Outcome {
  const out = [...state.out, tag];
  const problems = walkingProblems(state, facts);
  if (already && problems.length > 0) {
    const why = "Somebody is downrange, as the tally says.";
    const outcome = unless([], () => ({ ...nextTurn(state), out }));
    return { ...outcome, state: held(outcome.state, { id: `tag-${tag}`, at, by: null, why }) };
  }
  return unless(problems, () => ({ ...nextTurn(state), out }));
}

function changed(state: RangeState, change: Of<"machine">, facts: Facts): RangeState {
  const { machineId, to, at } = change;
  const { step: before } = machineOf(state, machineId);
  const machine = { state: to, step: before + 1, since: at, approach: null };
  const after = { ...state, machines: { ...state.machines, [machineId]: machine } };
  if (!wentOffUnheard(state, change)) return after;
  const why = `${nameIn(facts.machines, machineId)} went off though the range was not hot for it.`;
  return held(after, { id: `off-${machineId}-${machine.step}`, at, by: null, why });
}

function approachProblems(
  state: RangeState,
  { machineId, step: seen, at }: Of<"approach">,
  facts: Facts,
): string[] {
  const { state: now, step, since, approach } = machineOf(state, machineId);
  const name = nameIn(facts.machines, machineId);
  if (now !== "misfired" || step !== seen) return [`${name} is not a misfire now: look again.`];
  if (approach !== null) return [`One person goes to ${name}, and is named already.`];
  if (state.hot) return ["The range is hot: put it cold before anybody goes to the machine."];
  const left = since + state.times.misfireWait * 1000 - at;
  return left > 0 ? [waitWords(name, left)] : [];
}

const hotProblems = (state: RangeState, { machineId, turn, at }: Of<"hot">, facts: Facts): string[] => [
  ...standsInTheWay(state, facts, machineId, at),
  ...(state.turn === turn ? [] : [MOVED_ON]),
];

const hot = (state: RangeState, { id, machineId, at }: Of<"hot">): RangeState => ({
  ...state,
  hot: { id, machineId, since: at, heardAt: at },
});

/** A post that was silent for too long says clear anew; its phone alone does not say it. */
function beaten(state: RangeState, { post, phone, at }: Of<"beat-post">): RangeState {
  const clear = state.clears[post];
  if (!clear || clear.phone !== phone) return state;
  const { [post]: _, ...others } = state.clears;
  if (isSilent(clear, at, state.times)) return { ...state, clears: others };
  return { ...state, clears: { ...others, [post]: { ...clear, heardAt: Math.max(clear.heardAt, at) } } };
}
