/** Reading one number as people write it: decimal comma or point, grouped thousands, fractions, exponents. */

/** A number at some place of a text: every reading it allows, and how many characters it takes. */
export interface ReadNumber {
  /** One reading, or two where a comma may part thousands or decimals. */
  values: readonly number[];
  length: number;
}

const grouped = (separator: string) => new RegExp(`^\\d{1,3}(?:\\${separator}\\d{3})+$`);
const THOUSANDS = { ",": grouped(","), ".": grouped(".") } as const;

/** Every number that a run of digits, points and commas may mean; empty when it means none. */
export function readDecimals(run: string): readonly number[] {
  if (!/\d/.test(run) || run.endsWith(",")) return [];
  const commas = run.split(",").length - 1;
  const points = run.split(".").length - 1;
  if (commas === 0 && points <= 1) return [Number(run)];
  if (commas > 0 && points > 0) {
    const [decimal, group] = run.lastIndexOf(",") > run.lastIndexOf(".") ? [",", "."] : [".", ","];
    const at = run.lastIndexOf(decimal as string);
    const whole = run.slice(0, at);
    if (whole.includes(decimal as string) || !THOUSANDS[group as "," | "."].test(whole)) return [];
    return [Number(`${whole.split(group as string).join("")}.${run.slice(at + 1)}`)];
  }
  const separator = commas > 0 ? "," : ".";
  const thousands = THOUSANDS[separator].test(run) ? Number(run.split(separator).join("")) : null;
  if (commas > 1 || points > 1) return thousands === null ? [] : [thousands];
  // One comma: "3,5" is a decimal; "1,234" may be either, but no one groups "0,123".
  const decimal = Number(run.replace(",", "."));
  return thousands === null || run.startsWith("0") ? [decimal] : [thousands, decimal];
}

const MIXED = /^(\d+)(?: +| ?- ?)(\d+) ?\/ ?(\d+)/;
const FRACTION = /^(\d+) ?\/ ?(\d+)/;
const SPACED = /^\d{1,3}(?: \d{3})+(?!\d)(?:[.,]\d+)?/;
const RUN = /^[.,]?\d[\d.,]*/;
const EXPONENT = /^(?:e|E| ?[x×*·] ?10\^)([+-]?\d+)/;

/** Reads the number that a text starts with; null when it starts with none that can be understood. */
export function readNumber(text: string): ReadNumber | null {
  const fraction = MIXED.exec(text) ?? FRACTION.exec(text);
  if (fraction) {
    const parts = fraction.slice(1).map(Number);
    const [whole, numerator, denominator] = parts.length === 3 ? parts : [0, ...parts];
    if (!denominator || (parts.length === 3 && (numerator as number) >= denominator)) return null;
    return { values: [(whole as number) + (numerator as number) / denominator], length: fraction[0].length };
  }
  const spaced = SPACED.exec(text)?.[0];
  const run = spaced ?? RUN.exec(text)?.[0];
  if (run === undefined) return null;
  const mantissas = spaced ? [Number(spaced.replaceAll(" ", "").replace(",", "."))] : readDecimals(run);
  if (mantissas.length === 0) return null;
  const exponent = EXPONENT.exec(text.slice(run.length));
  if (!exponent) return { values: mantissas, length: run.length };
  return {
    values: mantissas.map((mantissa) => Number(`${mantissa}e${Number(exponent[1])}`)),
    length: run.length + exponent[0].length,
  };
}
