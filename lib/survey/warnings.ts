/** What the person who measures must hear before walking away: a code for programs, a sentence for people. */

export const WARNING_CODES = [
  "unknown-peg",
  "no-declination",
  "no-centreline",
  "same-peg",
  "tapes-do-not-meet",
  "flat-triangle",
  "which-side",
  "bearings-do-not-cross",
  "bearings-hardly-cross",
  "too-near",
  "near-origin",
  "zenith-or-elevation",
  "steep",
  "rise-too-large",
  "offset-long",
  "samples-scatter",
  "samples-few",
  "coarse",
  "residuals-large",
  "blunder-suspect",
  "blunder-not-located",
  "fixes-disagree",
  "other-landing",
  "inside-arc",
  "sector-too-close",
] as const;
export type WarningCode = (typeof WARNING_CODES)[number];

export interface Warning {
  code: WarningCode;
  /** What is wrong and what to do now. */
  text: string;
}

/** Thrown by a method when no point comes out of what was measured; `measure` turns it into a warning. */
export class Unplaceable extends Error {
  constructor(readonly warning: Warning) {
    super(warning.text);
  }
}

export function unplaceable(code: WarningCode, text: string): never {
  throw new Unplaceable({ code, text });
}

/** A length in a sentence: centimetres below 10 m. */
export const metres = (value: number) => `${value.toFixed(Math.abs(value) < 10 ? 2 : 1)} m`;
export const degrees = (value: number) => `${value.toFixed(Math.abs(value) < 10 ? 1 : 0)}°`;

/** "A, B and C". */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
