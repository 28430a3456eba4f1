/**
 * The largest value in the unit box where much is forbidden, slopes jump and nothing is convex. First everywhere: a
 * Halton sequence (Halton, 1960), so the same box is always searched in the same way. Then from the best points that
 * no limit forbids, each at a distance from the others: orthogonal polls about the best point so far, each in a new
 * direction of the same sequence, wider after a success and narrower after none (OrthoMADS: Abramson, Audet, Dennis,
 * Le Digabel, SIAM J. Optim. 20, 2009), with forbidden points simply not taken (extreme barrier). Limits are dear: they
 * are asked only of what would be better.
 */

/** A way of being at a point. */
export interface Offer<What> {
  what: What;
  /** The larger the better. */
  value: number;
}

export interface Problem<What> {
  dimension: number;
  /** What the point offers; none where nothing can be had. */
  offers(point: readonly number[]): readonly Offer<What>[];
  /** By how much the limits are broken, as a share; 0 when they are kept. */
  violation(what: What): number;
  /** Points that the search begins with, beside its own. */
  starts: readonly (readonly number[])[];
  samples: number;
}

export interface Found<What> extends Offer<What> {
  point: readonly number[];
}

export interface SearchResult<What> {
  best: Found<What> | null;
  /** Where no limit is kept anywhere: what comes nearest to keeping them. */
  nearest: (Found<What> & { violation: number }) | null;
}

const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37];
/** As many knobs as can be turned at once. */
export const MOST_DIMENSIONS = PRIMES.length - 1;
/** Starts of the second stage, and how far apart, as a share of the box. */
const STARTS = 5;
const APART = 0.08;
/** Samples whose limits are asked: the best ones, then every so many of the rest. */
const ASKED_BEST = 50;
const ASKED_REST = 50;
/** Polls begin this wide and end this narrow, as shares of the box. */
const WIDE = 0.06;
const NARROW = 2e-4;
const MOST_POLLS = 60;

/** The i-th number of the sequence to a base, 0 to 1. */
function radicalInverse(i: number, base: number): number {
  let [left, digit, sum] = [i, 1 / base, 0];
  while (left > 0) {
    sum += (left % base) * digit;
    left = Math.floor(left / base);
    digit /= base;
  }
  return sum;
}

export const halton = (i: number, dimension: number): number[] =>
  PRIMES.slice(0, dimension).map((base) => radicalInverse(i, base));

/** Orthogonal directions of unit length: a Householder reflection about a direction of the sequence. */
function directions(i: number, dimension: number): number[][] {
  if (dimension === 1) return [[1]];
  // The second half of the bases: what was sampled is not polled again.
  const v = halton(i, dimension + 1)
    .slice(1)
    .map((x) => 2 * x - 1);
  const length = Math.hypot(...v) || 1;
  return v.map((_, row) =>
    v.map((_, column) => (row === column ? 1 : 0) - (2 * v[row] * v[column]) / length ** 2),
  );
}

const clamped = (x: number) => Math.min(1, Math.max(0, x));
const apart = (a: readonly number[], b: readonly number[]) =>
  Math.max(...a.map((x, i) => Math.abs(x - b[i])), 0);

export function search<What>(problem: Problem<What>, onProgress: (done: number) => void): SearchResult<What> {
  const { dimension, samples } = problem;
  const found: Found<What>[] = [];
  const points = [
    ...problem.starts,
    ...Array.from({ length: dimension > 0 ? samples : 1 }, (_, i) => halton(i + 1, dimension)),
  ];
  points.forEach((point, i) => {
    for (const offer of problem.offers(point)) found.push({ ...offer, point });
    if (i % 16 === 0) onProgress((0.4 * i) / points.length);
  });
  found.sort((a, b) => b.value - a.value);
  let { starts, nearest } = allowedStarts(problem, found);
  if (starts.length === 0 && nearest) {
    nearest = towardsLimits(problem, nearest);
    if (nearest.violation === 0) starts = [nearest];
  }
  onProgress(0.5);
  let best: Found<What> | null = null;
  starts.forEach((start, i) => {
    const polished = climb(problem, start);
    if (!best || polished.value > best.value) best = polished;
    onProgress(0.5 + (0.5 * (i + 1)) / starts.length);
  });
  return { best, nearest: best ? null : nearest };
}

/** The best samples that keep the limits, apart from each other; and the one that comes nearest to keeping them. */
function allowedStarts<What>(problem: Problem<What>, found: readonly Found<What>[]) {
  const every = Math.max(1, Math.floor((found.length - ASKED_BEST) / ASKED_REST));
  const starts: Found<What>[] = [];
  let nearest: (Found<What> & { violation: number }) | null = null;
  let asked = 0;
  for (let i = 0; i < found.length && starts.length < STARTS; i += asked < ASKED_BEST ? 1 : every) {
    const each = found[i];
    if (starts.some(({ point }) => apart(point, each.point) < APART)) continue;
    const violation = problem.violation(each.what);
    asked++;
    if (violation === 0) starts.push(each);
    else if (!nearest || violation < nearest.violation) nearest = { ...each, violation };
  }
  return { starts, nearest };
}

/** Polls about a point; `better` says what of a point to go on from, if it is to. */
function polls<At extends { point: readonly number[] }>(
  start: At,
  dimension: number,
  better: (point: readonly number[], at: At) => At | null,
): At {
  let at = start;
  let width = WIDE;
  for (let poll = 1; poll <= MOST_POLLS && width >= NARROW && dimension > 0; poll++) {
    let next: At | null = null;
    for (const direction of directions(poll, dimension)) {
      for (const sign of [1, -1]) {
        const point = at.point.map((x, i) => clamped(x + sign * width * direction[i]));
        next ??= apart(point, at.point) > 0 ? better(point, at) : null;
      }
    }
    // What went well once is tried again, twice as far.
    if (next) {
      const further = at.point.map((x, i) => clamped(x + 2 * ((next as At).point[i] - x)));
      at = better(further, next) ?? next;
    }
    width = next ? Math.min(0.25, 2 * width) : width / 2;
  }
  return at;
}

const climb = <What>(problem: Problem<What>, start: Found<What>): Found<What> =>
  polls(start, problem.dimension, (point, at) => {
    for (const offer of [...problem.offers(point)].sort((a, b) => b.value - a.value)) {
      if (!(offer.value > at.value)) break;
      if (problem.violation(offer.what) === 0) return { ...offer, point };
    }
    return null;
  });

/** From where the limits are broken towards where they are kept. */
function towardsLimits<What>(problem: Problem<What>, start: Found<What> & { violation: number }) {
  return polls(start, problem.dimension, (point, at) => {
    if (at.violation === 0) return null;
    for (const offer of problem.offers(point)) {
      const violation = problem.violation(offer.what);
      if (violation < at.violation) return { ...offer, point, violation };
    }
    return null;
  });
}
