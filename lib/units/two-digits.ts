/** Two significant digits towards the side that promises nothing: what there is never more, what is needed never less. */

/** A number that is exact but for its last bits stays itself. */
const HAIR = 1e-9;

/** Never more than there is: 1.99 becomes 1.9. */
export const downToTwoDigits = (value: number): number => toTwoDigits(value, Math.floor, 1 + HAIR);

/** Never less than is needed. */
export const upToTwoDigits = (value: number): number => toTwoDigits(value, Math.ceil, 1 - HAIR);

function toTwoDigits(value: number, round: (steps: number) => number, hair: number): number {
  if (value === 0 || !Number.isFinite(value)) return value;
  const step = 10 ** (Math.floor(Math.log10(Math.abs(value) * hair)) - 1);
  return Number((round((value / step) * hair) * step).toPrecision(2));
}
