/** A release read off a film of the model's own throw, points tapped one after the other, and what is kept of them. */
import { describe, expect, test } from "vitest";
import { startingFilm } from "@/app/workbench/trials/footage/film-form";
import { type FilmTold, footageOf } from "@/app/workbench/trials/footage/film-told";
import { rateOf } from "@/app/workbench/trials/footage/frames";
import { filmFromText, filmToText } from "@/app/workbench/trials/footage/kept-film";
import {
  lastHeld,
  nextPoint,
  nothingTapped,
  stateOf,
  type Tapped,
  tapped,
  unmarked,
} from "@/app/workbench/trials/footage/marks";
import { filmOf, type HazardRequest, hazardRequestSchema, MACHINE_KINDS, Reel, trials } from "@/lib/throw";
import { Draws } from "@/lib/throw/spread/philox";

function there<T>(value: T | null | undefined): T {
  if (value === null || value === undefined) throw new Error("It is not there.");
  return value;
}

const KIND = there(MACHINE_KINDS.find(({ kind }) => kind === "hinged-counterweight"));
const REQUEST: HazardRequest = hazardRequestSchema.parse({
  machine: KIND.example,
  projectile: KIND.exampleProjectile,
});
const PLAYED = filmOf(REQUEST);
const { pivotHeight, releaseAngle } = REQUEST.machine as { pivotHeight: number; releaseAngle: number };
const PIXELS = 60;

/** The model's film as a camera without fault sees it, taps missed by `miss` px. */
function shot(options: { fps: number; phase: number; frames: number; tap: number; miss: () => number }) {
  const { fps, phase, frames, tap, miss } = options;
  const reel = new Reel(PLAYED);
  const release = PLAYED.release as number;
  const first = release - (2.5 - phase) / fps;
  const onPicture = (x: number, y: number): trials.Pixel => [
    900 + PIXELS * x + miss(),
    1000 - PIXELS * y + miss(),
  ];
  const times = Array.from({ length: frames + 3 }, (_, i) => first + i / fps);
  const footage: trials.Footage = {
    pivot: onPicture(0, pivotHeight),
    lengths: [
      { from: onPicture(0, 0), to: onPicture(0, pivotHeight), length: pivotHeight, uncertainty: 0.005 },
    ],
    plumb: null,
    towards: "right",
    frames: times.map((time) => {
      const { machine, projectile } = reel.at(time);
      const tip = machine && onPicture(machine.tip[0], machine.tip[1]);
      return { time, tip, projectile: onPicture(projectile.x, projectile.y) };
    }),
    held: times.filter((time) => time <= release).at(-1) as number,
    free: times.find((time) => time > release) as number,
    tap,
    clock: 0,
    pace: { by: "told", timing: 0 },
    camera: { width: 1920, height: 1080, distance: 30, square: 1, level: 1, depth: 0, readout: 0 },
    windRead: true,
  };
  return footage;
}

describe("a release read off a film", () => {
  test("is the model's where the taps are exact", () => {
    const found = trials.releaseFromFootage(
      shot({ fps: 1000, phase: 0.2, frames: 60, tap: 1e-6, miss: () => 0 }),
      REQUEST,
    );
    if (!found.ok) throw new Error(found.why);
    const { releaseSpeed, launchAngle, releaseHeight } = there(PLAYED.nominal);
    expect(found.speed.value).toBeCloseTo(releaseSpeed, 1);
    expect(found.launchAngle.value).toBeCloseTo(launchAngle, 1);
    expect(found.at.up + pivotHeight).toBeCloseTo(releaseHeight, 1);
    const { value, uncertainty } = there(found.slingAngle);
    expect(Math.abs(value - releaseAngle)).toBeLessThan(uncertainty + 0.2);
    expect(there(found.fall.size).value).toBeCloseTo(1, 2);
    expect(found).toMatchObject({ backwards: false, slower: null, fall: { verdict: "agrees" } });
  });

  test("the sling's angle lies within what is stated in 95 of 100 films", () => {
    const draws = new Draws(22);
    const drawn = new Float64Array(64);
    let held = 0;
    for (let i = 0; i < 100; i++) {
      draws.fill(i, drawn);
      let next = 1;
      // Three evenly spread numbers added up are near enough to normal.
      const miss = () => 2 * [0, 1, 2].reduce((sum) => sum + (drawn[next++ % 64] as number), 0);
      const footage = shot({ fps: 60, phase: 0.49 * (drawn[0] as number), frames: 3, tap: 2, miss });
      const found = trials.releaseFromFootage(footage, REQUEST);
      if (!found.ok) throw new Error(found.why);
      const { value, uncertainty } = there(found.slingAngle);
      held += Math.abs(value - releaseAngle) <= uncertainty ? 1 : 0;
    }
    expect(held).toBeGreaterThan(92);
  });

  test("few points widen it by more than their number: Student's factor; an unsure slip widens it", () => {
    const read = (change: (footage: trials.Footage) => Partial<trials.Footage>) => {
      const footage = shot({ fps: 60, phase: 0, frames: 10, tap: 2, miss: () => 0 });
      const found = trials.releaseFromFootage({ ...footage, ...change(footage) }, REQUEST);
      if (!found.ok) throw new Error(found.why);
      return found;
    };
    const many = read(() => ({}));
    const two = read(({ frames, free }) => ({
      frames: frames.filter(({ time }) => time < free + 1.5 / 60),
    }));
    expect(two.points).toBe(2);
    expect(two.coverage.speed).toBeGreaterThan(2.5);
    expect(many.coverage.speed).toBeLessThan(2.2);
    expect(two.fall).toEqual({ verdict: "open", size: null, tilt: null });
    const unsure = read(({ held }) => ({ held: there(held) - 4 / 60 }));
    expect(unsure.budget.instant.angle).toBeGreaterThan(3 * many.budget.instant.angle);
  });

  test("says what is missing", () => {
    const footage = shot({ fps: 60, phase: 0, frames: 6, tap: 2, miss: () => 0 });
    const why = (changed: Partial<trials.Footage>) => {
      const found = trials.releaseFromFootage({ ...footage, ...changed }, REQUEST);
      return found.ok ? "ok" : found.why;
    };
    const [length] = footage.lengths as [trials.KnownLength];
    expect(why({})).toBe("ok");
    expect(why({ frames: footage.frames.slice(0, 4) })).toBe("few-points");
    expect(why({ lengths: [{ ...length, to: length.from }] })).toBe("scale");
    expect(why({ plumb: [length.from, length.from] })).toBe("plumb");
    expect(why({ held: null })).toBe("held");
    expect(why({ held: footage.free })).toBe("order");
  });
});

const FRAME = (time: number) => ({ time, timed: true });
const TOLD: FilmTold = {
  length: 2,
  length2: null,
  lengthUncertainty: 0,
  towards: "right",
  pace: "true",
  plays: 30,
  filmed: 30,
  tap: 1,
  level: 0,
  distance: null,
  square: 5,
  depth: 0,
};
const SIZE = { width: 640, height: 360 };

describe("points tapped on a film", () => {
  let marks: Tapped = { ...nothingTapped, freeFrom: 0.2 };
  marks = tapped(tapped(marks, "from", [0, 0], FRAME(0)), "to", [0, 100], FRAME(0));
  for (const time of [0.3, 0.1, 0.2, 0.4]) marks = tapped(marks, "projectile", [time * 100, 50], FRAME(time));
  marks = tapped(marks, "projectile", [31, 50], FRAME(0.3001));

  test("come one after the other, by the frame, in true time", () => {
    expect(nextPoint(marks, "to", 0)).toEqual({ point: "tip", step: false });
    expect(nextPoint(marks, "projectile", 0.1)).toEqual({ point: "tip", step: true });
    expect(nextPoint(marks, "projectile", 0.2)).toEqual({ point: "projectile", step: true });
    const read = footageOf(marks, { ...TOLD, pace: "slow", filmed: 240 }, SIZE, false);
    if (!read.ok) throw new Error(read.missing.join());
    expect(read.footage.frames.map(({ time }) => time.toFixed(4))).toEqual([
      "0.0125",
      "0.0250",
      "0.0375",
      "0.0500",
    ]);
    expect([read.footage.held, read.footage.free]).toEqual([0.1 / 8, 0.2 / 8]);
    const [, second] = unmarked(marks, "projectile", 0.1).frames;
    expect(second?.time).toBe(0.3);
  });

  test("the release lies between the frames that were said, whether their projectile is tapped or not", () => {
    const said = { ...unmarked(marks, "projectile", 0.2), heldUntil: 0.15, freeFrom: 0.2 };
    expect(lastHeld(said)).toBe(0.15);
    expect([0.1, 0.18, 0.2].map((time) => stateOf(said, time))).toEqual(["held", "between", "free"]);
    const read = footageOf(said, TOLD, SIZE, true);
    expect(read).toMatchObject({ ok: true, footage: { held: 0.15, free: 0.2 } });
  });

  test("what is missing is asked for", () => {
    const missing = (change: Partial<Tapped>) => {
      const read = footageOf({ ...marks, ...change }, TOLD, SIZE, false);
      return read.ok ? "" : read.missing.join(" ");
    };
    expect(missing({})).toBe("");
    expect(missing({ freeFrom: null })).toContain("Say in which frame the loop has surely slipped.");
    const untapped = marks.frames.filter(({ time }) => time > 0.15);
    expect(missing({ frames: untapped })).toContain("the last frame in which the loop surely holds");
    expect(missing({ plumbTop: [1, 1] })).toContain("other end of the plumb line");
    expect(missing({ from2: [1, 1], to2: [5, 1] })).toContain("how long the second length is");
  });

  test("are kept with what was told, in the units of the day; what cannot be read is left", () => {
    const file = { name: "throw.webm", size: 5, modified: 7 };
    const form = startingFilm(REQUEST, "metric");
    const text = filmToText({ file, tapped: marks, form });
    expect(filmFromText(text, "metric")).toEqual({ file, tapped: marks, form });
    expect(filmFromText(text, "us")?.form.depth.value).toBe(0.2);
    expect(filmFromText(text, "us")?.form.depth.text).not.toBe(form.depth.text);
    expect(filmFromText(text.slice(0, -9), "metric")).toBeNull();
  });
});

test("a rate is that of the usual step; frames that the page missed do not count; an uneven one is told", () => {
  const heard = (times: number[], counts = times.map((_, i) => i)) =>
    times.map((time, i) => ({ time, count: counts[i] as number }));
  expect(rateOf(heard([0, 0.033, 0.067, 0.1, 0.133, 0.167]))).toMatchObject({ rate: 29.94, uneven: false });
  expect(rateOf(heard([0, 0.04, 0.08, 0.2, 0.24, 0.28], [0, 1, 2, 5, 6, 7]))).toMatchObject({
    rate: 25,
    uneven: false,
  });
  expect(rateOf(heard([0, 0.03, 0.06, 0.12, 0.15, 0.21, 0.27]))?.uneven).toBe(true);
  expect(rateOf(heard([0, 0.03]))).toBeNull();
});
