/** The range, case by case: what each thing that somebody says does, and what the others are told. */
import { expect, test } from "vitest";
import {
  apply,
  type Facts,
  freshRange,
  type MachineState,
  modeOf,
  type RangeEvent,
  type RangeState,
  standsInTheWay,
} from "@/lib/range";

const FACTS: Facts = {
  posts: [{ id: "n", name: "Post north" }],
  machines: [
    { id: "a", name: "Heron", holds: ["Firing point 2", "Shelter"], reaches: ["b"] },
    { id: "b", name: "Onion", holds: [], reaches: [] },
  ],
  firing: {
    a: { list: [{ key: "path", name: "the path" }], version: "1", mustLeave: [], noZone: null, permit: [] },
    b: { list: [], version: "1", mustLeave: [], noZone: null, permit: [] },
  },
};
const SECOND = 1000;
const MINUTE = 60 * SECOND;

/** A range that events are told to, one after the other. */
function range(facts = FACTS) {
  let state: RangeState = freshRange();
  let at = 5_000_000;
  const told = {
    facts,
    get state() {
      return state;
    },
    mode: () => modeOf(state, told.facts, at),
    wait: (ms: number) => {
      at += ms;
      return told;
    },
    // biome-ignore lint/suspicious/noExplicitAny: events without their time
    tell: (event: any) => {
      const outcome = apply(state, { at, ...event } as RangeEvent, told.facts);
      state = outcome.state;
      return outcome;
    },
    machine: (machineId: string, ...to: MachineState[]) =>
      to.map((each) =>
        told.tell({ do: "machine", machineId, to: each, step: state.machines[machineId]?.step ?? 0 }),
      ),
    clear: (more = {}) =>
      told.tell({ do: "clear", post: "n", turn: state.turn, phone: "p", left: false, ...more }),
    tick: () =>
      told.tell({ do: "tick", machineId: "a", version: "1", key: "path", done: true, turn: state.turn }),
    hot: (id = "h") => told.tell({ do: "hot", id, machineId: "a", turn: state.turn }),
    inTheWay: (machineId = "a") => standsInTheWay(state, told.facts, machineId, at),
    hold: (id: string, ago = 0) =>
      told.tell({ do: "hold", id, pressedAt: at - ago, by: "Judge 1", why: "A child ran out." }),
  };
  return told;
}

function hotRange() {
  const fair = range();
  fair.machine("a", "raising", "armed");
  fair.clear();
  fair.tick();
  expect(fair.hot().done).toBe("applied");
  return fair;
}

test("what stands in the way is said as what to do, and is gone when it is done", () => {
  const fair = range();
  fair.tell({ do: "hold", id: "x", pressedAt: 0, by: null, why: "Old." });
  expect(fair.state.holds).toEqual([]);
  expect(fair.inTheWay()).toEqual([
    "Heron is made safe: its crew’s chief enters armed when it is.",
    "Post north has not said clear: call the post.",
    "Stand-clear list: tick the path when it is clear.",
  ]);
  fair.machine("a", "raising", "armed");
  fair.clear();
  fair.tick();
  expect(fair.inTheWay()).toEqual([]);
  // Its zone holds people, so nobody else goes hot beside it.
  expect(fair.inTheWay("b")).toContain(
    "Heron is armed, and its zone holds Firing point 2, Shelter: make it safe first.",
  );
  expect(fair.mode()).toBe("live");
  fair.hot();
  expect(fair.mode()).toBe("hot");
});

test("cold ends hot, and what was said for that turn falls; cold is said only once the machine is made safe", () => {
  const fair = hotRange();
  fair.machine("a", "fired");
  fair.tell({ do: "cold", hot: "h" });
  expect(fair.mode()).toBe("live");
  fair.machine("a", "safe");
  expect(fair.mode()).toBe("cold");
  fair.machine("a", "raising", "armed");
  expect(fair.inTheWay()).toHaveLength(2);
  // The last turn's clear, come late.
  expect(fair.clear({ turn: 1 }).because[0]).toContain("moved on");
});

test("a lease that is not heard lapses to hold, and a late beat does not bring it back", () => {
  const fair = hotRange().wait(6 * SECOND);
  fair.tell({ do: "beat-hot", hot: "h" });
  fair.tell({ do: "beat-post", post: "n", phone: "p" });
  fair.wait(9 * SECOND);
  expect(fair.mode()).toBe("hot");
  fair.wait(2 * SECOND);
  expect(fair.mode()).toBe("hold");
  fair.tell({ do: "beat-hot", hot: "h" });
  expect(fair.state).toMatchObject({
    hot: null,
    holds: [{ by: null, why: expect.stringContaining("lost") }],
  });
});

test("a post whose phone was silent counts as not clear until somebody says it again", () => {
  const fair = range();
  fair.machine("a", "raising", "armed");
  fair.clear();
  fair.tick();
  fair.wait(11 * SECOND);
  expect(fair.inTheWay()[0]).toContain("Post north has not been heard");
  fair.tell({ do: "beat-post", post: "n", phone: "p" });
  expect(fair.inTheWay()).toEqual(["Post north has not said clear: call the post."]);
  // Another phone at the same post does not speak for the one that said it.
  fair.clear();
  fair.wait(6 * SECOND).tell({ do: "beat-post", post: "n", phone: "other" });
  fair.wait(6 * SECOND);
  expect(fair.inTheWay()[0]).toContain("has not been heard");
});

test.each([
  [
    "a post that says not clear",
    (fair: ReturnType<typeof range>) => fair.tell({ do: "not-clear", post: "n", by: "J" }),
  ],
  [
    "somebody already downrange",
    (fair: ReturnType<typeof range>) => fair.tell({ do: "tag-out", tag: "t", already: true }),
  ],
  [
    "a permit that falls",
    (fair: ReturnType<typeof range>) => {
      const { firing } = fair.facts;
      fair.facts = {
        ...FACTS,
        firing: { ...firing, a: { ...FACTS.firing.a, permit: ["The wind."] } },
      } as Facts;
      fair.tell({ do: "look" });
    },
  ],
  ["any official", (fair: ReturnType<typeof range>) => fair.hold("one")],
])("%s puts a hot range on hold", (_, stop) => {
  const fair = hotRange();
  stop(fair);
  expect(fair.mode()).toBe("hold");
  expect(fair.state.hot).toBeNull();
  expect(fair.state.clears).toEqual({});
});

test("nobody is tagged out while a machine is not made safe, nobody raises while a tag is out", () => {
  const fair = range();
  fair.machine("b", "raising");
  expect(fair.tell({ do: "tag-out", tag: "t", already: false }).because).toEqual([
    "Onion is raising, not made safe.",
  ]);
  fair.machine("b", "safe");
  fair.tell({ do: "tag-out", tag: "t", already: false });
  expect(fair.machine("b", "raising")[0]?.because).toEqual([
    "One tag is out: nobody raises until everybody is tagged in at the line.",
  ]);
  fair.tell({ do: "tag-in", tag: "t" });
  expect(fair.machine("b", "raising")[0]?.done).toBe("applied");
});

test("nobody re-arms inside a live zone, nor makes one live around a crew that is arming", () => {
  const fair = range();
  fair.machine("a", "raising");
  expect(fair.machine("b", "raising")[0]?.because[0]).toContain("stands in its zone");
  fair.machine("a", "safe");
  fair.machine("b", "raising", "armed");
  expect(fair.machine("a", "raising")[0]?.because[0]).toContain("stands in the zone of this machine");
});

test("the range is not cold while any machine is not made safe, whoever its zone holds", () => {
  const fair = range();
  fair.machine("b", "raising", "armed");
  expect(fair.mode()).toBe("live");
  fair.machine("b", "misfired");
  expect(fair.mode()).toBe("live");
  // Nobody is told to arm it.
  expect(fair.inTheWay("b")[0]).toBe("Onion is misfired: it is made safe before anything else.");
});

test("nobody is tagged out during a hold; who is out there already is written down all the same", () => {
  const fair = range();
  fair.hold("one");
  expect(fair.tell({ do: "tag-out", tag: "t", already: false }).because[0]).toContain("nobody walks");
  fair.tell({ do: "tag-out", tag: "t", already: true });
  expect(fair.state.out).toEqual(["t"]);
});

test("a machine that goes off while the range is not hot for it puts the range on hold", () => {
  const fair = range();
  fair.machine("b", "raising", "fired");
  expect(fair.state.holds[0]?.why).toBe("Onion went off though the range was not hot for it.");
});

test("a change that was pressed before another one is refused: made safe never comes late", () => {
  const fair = range();
  fair.machine("a", "raising", "armed");
  expect(fair.tell({ do: "machine", machineId: "a", to: "safe", step: 1 }).because[0]).toContain(
    "is armed by now",
  );
  expect(fair.state.machines.a?.state).toBe("armed");
});

test("a misfire: its time, one named person, then made safe; the tag is out until it is in", () => {
  const fair = hotRange();
  fair.machine("a", "misfired");
  fair.tell({ do: "cold", hot: "h" });
  const approach = () =>
    fair.tell({ do: "approach", machineId: "a", tag: "alex", step: fair.state.machines.a?.step });
  expect(fair.wait(9 * MINUTE).machine("a", "safe")[0]?.because[0]).toContain("another 1 min");
  expect(approach().because[0]).toContain("another 1 min");
  fair.wait(MINUTE);
  expect(fair.machine("a", "safe")[0]?.because[0]).toContain("first names the one person");
  approach();
  expect(fair.tell({ do: "approach", machineId: "a", tag: "two", step: 3 }).because[0]).toContain(
    "named already",
  );
  expect(fair.machine("a", "safe")[0]?.done).toBe("applied");
  expect(fair.inTheWay()).toContain("One tag is out: tag everybody in at the line.");
});

test("a hold that comes late is written down and not applied; one that came is not applied again; a lift lifts what was seen", () => {
  const fair = range();
  expect(fair.hold("one").done).toBe("applied");
  expect(fair.hold("one").done).toBe("already");
  fair.hold("two");
  expect(fair.tell({ do: "lift", holds: ["one"] }).because[0]).toContain("Another hold has come since");
  fair.wait(5 * SECOND).tell({ do: "lift", holds: ["one", "two"] });
  expect(fair.mode()).toBe("cold");
  expect(fair.hold("one").done).toBe("already");
  // Pressed before that lift, and pressed long ago.
  fair.wait(SECOND);
  expect(fair.hold("three", 3 * SECOND).done).toBe("late");
  fair.wait(10 * MINUTE);
  expect(fair.hold("four", 2 * MINUTE).done).toBe("late");
  expect(fair.state.holds).toEqual([]);
  expect(fair.hold("five", 50 * SECOND).done).toBe("applied");
});

test("a post in the zone is left; a tick is of the zone as it was then; an old clear is said again", () => {
  const fair = range();
  fair.machine("a", "raising", "armed");
  fair.clear();
  fair.tick();
  const list = FACTS.firing.a;
  if (!list) throw new Error("Heron has its list.");
  fair.facts = { ...FACTS, firing: { ...FACTS.firing, a: { ...list, mustLeave: ["n"], version: "2" } } };
  expect(fair.inTheWay()).toEqual([
    "Post north lies in the zone: whoever stands there leaves it, and says clear from outside.",
    "Stand-clear list: tick the path when it is clear.",
  ]);
  fair.facts = FACTS;
  for (let minute = 0; minute < 62; minute++)
    fair.wait(10 * SECOND).tell({ do: "beat-post", post: "n", phone: "p" });
  expect(fair.inTheWay()).toEqual(["Post north said clear long ago: have it look, and say clear again."]);
});
