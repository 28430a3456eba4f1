/** When a firing permit falls: every cause by itself, what falls for good, and what leaves a permit standing. */
import { describe, expect, test } from "vitest";
import { type Fall, fallsOf, type Happened, type Signed } from "@/lib/inspection";

const SIGNED_AT = new Date("2031-10-04T09:00:00Z");
const at = new Date("2031-10-04T10:00:00Z");

const signed: Signed = {
  revisionId: "revision 2",
  firingPointId: "point 1",
  bearing: 359.5,
  sheetId: "sheet 5",
  at: SIGNED_AT,
  limits: {
    wind: { speed: 4, gust: 8, height: 10 },
    bearing: 1,
    projectileMass: { least: 3.9, most: 4.1 },
    counterweightMass: 340,
    pressure: null,
  },
};
const now = {
  revisionId: "revision 2",
  firingPointId: "point 1",
  bearing: 359.5,
  retired: false,
  sheetId: "sheet 5",
  winds: [{ speed: 3, gust: 7, height: 10 }],
  windWasRead: true,
  markPending: false,
};
const wind = (gust: number, speed = 3, height = 10) => ({ speed, gust, height });
const read = (gust: number, more: object = {}): Happened => ({
  what: "wind",
  at,
  wind: wind(gust),
  expiresAt: new Date("2031-10-04T10:30:00Z"),
  ...more,
});
const causes = (falls: readonly Fall[]) => falls.map(({ cause }) => cause);

test("nothing happened: it stands", () => {
  expect(fallsOf(signed, [], now)).toEqual([]);
});

describe("it falls for good", () => {
  test.each<[string, Happened, string]>([
    ["withdrawn", { what: "withdrawn", at, reason: "The trigger stuck" }, "The trigger stuck"],
    ["replaced", { what: "signed", at, number: 12 }, "Permit 12"],
    ["retired", { what: "retired", at }, "retired"],
    ["revision", { what: "revision", at, number: 3 }, "revision 3"],
    ["place", { what: "placed", at, firingPointId: "point 2", bearing: 359.5 }, "another firing point"],
    ["place", { what: "placed", at, firingPointId: null, bearing: null }, "left the firing line"],
    ["place", { what: "firing-point-moved", at }, "was moved"],
    ["bearing", { what: "placed", at, firingPointId: "point 1", bearing: 0.6 }, "another bearing"],
    ["policy", { what: "policy", at }, "policy"],
    ["air", { what: "air", at }, "air"],
    ["inspection", { what: "inspection", at, outcome: "refused" }, "refused"],
    ["inspection", { what: "inspection", at, outcome: "meets-with-limits" }, "limits"],
    ["wind", read(8.1), "8.1 m/s (18.1 mph) at 10 m (33 ft)"],
    ["alarm", { what: "alarm", at, beyondWorst: true }, "beyond the worst"],
    ["alarm", { what: "alarm", at, beyondWorst: false }, "99 of 100"],
    ["incident", { what: "incident", at }, "incident"],
  ])("%s: %o", (cause, happened, words) => {
    // Everything is by now as it was signed: carried back, changed back, calmed down.
    const [fall, ...others] = fallsOf(signed, [happened], now);
    expect(fall).toMatchObject({ cause, lasting: true, at });
    expect(fall?.text).toContain(words);
    expect(others).toEqual([]);
  });

  test.each([
    ["retired", { retired: true }],
    ["revision", { revisionId: "revision 3" }],
    ["revision", { revisionId: null }],
    ["place", { firingPointId: "point 2" }],
    ["bearing", { bearing: 1 }],
    ["bearing", { bearing: null }],
    ["sheet", { sheetId: "sheet 6" }],
    ["sheet", { sheetId: null }],
    ["wind", { winds: [wind(5), wind(8.1)] }],
  ])("by how things are now, whatever the scorebook has: %s, %o", (cause, change) => {
    expect(fallsOf(signed, [], { ...now, ...change })).toMatchObject([{ cause, lasting: true, at: null }]);
  });
});

describe("it stands again by itself", () => {
  test.each([
    ["wind-unknown", { winds: [] }, "expired"],
    ["wind-unknown", { winds: [], windWasRead: false }, "Nobody has read"],
    ["alarm-pending", { markPending: true }, "wait"],
  ])("%s: %o", (cause, change, words) => {
    const falls = fallsOf(signed, [], { ...now, ...change });
    expect(falls).toMatchObject([{ cause, lasting: false }]);
    expect(falls[0]?.text).toContain(words);
  });
});

describe("it goes on standing", () => {
  test.each<[string, Happened]>([
    [
      "aimed within its tolerance, across north",
      { what: "placed", at, firingPointId: "point 1", bearing: 0.4 },
    ],
    ["inspected again without limits", { what: "inspection", at, outcome: "meets" }],
    ["wind at the limit", read(8)],
    ["a stronger wind that was over before it was signed", read(20, { expiresAt: SIGNED_AT })],
  ])("%s", (_, happened) => {
    expect(fallsOf(signed, [happened], now)).toEqual([]);
  });
});

test("the mean of the wind has its limit too", () => {
  const falls = fallsOf(signed, [], { ...now, winds: [wind(6, 4.1)] });
  expect(causes(falls)).toEqual(["wind"]);
  expect(falls[0]?.text).toContain("a mean of 4.1 m/s");
});

test("winds at different heights are compared at one", () => {
  // 7.5 m/s at 2 m is 9.4 m/s at 10 m by the power law with exponent 1/7.
  expect(causes(fallsOf(signed, [], { ...now, winds: [wind(7.5, 3, 2)] }))).toEqual(["wind"]);
  expect(fallsOf(signed, [], { ...now, winds: [wind(9, 3, 40)] })).toEqual([]);
});

test("every cause is told once, the first time it came, in order", () => {
  const since: Happened[] = [
    { what: "policy", at: SIGNED_AT },
    read(9),
    { what: "policy", at },
    { what: "revision", at, number: 3 },
  ];
  const falls = fallsOf(signed, since, { ...now, revisionId: "revision 3", sheetId: null, winds: [] });
  expect(causes(falls)).toEqual(["policy", "wind", "revision", "sheet", "wind-unknown"]);
  expect(falls[0]?.at).toBe(SIGNED_AT);
});
