import { describe, expect, it } from "vitest";
import {
  FIRING_POINT,
  type Field,
  type FixInput,
  fixSchema,
  METHODS,
  measure,
  type Site,
  WARNING_CODES,
} from "@/lib/survey";
import { apart, at, FIRING, measured, observations, PEGS, peg, refused, SITE, seen } from "./survey-site";

const POINT = at(15, 110);
const tape = (id: string, distance: number) => ({ from: id, distance });
const reads = (id: string, point = POINT, error = 0) => tape(id, seen(SITE, id, point).distance + error);
const sight = (id: string, point = POINT, error = 0) => ({
  from: id,
  bearing: (seen(SITE, id, point).bearing + error + 360) % 360,
});
const twoTapes = (
  first: ReturnType<typeof tape>,
  second: ReturnType<typeof tape>,
  side = "left",
): FixInput => ({
  outcome: "landed",
  method: "two-tapes",
  tapes: [first, second],
  side: side as "left",
});
const bearings = (...each: ReturnType<typeof sight>[]): FixInput => ({
  outcome: "landed",
  method: "bearings",
  bearings: each,
});

describe("every way to measure the same point", () => {
  const entries = Object.entries(observations(SITE, POINT, undefined, { rise: 6 }));

  it.each(entries)("%s finds it, with the mark from the firing point", (_, entry) => {
    const { located } = measured(entry as FixInput);
    expect(apart(located.point, POINT)).toBeLessThan(2e-4);
    expect(located.mark).toBeCloseTo(seen(SITE, FIRING_POINT, POINT).distance, 3);
    expect(located.uncertainty).toBeGreaterThan(0);
  });

  it("uses every method", () => {
    expect(new Set(entries.map(([, { method }]) => method))).toEqual(
      new Set(METHODS.map(({ method }) => method)),
    );
  });
});

describe("what a form is made from", () => {
  /** The keys that a contract takes, those of a list's rows too. */
  const names = (fields: readonly Field[]): string[] =>
    fields.flatMap((field) => [
      field.name,
      ...(field.type === "list" ? names(field.fields).map((name) => `${field.name}.${name}`) : []),
    ]);
  const accepted = (schema: unknown): Record<string, { shape?: object; element?: { shape: object } }> =>
    (schema as { shape: Record<string, never> }).shape;

  it.each(METHODS)(
    "$method: every field is one of the contract, and what must be given is asked for",
    (method) => {
      const shape = accepted(method.schema);
      const fields: readonly Field[] = method.fields;
      for (const field of fields) {
        expect(Object.keys(shape)).toContain(field.name);
        if (field.type === "list")
          for (const { name } of field.fields)
            expect(Object.keys(shape[field.name]?.element?.shape ?? {})).toContain(name);
        if (field.when) expect(fields.find(({ name }) => name === field.when?.choice)?.type).toBe("choice");
        expect(field.help).toMatch(/\.$/);
      }
      const asked = names(fields);
      for (const { path } of method.schema.safeParse({ outcome: "landed", method: method.method }).error
        ?.issues ?? [])
        expect(asked).toContain(path.join("."));
    },
  );
});

describe("bad geometry is said before anybody walks away", () => {
  it("tapes too short to meet, and by how much", () => {
    const [warning] = refused(twoTapes(tape("a", 40), tape("b", 50)));
    const base = seen(SITE, "a", PEGS.b as never).distance;
    expect(warning?.code).toBe("tapes-do-not-meet");
    expect(warning?.text).toContain(`${(base - 90).toFixed(1)} m too short to meet`);
  });

  it("a tape that ends inside the other's arc", () => {
    const [warning] = refused(twoTapes(tape("a", 300), tape("b", 50)));
    expect(warning?.code).toBe("tapes-do-not-meet");
    expect(warning?.text).toMatch(/the shorter one ends \d+\.\d m before/);
  });

  it("a flat triangle, and a side that the tapes cannot tell", () => {
    const line = at(17, 43);
    const { codes } = measured(twoTapes(reads("a", line, 0.005), reads("b", line, 0.005)));
    expect(codes).toEqual(["flat-triangle", "which-side"]);
    expect(measured(twoTapes(reads("a"), reads("b"))).codes).toEqual([]);
  });

  it("the side asked for is the one taken", () => {
    const left = measured(twoTapes(reads("a"), reads("b"))).located;
    const right = measured(twoTapes(reads("a"), reads("b"), "right")).located;
    expect(apart(left.point, POINT)).toBeLessThan(1e-4);
    expect(apart(right.point, POINT)).toBeGreaterThan(50);
    const swapped = measured(twoTapes(reads("b"), reads("a"), "right")).located;
    expect(apart(swapped.point, POINT)).toBeLessThan(1e-4);
  });

  it("all from one peg", () => {
    expect(refused(twoTapes(reads("a"), reads("a")))[0]?.code).toBe("same-peg");
    expect(refused(bearings(sight("a"), sight("a")))[0]?.code).toBe("same-peg");
  });

  it("three tapes from pegs in a line: the side nearer to the shot's bearing, with a warning", () => {
    const pegs = { a: peg("One", -60, 0), b: peg("Two", 0, 0.01), c: peg("Three", 70, 0) };
    const landing = at(20, -70);
    const back = (centreline: number): Site => ({ firingPoint: FIRING, pegs, centreline });
    const entry: FixInput = {
      outcome: "landed",
      method: "tapes",
      tapes: ["a", "b", "c"].map((id) => tape(id, seen(back(0), id, landing).distance)),
    };
    const behind = measured(entry, back(170));
    expect(behind.codes).toEqual(["which-side"]);
    expect(apart(behind.located.point, landing)).toBeLessThan(1e-3);
    expect(apart(measured(entry, back(10)).located.point, at(20, 70))).toBeLessThan(1);
  });

  it("a tape among several that cannot meet another", () => {
    const { codes, texts } = measured({
      outcome: "landed",
      method: "tapes",
      tapes: [reads("a"), reads("b"), reads("c"), tape("d", 3)],
    });
    expect(codes).toEqual(["tapes-do-not-meet", "tapes-do-not-meet", "tapes-do-not-meet", "blunder-suspect"]);
    const short = seen(SITE, "d", POINT).distance - 3;
    expect(texts.at(-1)).toContain(
      `Check tape 4, from Damson: the others agree without it, and by them it is ${short.toFixed(1)} m too short`,
    );
  });

  it("bearings that hardly cross, are parallel or run apart", () => {
    const far = at(20, 500);
    expect(measured(bearings(sight("a", far), sight("b", far))).codes).toContain("bearings-hardly-cross");
    const [parallel] = refused(bearings({ from: "a", bearing: 10 }, { from: "b", bearing: 11 }));
    expect(parallel?.code).toBe("bearings-do-not-cross");
    const [apartFrom] = refused(bearings({ from: "a", bearing: 300 }, { from: "b", bearing: 60 }));
    expect(apartFrom?.text).toContain("behind Ash and Birch");
  });

  it("three bearings of which one is wrong", () => {
    const { codes } = measured(bearings(sight("a"), sight("b"), sight("c", POINT, 12)));
    expect(codes).toContain("blunder-not-located");
  });

  it("one bearing read from the wrong end of the needle", () => {
    const [warning] = refused(bearings(sight("a"), sight("b", POINT, 180)));
    expect(warning?.code).toBe("bearings-do-not-cross");
    expect(warning?.text).toContain("Birch");
  });

  it("an instrument too near", () => {
    const near = at(-44, 26);
    expect(measured(bearings(sight("a", near), sight("b", near))).codes).toContain("too-near");
    const polar = {
      outcome: "landed",
      method: "bearing-distance",
      from: "a",
      bearing: 45,
      distance: 1,
    } as const;
    expect(measured(polar).codes).toContain("too-near");
  });

  it("a zenith angle taken for an elevation, and the reverse", () => {
    const polar = { outcome: "landed", method: "bearing-distance", bearing: 45, distance: 100 } as const;
    const { codes, texts } = measured({ ...polar, slope: "zenith", zenith: 3 });
    expect(codes).toContain("zenith-or-elevation");
    expect(texts[0]).toContain("90° is level");
    expect(measured({ ...polar, slope: "elevation", elevation: 88 }).codes).toContain("zenith-or-elevation");
    expect(measured({ ...polar, slope: "elevation", elevation: -30 }).codes).toContain("steep");
    expect(measured({ ...polar, slope: "zenith", zenith: 88 }).codes).toEqual([]);
  });

  it("a rise longer than the tape", () => {
    const polar = { outcome: "landed", method: "bearing-distance", bearing: 45, distance: 10 } as const;
    expect(refused({ ...polar, slope: "rise", rise: 10 })[0]?.code).toBe("rise-too-large");
  });

  it("an offset so long that the right angle matters more than the tape", () => {
    const entry = {
      outcome: "landed",
      method: "centreline-offset",
      along: 100,
      offset: 40,
      side: "left",
    } as const;
    expect(measured(entry).codes).toEqual(["offset-long"]);
    expect(measured({ ...entry, offset: 3 }).codes).toEqual([]);
    expect(measured({ ...entry, rightAngleUncertainty: 0.1 }).codes).toEqual([]);
  });

  it("a position so near to the firing point that its mark comes out too long", () => {
    expect(measured({ outcome: "landed", method: "position", ...at(2, 3) }).codes).toEqual(["near-origin"]);
  });

  it("positions that wander, or were averaged for no time", () => {
    const sample = (seconds: number, east: number) => ({ ...at(east, 100), seconds, accuracy: 4 });
    const samples = (...each: ReturnType<typeof sample>[]): FixInput => ({
      outcome: "landed",
      method: "position-samples",
      samples: each,
    });
    expect(measured(samples(sample(0, 0), sample(5, 1))).codes).toEqual(["samples-few"]);
    const wandering = measured(samples(sample(0, 0), sample(40, 20), sample(80, -20)));
    expect(wandering.codes).toEqual(["samples-scatter"]);
    const still = measured(samples(sample(0, 0), sample(40, 1), sample(80, -1)));
    expect(wandering.located.uncertainty).toBeGreaterThan(2 * still.located.uncertainty);
  });

  it("the coarse ways say so", () => {
    for (const { method, ...rest } of METHODS.filter((each) => "coarse" in each && each.coarse)) {
      const entry = Object.values(observations(SITE, POINT)).find((each) => each.method === method);
      expect(measured(entry as FixInput).codes, rest.title).toContain("coarse");
    }
  });
});

describe("what the site must know", () => {
  it("the peg, the declination, the shot's bearing", () => {
    const site = { firingPoint: FIRING };
    const { laser, centreline } = observations(SITE, POINT);
    expect(
      refused({ outcome: "landed", method: "bearing-distance", from: "x", bearing: 1, distance: 9 })[0]?.code,
    ).toBe("unknown-peg");
    expect(refused(laser, { ...site, pegs: PEGS })[0]?.code).toBe("no-declination");
    expect(refused(centreline, site)[0]?.code).toBe("no-centreline");
  });

  it("a fix's own declination stands before the site's", () => {
    const entry = {
      outcome: "landed",
      method: "laser",
      range: 100,
      inclination: 0,
      bearing: 20,
      north: "magnetic",
    } as const;
    expect(measured(entry).located.bearing).toBeCloseTo(24, 9);
    expect(measured({ ...entry, declination: -3 }).located.bearing).toBeCloseTo(17, 9);
  });

  it("bearings on a wide field are counted from each peg's own north", () => {
    const wide: Site = { firingPoint: FIRING, pegs: { far: peg("Far", 900, 0), away: peg("Away", 0, 1200) } };
    const landing = at(700, 800);
    const { located } = measured(
      {
        outcome: "landed",
        method: "bearings",
        bearings: ["far", "away"].map((id) => ({ from: id, bearing: seen(wide, id, landing).bearing })),
      },
      wide,
    );
    // Taken as parallel, the norths would put it 13 cm off.
    expect(apart(located.point, landing)).toBeLessThan(2e-3);
  });
});

it("every warning has a code of the list and says what to do", () => {
  const { warnings } = measure(fixSchema.parse(twoTapes(tape("a", 1), tape("b", 1))), SITE);
  for (const { code, text } of warnings) {
    expect(WARNING_CODES).toContain(code);
    expect(text).toMatch(/\.$/);
  }
});
