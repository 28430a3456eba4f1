/**
 * The throw as a film: what a page needs to show any instant of it, worked out once. The motion itself is recorded, as
 * the integration found it, so nothing depends on how many pictures are shown of it: see reel.ts, which plays it. Plain
 * data, for it is made in a worker.
 */
import { moved, nominalAir, nominalReasonOf, nominalThrow } from "../case";
import { conditionsOf } from "../conditions";
import type { HazardRequest, Loads, Nominal } from "../contracts";
import { Flight } from "../flight/flight";
import { loads, type StrengthRequest, swingLives } from "../loads/loads";
import { machineKind } from "../machines/registry";
import type { Instant } from "../release";
import type { Frame } from "../setup";
import type { Trace, TraceRecord } from "../swing/trace";
import { meantFrame } from "../worst/box";
import { KNOT, Track } from "./track";

/** Instants worth a look, in the order of time. */
export interface FilmMark {
  of:
    | "trigger"
    | "lift-off"
    | "tension"
    | "bending"
    | "pivot"
    | "release"
    | "stop"
    | "apex"
    | "landing"
    | "end";
  /** s from the trigger. */
  time: number;
}

export interface Film {
  request: HazardRequest;
  frame: Frame;
  /** Whether the loop is taken not to slip: the projectile hangs up, and no flight follows. */
  held: boolean;
  /** Null for machines that do not swing. */
  swing: {
    loaded: TraceRecord;
    /** Steps of `loaded` that are shown: runs from, to (exclusive), in the order of time. */
    runs: readonly (readonly [number, number])[];
    /** The machine after the projectile has left it; null where it stands at its stop by then. */
    after: TraceRecord | null;
    /** Whether it then comes to stand at its stop: without, it is followed to the horizon only. */
    stops: boolean;
  } | null;
  /** Knots of the projectile's way to the release of a machine by formula; empty where nothing is known of it. */
  way: Float64Array;
  /** Of what turns steadily on, s. */
  period: number | null;
  /** Knots of the flight as meant, from the trigger; null when nothing is thrown. */
  flight: Float64Array | null;
  nominal: Nominal | null;
  /** Why nothing is thrown. */
  reason: string | null;
  marks: readonly FilmMark[];
  /** s from the trigger: where the film begins, where the projectile leaves (null if it does not), where it ends. */
  begin: number;
  release: number | null;
  end: number;
  /** The largest up to the release, or on a film without one, N and N·m: pictures of forces are scaled by them. */
  largest: { tension: number; pivot: number; moment: number };
}

/**
 * @param held films the hang-up: the loop does not slip, and the projectile whirls on
 * @throws CannotThrow
 */
export function filmOf(request: StrengthRequest, held = false): Film {
  const frame = meantFrame(request);
  const worked = moved(request, frame);
  const { releases, trace } = worked;
  const { nominal } = releases;
  const leaves = held && trace ? null : nominal;
  const flight = leaves && flightOf(request, leaves);
  const base = {
    request,
    frame,
    held: held && trace !== null,
    flight,
    nominal: leaves && nominalThrow(request, leaves),
    reason: nominal ? null : nominalReasonOf(request, releases, trace),
  };
  const lives = swingLives(request, worked);
  if (!lives || !trace) return { ...base, ...formulaFilm(request, leaves, flight) };

  const shown = trace.segments.filter(({ stop }) => stop !== "fails");
  const runs = shown
    .map(({ from, to }) => [from, leaves ? Math.min(to, leaves.step + 1) : to] as const)
    .filter(([from, to]) => to > from && (!leaves || from <= leaves.step));
  const last = runs[runs.length - 1][1] - 1;
  const swungTo = leaves ? leaves.time : trace.begin(last) + trace.size(last);
  const borne = loads(request, worked, lives);
  const marks: FilmMark[] = [{ of: "trigger", time: 0 }];
  if (trace.liftOff > 0 && trace.liftOff <= swungTo) marks.push({ of: "lift-off", time: trace.liftOff });
  // The peaks of a hang-up count the end stop as failed too, which is not shown.
  marks.push(...peaksOf(borne, leaves || trace.sawStop ? "throw" : "whole"));
  const end = flight ? flight[flight.length - KNOT] : swungTo;
  const stop = leaves && lives.after ? lives.after.arrival?.time : stopOf(trace);
  // One that leaves at the stop has no run of its own.
  const after = leaves && lives.after && lives.after.trace.steps > 0 ? lives.after : null;
  if (stop !== undefined && stop <= end) marks.push({ of: "stop", time: stop });
  if (!leaves) marks.push({ of: "end", time: swungTo });
  return {
    ...base,
    swing: {
      loaded: trace.record(),
      runs,
      after: after ? after.trace.record() : null,
      stops: stop !== undefined,
    },
    way: new Float64Array(0),
    period: null,
    marks: inOrder([...marks, ...flightMarks(flight)]),
    begin: 0,
    release: leaves?.time ?? null,
    end,
    largest: largestOf(borne, leaves !== null),
  };
}

/** When the loaded arm meets its end stop. */
function stopOf(trace: Trace): number | undefined {
  const met = trace.segments.find(({ end }) => end === "stop");
  return met && trace.begin(met.to - 1) + trace.size(met.to - 1);
}

function formulaFilm(request: HazardRequest, leaves: Instant | null, flight: Float64Array | null) {
  const { motion } = machineKind(request.machine.kind);
  const found =
    leaves && motion.by === "formula" ? motion.way?.(request.machine, conditionsOf(request)) : undefined;
  const way = knotsOf(found?.instants ?? []);
  const begin = way.length > 0 ? way[0] : (leaves?.time ?? 0);
  const end = flight ? flight[flight.length - KNOT] : begin;
  const first: FilmMark[] =
    way.length > 0 && found?.period === undefined ? [{ of: "trigger", time: begin }] : [];
  return {
    swing: null,
    way,
    period: found?.period ?? null,
    marks: inOrder([...first, ...flightMarks(flight)]),
    begin,
    release: leaves?.time ?? null,
    end,
    largest: { tension: 0, pivot: 0, moment: 0 },
  };
}

const knotsOf = (instants: readonly Instant[]) =>
  Float64Array.from(instants.flatMap(({ time, x, y, z = 0, vx, vy, vz = 0 }) => [time, x, y, z, vx, vy, vz]));

/** The flight in the mean wind, its times counted from the trigger. */
function flightOf(request: HazardRequest, { time, x, y, z = 0, vx, vy, vz = 0 }: Instant): Float64Array {
  const flight = new Flight();
  flight.knots = [];
  flight.fly(nominalAir(request), x, y, vx, vy, vz);
  const knots = Float64Array.from(flight.knots);
  for (let i = 0; i < knots.length; i += KNOT) {
    knots[i] += time;
    knots[i + 3] += z;
  }
  return knots;
}

function flightMarks(flight: Float64Array | null): FilmMark[] {
  if (!flight) return [];
  const track = new Track(flight);
  const top = track.highest();
  const marks: FilmMark[] = [{ of: "release", time: track.begin }];
  if (top > track.begin) marks.push({ of: "apex", time: top });
  return [...marks, { of: "landing", time: track.end }];
}

/** When tension, bending and the force on the pivot are largest up to the release, or on the whole swing. */
function peaksOf({ sling, arm, pivot }: Loads, over: "throw" | "whole"): FilmMark[] {
  const of = (
    name: FilmMark["of"],
    peak: { throw: Timed | null; hangUp: Timed | null } | undefined,
  ): FilmMark[] => {
    if (!peak) return [];
    const { throw: first, hangUp } = peak;
    const larger = over === "whole" && (hangUp?.value ?? 0) > (first?.value ?? 0) ? hangUp : first;
    return larger ? [{ of: name, time: larger.time }] : [];
  };
  return [...of("tension", sling?.tension), ...of("bending", arm?.moment), ...of("pivot", pivot?.force)];
}

interface Timed {
  value: number;
  time: number;
}

function largestOf({ sling, arm, pivot }: Loads, thrown: boolean): Film["largest"] {
  const of = (peak: { throw: Timed | null; hangUp: Timed | null } | undefined) =>
    Math.max(0, peak?.throw?.value ?? 0, thrown ? 0 : (peak?.hangUp?.value ?? 0));
  return { tension: of(sling?.tension), pivot: of(pivot?.force), moment: of(arm?.moment) };
}

const inOrder = (marks: FilmMark[]) => marks.sort((a, b) => a.time - b.time);
