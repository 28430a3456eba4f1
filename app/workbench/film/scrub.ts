/**
 * Where an instant lies on the scrubber. The swing takes a second and the flight many, so each has half of it: up to
 * the release on the left, from there on the right. Pure.
 */

export const SCRUB_STEPS = 1000;
const MIDDLE = SCRUB_STEPS / 2;

export interface Span {
  /** s */
  begin: number;
  release: number | null;
  end: number;
}

export function scrubberAt(span: Span, time: number): number {
  const { begin, release, end } = span;
  const share = (from: number, to: number) =>
    to > from ? Math.min(1, Math.max(0, (time - from) / (to - from))) : 0;
  if (release === null || !isParted(span)) return SCRUB_STEPS * share(begin, end);
  return time <= release ? MIDDLE * share(begin, release) : MIDDLE + MIDDLE * share(release, end);
}

export function timeAt(span: Span, position: number): number {
  const { begin, release, end } = span;
  if (release === null || !isParted(span)) return begin + ((end - begin) * position) / SCRUB_STEPS;
  if (position <= MIDDLE) return begin + ((release - begin) * position) / MIDDLE;
  return release + ((end - release) * (position - MIDDLE)) / MIDDLE;
}

/** Whether there is something on both sides of the release. */
const isParted = ({ begin, release, end }: Span): boolean =>
  release !== null && release - begin > 1e-9 && end - release > 1e-9;

/** Of a swing and of a flight, at real time; slower, so many times more. */
const STILLS = 8;

/**
 * The instants at which a film in still pictures stops: evenly over the swing, evenly over the flight, and at every
 * marked one.
 */
export function stillsOf(span: Span, marks: readonly { time: number }[], slowed: number): number[] {
  const { begin, release, end } = span;
  const count = STILLS * Math.max(1, Math.round(Math.sqrt(slowed)));
  const evenly = (from: number, to: number) =>
    Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
  const all =
    release !== null && isParted(span)
      ? [...evenly(begin, release), ...evenly(release, end)]
      : evenly(begin, end);
  const sorted = [...all, ...marks.map(({ time }) => time)].sort((a, b) => a - b);
  return sorted.filter((time, index) => index === 0 || time - (sorted[index - 1] as number) > 1e-6);
}
