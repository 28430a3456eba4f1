/** What is played at a rehearsal, and what is said of it afterwards. */
import { expect, test } from "vitest";
import { debrief, SURPRISES, writeScript } from "@/lib/rehearsal";

const machineIds = ["heron", "onion", "kite"];

test("every thing goes wrong once, at turns of its own and after a first that goes well, whatever the seed", () => {
  const orders = new Set<string>();
  for (let seed = 1; seed <= 200; seed++) {
    const script = writeScript({ machineIds, posts: 3, turns: 8, surprises: SURPRISES, seed });
    expect(script.map(({ machineId }) => machineId).slice(0, 4)).toEqual(["heron", "onion", "kite", "heron"]);
    expect(script[0]?.surprise).toBeNull();
    const wrong = script.flatMap(({ surprise }) => surprise ?? []);
    expect([...wrong].sort()).toEqual([...SURPRISES].sort());
    for (const { post, after } of script) {
      expect([0, 1, 2]).toContain(post);
      expect([1, 2, 3, 4]).toContain(after);
    }
    orders.add(script.map(({ surprise }) => surprise ?? "-").join());
  }
  // 7 x 6 x 5 x 4 ways to place them: nobody learns them by heart.
  expect(orders.size).toBeGreaterThan(150);
});

test("the same seed writes the same script, and as many turns as surprises is enough", () => {
  const asked = { machineIds, posts: 1, turns: 4, surprises: SURPRISES, seed: 7 };
  expect(writeScript(asked)).toEqual(writeScript(asked));
  expect(writeScript(asked).every(({ surprise }) => surprise !== null)).toBe(true);
  expect(() => writeScript({ ...asked, turns: 3 })).toThrow("at least one turn");
});

const cue = (at: number) => ({ surprise: "injury" as const, at, machineName: "Heron", postName: "North" });

test("a hold answers the cue before it: who was first, who else called, when the program held", () => {
  const { cues, unprompted } = debrief(
    [cue(100_000), cue(300_000)],
    [
      { at: 110_000, by: null },
      { at: 104_200, by: "Judge 2" },
      { at: 112_000, by: "Organiser" },
      { at: 113_000, by: "Judge 2" },
      { at: 200_000, by: "Judge 1" },
    ],
    [150_000, 210_000],
  );
  expect(cues[0]).toMatchObject({ after: 4.2, by: "Judge 2", programAfter: 10, others: ["Organiser"] });
  expect(cues[1]).toMatchObject({ after: null, by: null, programAfter: null, others: [] });
  expect(unprompted).toBe(1);
});

test("one that comes after the day has gone on answers nothing", () => {
  const { cues, unprompted } = debrief([cue(0)], [{ at: 30_001, by: "Judge 1" }], []);
  expect(cues[0]?.after).toBeNull();
  expect(unprompted).toBe(1);
});
