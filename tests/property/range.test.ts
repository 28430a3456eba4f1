/**
 * The range under events that come in any order, twice and late: what a plain list of all that was taken says of it must
 * allow every hot. The list knows nothing of how lib/range keeps its state.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import {
  apply,
  type Facts,
  freshRange,
  type MachineState,
  modeOf,
  type RangeEvent,
  type RangeState,
} from "@/lib/range";

const POSTS = ["north", "south"];
const MACHINES = ["heron", "onion"];
const KEYS = ["path", "crew"];

interface Site {
  permit: boolean;
  version: string;
  mustLeave: boolean;
  /** Whether the other machine's zone holds people; null: no zone is known. */
  held: boolean | null;
  posts: number;
}

const factsOf = ({ permit, version, mustLeave, held, posts }: Site): Facts => ({
  posts: POSTS.slice(0, posts).map((id) => ({ id, name: id })),
  machines: MACHINES.map((id) => ({
    id,
    name: id,
    holds: held === null ? null : held ? ["Bank"] : [],
    reaches: [],
  })),
  firing: Object.fromEntries(
    MACHINES.map((id) => [
      id,
      {
        list: KEYS.map((key) => ({ key, name: key })),
        version,
        mustLeave: mustLeave ? ["north"] : [],
        noZone: null,
        permit: permit ? [] : ["The bearing was changed."],
      },
    ]),
  ),
});

type Event = RangeEvent extends infer E ? (E extends { at: number } ? Omit<E, "at"> : never) : never;
/** What a phone showed when its owner pressed. */
type Shown = {
  turn: number;
  steps: Record<string, number>;
  holds: string[];
  hot: string;
  now: number;
  version: string;
};

let ids = 0;
const id = () => `id-${++ids}`;
const machine = (machineId: string, to: MachineState, shown: Shown): Event => ({
  do: "machine",
  machineId,
  to,
  step: shown.steps[machineId] ?? 0,
});

/** Everything that a turn needs, as one machine's officials would send it. */
function wholeTurn(machineId: string, shown: Shown): Event[] {
  const armed = { ...shown, steps: { ...shown.steps, [machineId]: (shown.steps[machineId] ?? 0) + 1 } };
  const { turn, version } = shown;
  return [
    machine(machineId, "raising", shown),
    machine(machineId, "armed", armed),
    ...POSTS.map((post): Event => ({ do: "clear", post, turn, phone: post, left: true })),
    ...KEYS.map((key): Event => ({ do: "tick", machineId, version, key, done: true, turn })),
    { do: "hot", id: id(), machineId, turn },
  ];
}

const TO: MachineState[] = ["safe", "raising", "armed", "fired", "misfired"];
function single(pick: number, which: number, shown: Shown, tags: string[]): Event {
  const [machineId, post] = [MACHINES[which % 2] as string, POSTS[which % 2] as string];
  const { turn, version } = shown;
  const kinds: (() => Event)[] = [
    () => ({ do: "hold", id: id(), pressedAt: shown.now, by: "Judge", why: "A dog." }),
    () => ({ do: "lift", holds: shown.holds }),
    () => ({ do: "clear", post, turn, phone: post, left: which % 3 > 0 }),
    () => ({ do: "not-clear", post, by: "Judge" }),
    () => ({ do: "tick", machineId, version, key: KEYS[which % 2] as string, done: which % 5 > 0, turn }),
    () => {
      tags.push(id());
      return { do: "tag-out", tag: tags.at(-1) as string, already: which % 2 > 0 };
    },
    () => ({ do: "tag-in", tag: tags[which % Math.max(1, tags.length)] ?? "none" }),
    () => machine(machineId, TO[which % 5] as MachineState, shown),
    () => ({ do: "approach", machineId, tag: id(), step: shown.steps[machineId] ?? 0 }),
    () => ({ do: "hot", id: id(), machineId, turn }),
    () => ({ do: "cold", hot: shown.hot }),
    () => ({ do: "beat-hot", hot: shown.hot }),
    () => ({ do: "beat-post", post, phone: post }),
    () => ({ do: "look" }),
  ];
  return (kinds[pick % kinds.length] as () => Event)();
}

/** All that was taken, oldest first. */
interface Taken {
  event: RangeEvent;
  /** Whether what was said before fell with it. */
  fell: boolean;
  /** How long the list was when somebody pressed. */
  seen: number;
}

/** Why the range must not be hot, from the list alone. */
function forbidden(
  list: readonly Taken[],
  site: Site,
  facts: Facts,
  machineId: string,
  at: number,
  going: boolean,
) {
  const why: string[] = [];
  const fallen = list.findLastIndex(({ fell }) => fell);
  // What was pressed before says nothing, however late it comes.
  const since = list.slice(fallen + 1).flatMap(({ event, seen }) => (seen > fallen ? [event] : []));
  const all = list.map(({ event }) => event);
  for (const { id: post } of facts.posts) {
    const last = since.findLast((e) => (e.do === "clear" || e.do === "not-clear") && e.post === post);
    if (last?.do !== "clear") why.push(`${post} not clear`);
    else {
      if (site.mustLeave && post === "north" && !last.left) why.push(`${post} not left`);
      // Never silent for longer than ten seconds since it was said.
      const heard = since.filter(
        (e) =>
          e.at >= last.at &&
          (e === last || (e.do === "beat-post" && e.post === post && e.phone === last.phone)),
      );
      if (
        [...heard.map((e) => e.at), at].some((t, i, times) => i > 0 && t - (times[i - 1] as number) > 10_000)
      )
        why.push(`${post} silent`);
    }
  }
  const out = new Set<string>();
  for (const e of all) {
    if (e.do === "tag-out" || e.do === "approach") out.add(e.tag);
    if (e.do === "tag-in") out.delete(e.tag);
  }
  if (out.size > 0) why.push("tag out");
  if (!site.permit) why.push("no permit");
  if (facts.posts.length === 0) why.push("no post");
  for (const other of MACHINES.filter((each) => each !== machineId)) {
    const own = ({ event: e }: Taken) => e.do === "machine" && e.machineId === other;
    const lastOf = list.findLast(own);
    const before = list.findLastIndex((each) => own(each) && each !== lastOf);
    const last = lastOf?.event;
    const safe = !last || (last.do === "machine" && last.to === "safe" && lastOf.seen > before);
    if (!safe && site.held !== false) why.push(`${other} not safe`);
  }
  if (going)
    for (const key of KEYS) {
      const last = since.findLast((e) => e.do === "tick" && e.machineId === machineId && e.key === key);
      if (!(last?.do === "tick" && last.done && last.version === site.version)) why.push(`${key} unticked`);
    }
  return why;
}

const steps = fc.array(
  fc.record({
    pick: fc.nat(19),
    which: fc.nat(29),
    delay: fc.constantFrom(0, 0, 0, 0, 1, 4),
    twice: fc.constantFrom(false, false, false, true),
    wait: fc.constantFrom(0, 500, 2000, 4000, 11_000, 70_000),
    site: fc.option(
      fc.record({
        permit: fc.constantFrom(true, true, false),
        version: fc.constantFrom("a", "a", "b"),
        mustLeave: fc.boolean(),
        held: fc.constantFrom(true, false, null),
        posts: fc.constantFrom(0, 1, 2, 2),
      }),
      { freq: 12 },
    ),
  }),
  { minLength: 10, maxLength: 60 },
);

test("no order of events, doubled or late, makes the range hot against what was said", () => {
  let hots = 0;
  let holds = 0;
  fc.assert(
    fc.property(steps, (plan) => {
      ids = 0;
      let state: RangeState = freshRange();
      let site: Site = { permit: true, version: "a", mustLeave: false, held: true, posts: 2 };
      let at = 1_000_000;
      const list: Taken[] = [];
      const tags: string[] = [];
      const known = new Set<string>();
      let due: { event: Event; at: number; seen: number }[] = [];

      const deliver = (event: Event, seen = list.length) => {
        at += 1;
        const facts = factsOf(site);
        const before = state;
        const outcome = apply(state, { ...event, at } as RangeEvent, facts);
        state = outcome.state;
        const grew = state.holds.some(({ id: hold }) => !before.holds.some((each) => each.id === hold));
        if (outcome.done === "refused") {
          expect(outcome.because.length).toBeGreaterThan(0);
          expect(outcome.because.every((sentence) => /\.$/.test(sentence))).toBe(true);
          if (grew) list.push({ event: { do: "look", at }, fell: true, seen });
        } else if (outcome.done !== "already") {
          const resets = ["lift", "cold", "tag-out"].includes(event.do);
          list.push({ event: { ...event, at } as RangeEvent, fell: resets || grew, seen });
        } else if (grew) list.push({ event: { do: "look", at }, fell: true, seen });
        if (event.do === "hold") {
          // The same hold never stands twice, nor again once it was lifted.
          if (known.has(event.id))
            expect(grew && state.holds.some(({ id: hold }) => hold === event.id)).toBe(false);
          else if (at - event.pressedAt <= 60_000 && event.pressedAt >= (before.liftedAt ?? 0))
            expect(state.holds.some(({ id: hold }) => hold === event.id)).toBe(true);
          else expect(outcome.done).toBe("late");
          known.add(event.id);
        }
        expect(new Set(state.holds.map((hold) => hold.id)).size).toBe(state.holds.length);
        if (grew) holds++;
        if (modeOf(state, facts, at) !== "hot") return;
        const { machineId } = state.hot as { machineId: string };
        const going = event.do === "hot" && outcome.done === "applied";
        if (going) hots++;
        expect(state.holds).toEqual([]);
        expect(forbidden(list, site, facts, machineId, at, going)).toEqual([]);
      };

      for (const [index, { pick, which, delay, twice, wait, site: moved }] of plan.entries()) {
        at += wait;
        if (moved) site = moved;
        // The officials lift what stands before they begin a turn.
        if (pick >= 14 && state.holds.length > 0)
          deliver({ do: "lift", holds: state.holds.map((hold) => hold.id) });
        const shown: Shown = {
          turn: state.turn,
          steps: Object.fromEntries(MACHINES.map((each) => [each, state.machines[each]?.step ?? 0])),
          holds: state.holds.map((hold) => hold.id),
          hot: state.hot?.id ?? "none",
          now: at,
          version: site.version,
        };
        const events =
          pick >= 14
            ? [
                ...wholeTurn(MACHINES[which % 2] as string, shown),
                ...(which % 4 === 0 ? [machine(MACHINES[which % 2] as string, "safe", shown)] : []),
              ]
            : [single(pick, which, shown, tags)];
        for (const event of events)
          for (const copy of twice ? [delay, delay + 2] : [delay])
            due.push({ event, at: index + copy, seen: list.length });
        const now = due.filter((each) => each.at <= index);
        due = due.filter((each) => each.at > index);
        for (const { event, seen } of now) deliver(event, seen);
      }
      for (const { event, seen } of due) deliver(event, seen);
    }),
    { numRuns: process.env.FAIRTHROW_TEST_DEEP ? 5000 : 300, seed: 7 },
  );
  // Not for want of hots and holds.
  expect(hots).toBeGreaterThan(150);
  expect(holds).toBeGreaterThan(300);
});
