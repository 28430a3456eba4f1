/** Numbers as files write them. */

const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/** A number with a decimal point or comma; NaN for anything else, nothing included. */
export function decimal(text: string): number {
  const plain = text.trim().replace("−", "-");
  const pointed = /^[+-]?\d*,\d+(e[+-]?\d+)?$/i.test(plain) ? plain.replace(",", ".") : plain;
  return DECIMAL.test(pointed) ? Number(pointed) : Number.NaN;
}

/** The number of a mark: a number, or a text that is one; null for nothing, undefined for what is no number. */
export function marked(value: unknown): number | null | undefined {
  if (value === undefined || value === null || (typeof value === "string" && value.trim() === ""))
    return null;
  const number = typeof value === "string" ? decimal(value) : value;
  return typeof number === "number" && Number.isFinite(number) ? number : undefined;
}
