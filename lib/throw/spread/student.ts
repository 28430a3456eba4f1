/**
 * Student's t distribution for a whole number of degrees of freedom, by its finite series.
 * Source: M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions (1964), 26.7.3 and 26.7.4.
 */

/** Chance that t lies at or below `t`. */
export function studentBelow(t: number, degrees: number): number {
  const angle = Math.atan(t / Math.sqrt(degrees));
  const sine = Math.sin(angle);
  const cosine2 = Math.cos(angle) ** 2;
  const odd = degrees % 2 === 1;
  let term = odd ? Math.cos(angle) : 1;
  let sum = degrees > 1 ? term : 0;
  for (let k = odd ? 3 : 2; k < degrees; k += 2) {
    term *= ((k - 1) / k) * cosine2;
    sum += term;
  }
  const within = odd ? (2 / Math.PI) * (angle + sine * sum) : sine * sum;
  return 0.5 + 0.5 * within;
}

/**
 * The t that a share of the distribution lies below.
 * @param share above 0.5 and below 1
 * @param degrees whole, at least 1
 */
export function studentQuantile(share: number, degrees: number): number {
  let low = 0;
  let high = 1;
  while (studentBelow(high, degrees) < share) high *= 2;
  for (let i = 0; i < 200 && high - low > 1e-14 * high; i++) {
    const middle = 0.5 * (low + high);
    if (studentBelow(middle, degrees) < share) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}
