/**
 * A release read off a film, against films made by a simulator of its own (independent/film.ts): a throw with drag, lift and
 * wind seen by a camera that is turned, leans and reads its rows one after the other, at even and uneven rates, tapped by hand.
 * All that the page asks for is drawn from within what it is told.
 */
import { describe, expect, test } from "vitest";
import { hazardRequestSchema, trials } from "@/lib/throw";
import { type FilmOf, tappedFilm } from "./independent/film";

/** Uniform numbers from 0 to 1 (mulberry32). */
function uniforms(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const AIR = { density: 1.225, temperature: 288.15, pressure: 101_325 };
const BODY = { mass: 3, diameter: 0.2, drag: { nominal: 0.4, low: 0.2, high: 0.6 }, lift: 0.1 };

const requestIn = (wind: number) =>
  hazardRequestSchema.parse({
    machine: { kind: "measured", releaseSpeed: 20, launchAngle: 45, launchHeight: 6 },
    projectile: BODY,
    air: {
      temperature: AIR.temperature,
      pressure: AIR.pressure,
      wind: { speed: Math.abs(wind), direction: wind < 0 ? 180 : 0, height: 6 },
    },
  });
const REQUEST = requestIn(0);

interface Told {
  points: number;
  /** Frames a second of the camera and of its file. */
  rate: number;
  plays: number;
  uneven: boolean;
  plumb?: boolean;
  windRead?: boolean;
  /** Taps miss so many times as far as is said. */
  missed?: number;
  pace?: "told" | "fall";
  /** The file plays so many times slower than anybody says. */
  untold?: number;
}

/** One film with all its errors, and what the page would be told of it. */
function drawn(seed: number, told: Told) {
  const { points, rate, plays, uneven, plumb, windRead = true, missed = 1, pace = "told", untold = 1 } = told;
  const tap = 2;
  const uniform = uniforms(seed);
  const within = (low: number, high: number) => low + (high - low) * uniform();
  const either = (most: number) => within(-most, most);
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const [speed, angle] = [within(8, 30), within(20, 70)];
  const slow = rate / plays;
  // What file times are divided by for the times that are told.
  const toldSlow = pace === "fall" ? 1 : slow / untold;
  // Every so many frames are tapped, so that what is tapped fills about 0.4 s.
  const every = Math.max(1, Math.round((rate * within(0.2, 0.5)) / points));
  const times: number[] = [];
  for (let at = within(-1, 0) / rate; times.length < points + 1; ) {
    times.push(at);
    const frames = at < 0 ? 1 : every;
    for (let i = 0; i < frames; i++) at += (uneven ? within(0.6, 1.8) : 1) / rate;
  }
  const timing = 0.002;
  const width = 1920;
  const wide = Math.max(8, 1.25 * speed * (times.at(-1) as number) + 4);
  const camera = {
    width,
    height: 1080,
    distance: wide * within(1, 3),
    square: 5,
    level: 2,
    depth: 0.2,
    readout: Math.min(1 / rate, 0.03),
  };
  const wind = windRead ? within(-6, 6) : 0;
  const film: FilmOf = {
    speed,
    angle,
    air: (AIR.density * Math.PI * BODY.diameter ** 2) / 8 / BODY.mass,
    drag: within(BODY.drag.low, BODY.drag.high),
    lift: either(BODY.lift),
    wind: windRead ? wind + either(Math.max(1, Math.abs(wind) / 3)) : either(5),
    width,
    height: camera.height,
    distance: camera.distance,
    wide,
    yaw: either(camera.square),
    pitch: either(camera.square),
    roll: either(camera.level),
    readout: either(camera.readout),
    times,
    slow: slow * (1 + timing * normal()),
    tick: 0.001,
    pole: 3,
    nearer: either(camera.depth),
    tap: missed * tap,
    normal,
  };
  const seen = tappedFilm(film);
  const [held, ...free] = seen.frames;
  const footage: trials.Footage = {
    pivot: null,
    lengths: [
      { from: seen.pole[0], to: seen.pole[1], length: film.pole + 0.01 * normal(), uncertainty: 0.01 },
    ],
    plumb: plumb ? seen.plumb : null,
    towards: "right",
    frames: seen.frames.map(({ time, projectile }) => ({ time: time / toldSlow, tip: null, projectile })),
    held: (held?.time ?? 0) / toldSlow,
    free: (free[0]?.time ?? 0) / toldSlow,
    tap,
    clock: film.tick / Math.sqrt(12) / toldSlow,
    pace: pace === "told" ? { by: "told", timing } : { by: "fall" },
    camera,
    windRead,
  };
  return { film, footage, found: trials.releaseFromFootage(footage, requestIn(wind)) };
}

/** Of many films, the share whose truth lies within what is stated, how wide that is, and what the fall is said to be. */
function held(films: number, told: (i: number) => Told, seed: number) {
  const sum = { speed: 0, angle: 0, wide: 0, refused: 0 };
  const verdicts = { agrees: 0, time: 0, leans: 0, open: 0 };
  for (let i = 0; i < films; i++) {
    const { film, found } = drawn(seed + i, told(i));
    if (!found.ok) {
      sum.refused++;
      continue;
    }
    sum.speed += Math.abs(found.speed.value - film.speed) <= found.speed.uncertainty ? 1 : 0;
    sum.angle += Math.abs(found.launchAngle.value - film.angle) <= found.launchAngle.uncertainty ? 1 : 0;
    sum.wide += found.speed.uncertainty / film.speed;
    verdicts[found.fall.verdict]++;
  }
  const n = films - sum.refused;
  return { speed: sum.speed / n, angle: sum.angle / n, wide: sum.wide / n, refused: sum.refused, verdicts };
}

const RATES = [
  [30, 30],
  [60, 60],
  [240, 240],
  [240, 30],
] as const;
const films = (points: number) => (i: number) => {
  const [rate, plays] = RATES[i % 4] as (typeof RATES)[number];
  return { points, rate, plays, uneven: i % 8 > 3 };
};

describe("release speed and direction of seeded films", () => {
  test("lie within what is stated in 95 of 100, with 2 to 12 points at even and uneven rates", () => {
    const all = { speed: 0, angle: 0 };
    const counts = [2, 3, 4, 6, 12];
    for (const points of counts) {
      const found = held(80, films(points), 1000 * points);
      expect(found.speed, `speed, ${points} points`).toBeGreaterThan(0.9);
      expect(found.angle, `direction, ${points} points`).toBeGreaterThan(0.9);
      expect(found.wide, `${points} points`).toBeLessThan(0.12);
      all.speed += found.speed / counts.length;
      all.angle += found.angle / counts.length;
    }
    expect(all.speed).toBeGreaterThan(0.93);
    expect(all.speed).toBeLessThan(0.99);
    expect(all.angle).toBeGreaterThan(0.93);
  });

  test("where taps miss twice as far as was said, where nobody read the wind, with a plumb line", () => {
    const rough = held(120, (i) => ({ ...films(6)(i), missed: 2 }), 20_000);
    expect(Math.min(rough.speed, rough.angle)).toBeGreaterThan(0.9);
    const unread = held(120, (i) => ({ ...films(6)(i), windRead: false, plumb: true }), 30_000);
    expect(Math.min(unread.speed, unread.angle)).toBeGreaterThan(0.93);
  });

  test("with the pace from the fall alone; where it says too little it is refused", () => {
    const found = held(
      150,
      () => ({ points: 10, rate: 240, plays: 30, uneven: false, pace: "fall" }),
      40_000,
    );
    expect(found.speed).toBeGreaterThan(0.93);
    expect(found.angle).toBeGreaterThan(0.93);
    expect(found.refused).toBeLessThan(15);
    expect(drawn(1, { points: 2, rate: 240, plays: 30, uneven: false, pace: "fall" }).found).toEqual({
      ok: false,
      why: "pace",
    });
  });
});

describe("the fall of the points", () => {
  test("agrees where all is as told: hardly a false alarm", () => {
    const { verdicts } = held(200, films(8), 50_000);
    expect(verdicts.agrees).toBeGreaterThan(120);
    expect(verdicts.time + verdicts.leans).toBeLessThan(4);
  });

  test("is called open with two points, and is never taken to agree in a film eight times slower than told", () => {
    expect(held(20, films(2), 60_000).verdicts.open).toBe(20);
    let [told, within] = [0, 0];
    for (const points of [3, 4, 6, 12])
      for (let i = 0; i < 40; i++) {
        const { found } = drawn(70_000 + i, { points, rate: 240, plays: 30, uneven: false, untold: 8 });
        if (!found.ok) throw new Error(found.why);
        expect(found.fall.verdict, `${points} points, film ${i}`).not.toBe("agrees");
        if (found.fall.verdict !== "time" || points < 12) continue;
        told++;
        const { slower } = found;
        if (slower) within += Math.abs(slower.value - 8) < slower.uncertainty ? 1 : 0;
      }
    expect(told).toBeGreaterThan(35);
    expect(within / told).toBeGreaterThan(0.9);
  });

  test("lies aslant where the picture lies on its side, upwards where it stands on its head", () => {
    const { footage } = drawn(81, { points: 12, rate: 60, plays: 60, uneven: false });
    const turned = (by: (at: trials.Pixel) => trials.Pixel, width: number, height: number) => {
      const lengths = footage.lengths.map((each) => ({ ...each, from: by(each.from), to: by(each.to) }));
      const frames = footage.frames.map((each) => ({
        ...each,
        projectile: each.projectile && by(each.projectile),
      }));
      const camera = { ...footage.camera, width, height };
      const found = trials.releaseFromFootage({ ...footage, lengths, frames, camera }, REQUEST);
      if (!found.ok) throw new Error(found.why);
      return found;
    };
    const side = turned(([x, y]) => [1080 - y, x], 1080, 1920);
    expect(side.fall.verdict).toBe("leans");
    expect(Math.abs(Math.abs(side.fall.tilt?.value ?? 0) - 90)).toBeLessThan(25);
    const head = turned(([x, y]) => [1920 - x, 1080 - y], 1920, 1080);
    expect(head.fall.verdict).toBe("leans");
    expect(Math.abs(head.fall.tilt?.value ?? 0)).toBeGreaterThan(155);
    const mirrored = turned(([x, y]) => [1920 - x, y], 1920, 1080);
    expect(mirrored).toMatchObject({ backwards: true, fall: { verdict: "agrees" } });
  });

  test("shows two lengths that cannot both be right", () => {
    const { footage } = drawn(82, { points: 6, rate: 60, plays: 60, uneven: false });
    const [first] = footage.lengths as [trials.KnownLength];
    const found = (share: number) => {
      const lengths = [first, { ...first, length: share * first.length }];
      const read = trials.releaseFromFootage({ ...footage, lengths }, REQUEST);
      if (!read.ok) throw new Error(read.why);
      return read;
    };
    expect(found(1.01).lengthsOff).toBeNull();
    expect(found(1.3).lengthsOff).toBeGreaterThan(0.1);
    expect(found(1.3).budget.scale.speed).toBeGreaterThan(3 * found(1).budget.scale.speed);
  });
});
