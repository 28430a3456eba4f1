/** Solves A x = b in place by Gaussian elimination with partial pivoting; returns b. Throws when singular. */
export function solveLinear(a: number[][], b: number[]): number[] {
  const n = b.length;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i][k]) > Math.abs(a[pivot][k])) pivot = i;
    if (!(Math.abs(a[pivot][k]) > 1e-14)) throw new Error("The constraint equations are singular.");
    [a[k], a[pivot]] = [a[pivot], a[k]];
    [b[k], b[pivot]] = [b[pivot], b[k]];
    const row = a[k];
    for (let i = k + 1; i < n; i++) {
      const factor = a[i][k] / row[k];
      if (factor === 0) continue;
      const target = a[i];
      for (let j = k + 1; j < n; j++) target[j] -= factor * row[j];
      b[i] -= factor * b[k];
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    let sum = b[k];
    for (let j = k + 1; j < n; j++) sum -= a[k][j] * b[j];
    b[k] = sum / a[k][k];
  }
  return b;
}
