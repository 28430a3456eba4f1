/**
 * Where `value`, positive at `from` and not at `to`, falls through zero (Illinois, then bisection).
 * @param width of the bracket that is narrow enough
 */
export function fallThroughZero(
  value: (x: number) => number,
  from: number,
  to: number,
  width = 1e-15,
): number {
  let a = from;
  let b = to;
  let fa = value(a);
  let fb = value(b);
  if (fa <= 0) return a;
  let kept = 0;
  for (let i = 0; i < 80 && b - a > width * Math.max(1, Math.abs(b)); i++) {
    let x = i % 4 === 3 ? 0.5 * (a + b) : (a * fb - b * fa) / (fb - fa);
    if (!(x > a && x < b)) x = 0.5 * (a + b);
    const fx = value(x);
    if (fx > 0) {
      a = x;
      fa = fx;
      if (kept === 1) fb *= 0.5;
      kept = 1;
    } else {
      b = x;
      fb = fx;
      if (fx === 0) break;
      if (kept === -1) fa *= 0.5;
      kept = -1;
    }
  }
  return b;
}
