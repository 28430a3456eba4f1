/** Small dense matrices, as rows: those of a handful of tapes. */

export type Matrix = readonly (readonly number[])[];

const at = (matrix: Matrix, row: number, column: number) => matrix[row]?.[column] ?? 0;

export function transpose(matrix: Matrix): number[][] {
  return (matrix[0] ?? []).map((_, column) => matrix.map((row) => row[column] ?? 0));
}

export function multiply(left: Matrix, right: Matrix): number[][] {
  const columns = transpose(right);
  return left.map((row) =>
    columns.map((column) => row.reduce((sum, value, index) => sum + value * (column[index] ?? 0), 0)),
  );
}

/** A matrix times a column of numbers. */
export function apply(matrix: Matrix, vector: readonly number[]): number[] {
  return matrix.map((row) => dot(row, vector));
}

export function dot(left: readonly number[], right: readonly number[]): number {
  return left.reduce((sum, value, index) => sum + value * (right[index] ?? 0), 0);
}

/** The inverse of a symmetric positive definite matrix, by Cholesky; null when it is not one. */
export function inverseOf(matrix: Matrix): number[][] | null {
  const size = matrix.length;
  const lower = matrix.map(() => new Array<number>(size).fill(0));
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      const [own, other] = [lower[row] as number[], lower[column] as number[]];
      const left = at(matrix, row, column) - dot(own.slice(0, column), other.slice(0, column));
      if (row !== column) own[column] = left / (other[column] as number);
      // The comparison is also false for what is no number.
      else if (left > 1e-13 * at(matrix, row, row)) own[row] = Math.sqrt(left);
      else return null;
    }
  }
  // L⁻¹ by forward substitution, column by column; then the inverse is L⁻ᵀ·L⁻¹.
  const inverted = matrix.map(() => new Array<number>(size).fill(0));
  for (let column = 0; column < size; column++) {
    for (let row = column; row < size; row++) {
      let sum = row === column ? 1 : 0;
      for (let k = column; k < row; k++) sum -= at(lower, row, k) * at(inverted, k, column);
      (inverted[row] as number[])[column] = sum / at(lower, row, row);
    }
  }
  return multiply(transpose(inverted), inverted);
}
