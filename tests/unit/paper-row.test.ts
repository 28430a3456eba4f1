/** A line of the landing log: times of day as people write them, and what is wrong said with the field's name. */
import { describe, expect, it } from "vitest";
import type { JudgeShot } from "@/app/contests/[contest]/judge/entry";
import {
  clockHere,
  emptyRow,
  isTouched,
  type PaperRow,
  readRow,
  readTime,
  seenAt,
  usualDay,
} from "@/app/contests/[contest]/judge/paper/paper-row";
import { PAPER_METHODS } from "@/app/contests/[contest]/landing-log/columns";

const shot = {
  id: "shot",
  bearing: 90,
  firingPoint: { id: "fp", number: 1, latitude: 47, longitude: 11, height: 600, accuracy: 0.1 },
  firingPointNumber: 1,
  lastMark: null,
  worstForward: null,
  worstBackward: null,
} as unknown as JudgeShot;
const rule = { from: "firing-point", landing: "first-impact", sector: null, unit: "1cm" } as const;
const range = { pegs: [], declination: 0, marking: { rule, centre: null } };
const head = { day: "2026-10-03", method: "bearing-distance", witness: "" } as const;
const now = new Date(2026, 9, 3, 18);
const cell = (text: string) => ({ text, value: Number(text) });
const row = {
  ...emptyRow,
  time: "10:42",
  witness: "East post",
  values: { "bearing-distance": { bearing: cell("91"), distance: cell("55.5") } },
};

describe("a time of day", () => {
  it.each([
    ["10:42", [10, 42, 0]],
    ["9.05", [9, 5, 0]],
    ["1042", [10, 42, 0]],
    ["104207", [10, 42, 7]],
    [" 10:42:07 ", [10, 42, 7]],
    ["2:15 pm", [14, 15, 0]],
    ["12:05 a.m.", [0, 5, 0]],
    ["12:05pm", [12, 5, 0]],
  ])("%s is read", (text, clock) => {
    expect(readTime(text)).toEqual(clock);
  });
  it.each(["", "24:00", "10:60", "10", "13:00 pm", "0:10 am", "10:4", "noon", "10:42x", "-1:10"])(
    "%s is none",
    (text) => {
      expect(readTime(text)).toBeNull();
    },
  );
  it("on a day is the moment that clocks here showed then, and back", () => {
    const at = seenAt("2026-10-03", "14:05:09");
    expect(at).toEqual(new Date(2026, 9, 3, 14, 5, 9));
    expect(clockHere(at as Date)).toEqual({ day: "2026-10-03", time: "14:05:09" });
    expect(seenAt("", "14:05")).toBeNull();
  });
  it("takes the day for granted only where there is no other", () => {
    const weekend = { date: "2026-10-03", lastDate: "2026-10-04" };
    expect(usualDay(weekend, "2026-10-03")).toBe("2026-10-03");
    expect(usualDay(weekend, "2026-09-20")).toBe("2026-09-20");
    expect(usualDay(weekend, "2026-10-04")).toBe("");
    expect(usualDay(weekend, "2026-10-09")).toBe("");
    expect(usualDay({ date: "2026-10-03", lastDate: null }, "2026-10-09")).toBe("2026-10-03");
  });
});

describe("a line", () => {
  it("becomes an entry with its time and its witness, or the head's", () => {
    const read = readRow(row, head, shot, range, "metric", now);
    expect(read).toMatchObject({
      ok: true,
      body: {
        fix: { outcome: "landed", bearing: 91, distance: 55.5 },
        observedAt: new Date(2026, 9, 3, 10, 42).toISOString(),
        witness: "East post",
      },
    });
    const unnamed = readRow(
      { ...row, witness: " " },
      { ...head, witness: "Line" },
      shot,
      range,
      "metric",
      now,
    );
    expect(unnamed).toMatchObject({ ok: true, body: { witness: "Line" } });
    const foul = readRow({ ...row, outcome: "foul", values: {} }, head, shot, range, "metric", now);
    expect(foul).toMatchObject({ ok: true, body: { fix: { outcome: "foul" } } });
  });

  it("says at each field what is wrong with it", () => {
    const bad = { ...emptyRow, time: "19:00", values: { "bearing-distance": { bearing: cell("91") } } };
    const read = readRow(bad, head, shot, range, "metric", now);
    expect(read).toEqual({
      ok: false,
      complaints: {
        distance: expect.stringMatching(/^Distance: /),
        time: expect.stringMatching(/^Time seen: on Saturday,? 3 October 2026 this is still to come/),
        witness: expect.stringMatching(/^Witness \(post\): /),
      },
    });
    const none = readRow({ ...row, time: "" }, head, shot, range, "metric", now);
    expect(none).toMatchObject({ complaints: { time: expect.stringMatching(/^Time seen: enter it/) } });
    // Without a day there is no moment, whatever else is right.
    expect(readRow(row, { ...head, day: "" }, shot, range, "metric", now).ok).toBe(false);
  });

  it("is filled in once anything stands in it", () => {
    expect(isTouched(emptyRow, "bearing-distance")).toBe(false);
    expect(isTouched({ ...emptyRow, outcome: "foul" }, "bearing-distance")).toBe(true);
    expect(isTouched({ ...emptyRow, values: row.values }, "bearing-distance")).toBe(true);
    expect(isTouched({ ...emptyRow, values: row.values }, "laser")).toBe(false);
    const tapes: PaperRow["values"] = { "two-tapes": { tapes: [{ distance: cell("40") }, {}] } };
    expect(isTouched({ ...emptyRow, values: tapes }, "two-tapes")).toBe(true);
  });

  it("has room for the ways to measure that give the same few numbers every time", () => {
    expect(PAPER_METHODS.map(({ method }) => method)).toEqual([
      "bearing-distance",
      "position",
      "centreline-offset",
      "two-tapes",
      "laser",
      "position-mean",
    ]);
  });
});
