/** The value at which a reserve is reached, by trying. */

/** Tries before it is given up. */
const MOST_TRIES = 12;
/** Above the target by no more than this share: then it is near enough. */
const NEAR = 1e-3;

/**
 * Reserves follow powers of what is changed, nearly: a secant on logarithms. What it returns was tried and is enough.
 * @param reserveAt null where nothing can be told there
 * @param start a value and its reserve, known already
 * @param power guess of the reserve's power of the value: 2 of a depth, −1 of a driving weight
 * @param within the least and the largest value worth telling
 */
export function valueFor(
  reserveAt: (value: number) => number | null,
  start: readonly [value: number, reserve: number],
  target: number,
  power: number,
  within: readonly [number, number],
): number | null {
  const [least, most] = within;
  let [x, r] = start;
  let slope = power;
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    if (r >= target && r <= target * (1 + NEAR) && tries > 0) return x;
    // A little beyond the target, so that what is found is enough.
    const step = Math.log((target * (1 + NEAR / 2)) / r) / slope;
    const next = Math.min(most, Math.max(least, x * Math.exp(Math.max(-1.5, Math.min(1.5, step)))));
    if (next === x) return r >= target && tries > 0 ? x : null;
    const found = reserveAt(next);
    if (found === null || !(found > 0)) return null;
    const seen = Math.log(found / r) / Math.log(next / x);
    // A stretch on which nothing changes, or changes the wrong way, says nothing of the way on.
    slope = seen * power > 0 ? seen : power;
    [x, r] = [next, found];
  }
  return null;
}
