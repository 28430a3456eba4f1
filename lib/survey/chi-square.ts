/** The chi-square distribution, by series and continued fraction of the incomplete gamma function (DLMF 8.7.1, 8.9.2). */

/** Γ(degrees / 2), by recursion from Γ(1/2) or Γ(1). */
function gammaOfHalf(degrees: number): number {
  let gamma = degrees % 2 === 0 ? 1 : Math.sqrt(Math.PI);
  for (let twice = degrees % 2 === 0 ? 2 : 1; twice < degrees; twice += 2) gamma *= twice / 2;
  return gamma;
}

/** The chance that a sum of squares of so many standard normal numbers is above a value. `degrees`: 1 to 300. */
export function chiSquareAbove(value: number, degrees: number): number {
  if (!(Number.isInteger(degrees) && degrees >= 1 && degrees <= 300))
    throw new RangeError("Degrees of freedom are a whole number from 1 to 300.");
  if (value <= 0) return 1;
  const [a, x] = [degrees / 2, value / 2];
  const scale = (x ** a * Math.exp(-x)) / gammaOfHalf(degrees);
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let k = 1; term > sum * 1e-16; k++) {
      term *= x / (a + k);
      sum += term;
    }
    return 1 - scale * sum;
  }
  // Lentz's way of working out the continued fraction from its front.
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let fraction = d;
  for (let k = 1; k < 500; k++) {
    const numerator = -k * (k - a);
    b += 2;
    d = 1 / (numerator * d + b);
    c = b + numerator / c;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return scale * fraction;
}

/** The value that such a sum stays below with a chance of `level` (0 to 1). */
export function chiSquareQuantile(level: number, degrees: number): number {
  let [low, high] = [0, degrees + 10];
  while (chiSquareAbove(high, degrees) > 1 - level) high *= 2;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (chiSquareAbove(middle, degrees) > 1 - level) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
