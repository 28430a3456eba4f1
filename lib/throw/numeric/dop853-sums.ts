/**
 * The weighted sums of the Runge-Kutta pair in dop853-coefficients.ts, one plain loop a stage: the same sums from
 * a table of weights took three times as long. Slopes of stage s lie at k[8·s …]; zero weights are left out.
 */
import { A, D, E3, E5 } from "./dop853-coefficients";

type Sum = (y: Float64Array, k: Float64Array, h: number, size: number, out: Float64Array) => void;

const [a1_0] = A[1];
const [a2_0, a2_1] = A[2];
const [a3_0, , a3_2] = A[3];
const [a4_0, , a4_2, a4_3] = A[4];
const [a5_0, , , a5_3, a5_4] = A[5];
const [a6_0, , , a6_3, a6_4, a6_5] = A[6];
const [a7_0, , , a7_3, a7_4, a7_5, a7_6] = A[7];
const [a8_0, , , a8_3, a8_4, a8_5, a8_6, a8_7] = A[8];
const [a9_0, , , a9_3, a9_4, a9_5, a9_6, a9_7, a9_8] = A[9];
const [a10_0, , , a10_3, a10_4, a10_5, a10_6, a10_7, a10_8, a10_9] = A[10];
const [a11_0, , , a11_3, a11_4, a11_5, a11_6, a11_7, a11_8, a11_9, a11_10] = A[11];
const [a12_0, , , , , a12_5, a12_6, a12_7, a12_8, a12_9, a12_10, a12_11] = A[12];
const [a13_0, , , , , , a13_6, a13_7, a13_8, a13_9, a13_10, a13_11, a13_12] = A[13];
const [a14_0, , , , , a14_5, a14_6, a14_7, , , a14_10, a14_11, a14_12, a14_13] = A[14];
const [a15_0, , , , , a15_5, a15_6, a15_7, a15_8, , , , a15_12, a15_13, a15_14] = A[15];

/** Entry s − 1 writes the state at stage s: y + h Σ a k. Entry 11 is the end of the step. */
export const STAGE_SUMS: readonly Sum[] = [
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++) out[i] = y[i] + h * (a1_0 * k[i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++) out[i] = y[i] + h * (a2_0 * k[i] + a2_1 * k[8 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++) out[i] = y[i] + h * (a3_0 * k[i] + a3_2 * k[16 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++) out[i] = y[i] + h * (a4_0 * k[i] + a4_2 * k[16 + i] + a4_3 * k[24 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++) out[i] = y[i] + h * (a5_0 * k[i] + a5_3 * k[24 + i] + a5_4 * k[32 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++)
      out[i] = y[i] + h * (a6_0 * k[i] + a6_3 * k[24 + i] + a6_4 * k[32 + i] + a6_5 * k[40 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++)
      out[i] =
        y[i] + h * (a7_0 * k[i] + a7_3 * k[24 + i] + a7_4 * k[32 + i] + a7_5 * k[40 + i] + a7_6 * k[48 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++)
      out[i] =
        y[i] +
        h *
          (a8_0 * k[i] +
            a8_3 * k[24 + i] +
            a8_4 * k[32 + i] +
            a8_5 * k[40 + i] +
            a8_6 * k[48 + i] +
            a8_7 * k[56 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++)
      out[i] =
        y[i] +
        h *
          (a9_0 * k[i] +
            a9_3 * k[24 + i] +
            a9_4 * k[32 + i] +
            a9_5 * k[40 + i] +
            a9_6 * k[48 + i] +
            a9_7 * k[56 + i] +
            a9_8 * k[64 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++)
      out[i] =
        y[i] +
        h *
          (a10_0 * k[i] +
            a10_3 * k[24 + i] +
            a10_4 * k[32 + i] +
            a10_5 * k[40 + i] +
            a10_6 * k[48 + i] +
            a10_7 * k[56 + i] +
            a10_8 * k[64 + i] +
            a10_9 * k[72 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++)
      out[i] =
        y[i] +
        h *
          (a11_0 * k[i] +
            a11_3 * k[24 + i] +
            a11_4 * k[32 + i] +
            a11_5 * k[40 + i] +
            a11_6 * k[48 + i] +
            a11_7 * k[56 + i] +
            a11_8 * k[64 + i] +
            a11_9 * k[72 + i] +
            a11_10 * k[80 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++)
      out[i] =
        y[i] +
        h *
          (a12_0 * k[i] +
            a12_5 * k[40 + i] +
            a12_6 * k[48 + i] +
            a12_7 * k[56 + i] +
            a12_8 * k[64 + i] +
            a12_9 * k[72 + i] +
            a12_10 * k[80 + i] +
            a12_11 * k[88 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++)
      out[i] =
        y[i] +
        h *
          (a13_0 * k[i] +
            a13_6 * k[48 + i] +
            a13_7 * k[56 + i] +
            a13_8 * k[64 + i] +
            a13_9 * k[72 + i] +
            a13_10 * k[80 + i] +
            a13_11 * k[88 + i] +
            a13_12 * k[96 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++)
      out[i] =
        y[i] +
        h *
          (a14_0 * k[i] +
            a14_5 * k[40 + i] +
            a14_6 * k[48 + i] +
            a14_7 * k[56 + i] +
            a14_10 * k[80 + i] +
            a14_11 * k[88 + i] +
            a14_12 * k[96 + i] +
            a14_13 * k[104 + i]);
  },
  (y, k, h, size, out) => {
    for (let i = 0; i < size; i++)
      out[i] =
        y[i] +
        h *
          (a15_0 * k[i] +
            a15_5 * k[40 + i] +
            a15_6 * k[48 + i] +
            a15_7 * k[56 + i] +
            a15_8 * k[64 + i] +
            a15_12 * k[96 + i] +
            a15_13 * k[104 + i] +
            a15_14 * k[112 + i]);
  },
];

const [e0, , , , , e5, e6, e7, e8, e9, e10, e11] = E3;
const [f0, , , , , f5, f6, f7, f8, f9, f10, f11] = E5;

/** The norm of the error of a step of size `h` between `y` and `end`; 1 is just allowed. */
export function stepError(
  y: Float64Array,
  end: Float64Array,
  k: Float64Array,
  h: number,
  size: number,
  relative: number,
  absolute: number,
): number {
  let error3 = 0;
  let error5 = 0;
  for (let i = 0; i < size; i++) {
    const inverse = 1 / (absolute + relative * Math.max(Math.abs(y[i]), Math.abs(end[i])));
    const third =
      (e0 * k[i] +
        e5 * k[40 + i] +
        e6 * k[48 + i] +
        e7 * k[56 + i] +
        e8 * k[64 + i] +
        e9 * k[72 + i] +
        e10 * k[80 + i] +
        e11 * k[88 + i]) *
      inverse;
    const fifth =
      (f0 * k[i] +
        f5 * k[40 + i] +
        f6 * k[48 + i] +
        f7 * k[56 + i] +
        f8 * k[64 + i] +
        f9 * k[72 + i] +
        f10 * k[80 + i] +
        f11 * k[88 + i]) *
      inverse;
    error3 += third * third;
    error5 += fifth * fifth;
  }
  if (error3 === 0 && error5 === 0) return 0;
  return (h * error5) / Math.sqrt((error5 + 0.01 * error3) * size);
}

const [d0_0, , , , , d0_5, d0_6, d0_7, d0_8, d0_9, d0_10, d0_11, d0_12, d0_13, d0_14, d0_15] = D[0];
const [d1_0, , , , , d1_5, d1_6, d1_7, d1_8, d1_9, d1_10, d1_11, d1_12, d1_13, d1_14, d1_15] = D[1];
const [d2_0, , , , , d2_5, d2_6, d2_7, d2_8, d2_9, d2_10, d2_11, d2_12, d2_13, d2_14, d2_15] = D[2];
const [d3_0, , , , , d3_5, d3_6, d3_7, d3_8, d3_9, d3_10, d3_11, d3_12, d3_13, d3_14, d3_15] = D[3];

/** The upper four rows of the dense output to `out[at + 32 …]`. */
export function denseRows(k: Float64Array, h: number, size: number, out: Float64Array, at: number): void {
  for (let i = 0; i < size; i++) {
    out[at + 32 + i] =
      h *
      (d0_0 * k[i] +
        d0_5 * k[40 + i] +
        d0_6 * k[48 + i] +
        d0_7 * k[56 + i] +
        d0_8 * k[64 + i] +
        d0_9 * k[72 + i] +
        d0_10 * k[80 + i] +
        d0_11 * k[88 + i] +
        d0_12 * k[96 + i] +
        d0_13 * k[104 + i] +
        d0_14 * k[112 + i] +
        d0_15 * k[120 + i]);
    out[at + 40 + i] =
      h *
      (d1_0 * k[i] +
        d1_5 * k[40 + i] +
        d1_6 * k[48 + i] +
        d1_7 * k[56 + i] +
        d1_8 * k[64 + i] +
        d1_9 * k[72 + i] +
        d1_10 * k[80 + i] +
        d1_11 * k[88 + i] +
        d1_12 * k[96 + i] +
        d1_13 * k[104 + i] +
        d1_14 * k[112 + i] +
        d1_15 * k[120 + i]);
    out[at + 48 + i] =
      h *
      (d2_0 * k[i] +
        d2_5 * k[40 + i] +
        d2_6 * k[48 + i] +
        d2_7 * k[56 + i] +
        d2_8 * k[64 + i] +
        d2_9 * k[72 + i] +
        d2_10 * k[80 + i] +
        d2_11 * k[88 + i] +
        d2_12 * k[96 + i] +
        d2_13 * k[104 + i] +
        d2_14 * k[112 + i] +
        d2_15 * k[120 + i]);
    out[at + 56 + i] =
      h *
      (d3_0 * k[i] +
        d3_5 * k[40 + i] +
        d3_6 * k[48 + i] +
        d3_7 * k[56 + i] +
        d3_8 * k[64 + i] +
        d3_9 * k[72 + i] +
        d3_10 * k[80 + i] +
        d3_11 * k[88 + i] +
        d3_12 * k[96 + i] +
        d3_13 * k[104 + i] +
        d3_14 * k[112 + i] +
        d3_15 * k[120 + i]);
  }
}
