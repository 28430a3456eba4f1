/** A judge's form: every way to measure goes from what is typed to a fix and back, and says what is missing. */
import { describe, expect, it } from "vitest";
import { type Complaints, draftOf, emptyDraft, fieldsOf, rawOf } from "@/app/contests/[contest]/judge/draft";
import { type JudgeShot, readDraft } from "@/app/contests/[contest]/judge/entry";
import { pressed } from "@/app/contests/[contest]/judge/keypad";
import { type Fix, type FixMethod, fixSchema, METHODS } from "@/lib/survey";

const shot = {
  id: "shot",
  bearing: 90,
  firingPoint: { id: "fp", number: 1, latitude: 47, longitude: 11, height: 600, accuracy: 0.1 },
  firingPointNumber: 1,
  lastMark: 60,
  worstForward: 150,
  worstBackward: 40,
} as unknown as JudgeShot;

const pegs = ["oak", "elm", "ash"].map((id, index) => ({
  id,
  name: id,
  latitude: 47.0004 - 0.0004 * index,
  longitude: 11.0006 + 0.0003 * index,
  height: 600,
  accuracy: 0.02,
  heightGiven: true,
  note: "",
  retired: false,
}));
const rule = { from: "firing-point", landing: "first-impact", sector: null, unit: "1cm" } as const;
const range = { pegs, declination: 4, marking: { rule, centre: null } };

const landed = { outcome: "landed" } as const;
const place = { latitude: 47.0001, longitude: 11.0009 };
/** One entry of each way to measure, with what only some of them ask for. */
const entries: Record<FixMethod, object> = {
  "bearing-distance": { from: "oak", bearing: 87.5, north: "magnetic", declination: 4, distance: 61.25 },
  position: { ...place, accuracy: 4, accuracyLevel: 68 },
  "centreline-offset": { along: 71.5, offset: 3.25, side: "left" },
  "two-tapes": {
    tapes: [
      { from: "oak", distance: 40 },
      { from: "ash", distance: 50.25 },
    ],
    side: "right",
  },
  tapes: {
    tapes: [
      { from: "oak", distance: 40 },
      { from: "elm", distance: 31 },
      { from: "ash", distance: 50.25, uncertainty: 0.1 },
    ],
  },
  laser: { range: 70, inclination: -1.5, bearing: 91 },
  bearings: {
    bearings: [
      { from: "oak", bearing: 150 },
      { from: "ash", bearing: 20, north: "magnetic", declination: 4 },
    ],
  },
  "position-samples": {
    samples: [
      { ...place, seconds: 0 },
      { ...place, latitude: 47.00011, accuracy: 5, seconds: 30 },
    ],
  },
  "position-mean": { ...place, count: 20, seconds: 60 },
  spotters: {
    bearings: [
      { from: "oak", bearing: 150 },
      { from: "ash", bearing: 20 },
    ],
  },
  "map-tap": { ...place, metresPerPixel: 0.5 },
};

describe.each(["metric", "us"] as const)("in %s units", (system) => {
  it.each(METHODS.map(({ method }) => [method] as const))(
    "%s comes back from the form as it was sent",
    (method) => {
      const fix = fixSchema.parse({ ...landed, method, ...entries[method] }) as Fix;
      const draft = draftOf(fix, "", system);
      const read = readDraft(draft, shot, range, false, system);
      expect(read).toMatchObject({ ok: true });
      if (read.ok) expect(rounded(read.fix)).toEqual(rounded(fix));
    },
  );
});

/** Positions are shown to a centimetre. */
const rounded = (value: unknown): unknown =>
  JSON.parse(JSON.stringify(value, (_, part) => (typeof part === "number" ? Number(part.toFixed(6)) : part)));

it.each(METHODS.map(({ method }) => [method] as const))(
  "%s empty complains of every field that it needs",
  (method) => {
    const complaints: Complaints = {};
    rawOf(fieldsOf(method), {}, 0, "metric", complaints);
    const needed = fieldsOf(method).filter(
      ({ required, when, type }) => required && !when && type !== "list",
    );
    for (const { name } of needed)
      expect(Object.keys(complaints)).toContain(/^l(at|ong)itude$/.test(name) ? "position" : name);
    expect(Object.keys(complaints).length).toBeGreaterThan(0);
    expect(readDraft({ ...emptyDraft, outcome: "landed", method }, shot, range, false, "metric").ok).toBe(
      false,
    );
  },
);

it("a compass bearing takes the site's declination, and a warning does not block", () => {
  const fix = fixSchema.parse({
    ...landed,
    method: "bearing-distance",
    bearing: 86,
    north: "magnetic",
    declination: 4,
    distance: 200,
  });
  const draft = draftOf(fix, "", "metric");
  const values = draft.values["bearing-distance"];
  delete values?.declination;
  const read = readDraft(draft, shot, range, false, "metric");
  if (!read.ok) throw new Error(JSON.stringify(read.complaints));
  expect(read.outcome.located?.bearing).toBeCloseTo(90, 6);
  expect(read.outcome.mark).toBe(200);
  expect(read.outcome.warnings.join(" ")).toMatch(/beyond the worst throw.*twice/s);
});

it("the mark is the contest's own: from its arc, in its unit", () => {
  const arc = { ...rule, from: "arc", centre: "oak", radius: 10, unit: "0.1m" } as const;
  const centre = { name: "oak", latitude: 47, longitude: 11, height: 600 };
  const fix = fixSchema.parse({ ...landed, method: "bearing-distance", bearing: 90, distance: 61.27 });
  const marking = { rule: arc, centre };
  const read = readDraft(draftOf(fix, "", "metric"), shot, { ...range, marking }, false, "metric");
  // 61.27 m from the firing point, where the arc of 10 m was drawn about.
  expect(read.ok && read.outcome.mark).toBe(51.2);
});

it("the keypad writes feet and inches, and takes back a unit as a whole", () => {
  const typing = ["1", "9", "0", "ft", "3", "in"].reduce(pressed, "");
  expect(typing).toBe("190 ft 3 in");
  expect(pressed(typing, "⌫")).toBe("190 ft 3");
  expect(pressed(pressed("190 ft 3", "⌫"), "⌫")).toBe("190");
  expect(pressed(pressed("4", "−"), "−")).toBe("4");
});
