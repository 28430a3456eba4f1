/** What a file's own words say a place is. */
import { FEATURE_KIND_NAMES, type FeatureKindName } from "../zones";
import type { What } from "./items";

/** Words in common use for our kinds; ours themselves and their plurals are understood anyway. */
const WORDS: Record<string, FeatureKindName> = {
  fence: "boundary",
  perimeter: "boundary",
  "site-boundary": "boundary",
  audience: "spectators",
  crowd: "spectators",
  "spectator-area": "spectators",
  street: "road",
  highway: "road",
  lane: "road",
  house: "building",
  barn: "building",
  shed: "building",
  parking: "car-park",
  "parking-lot": "car-park",
  "power-line": "overhead-line",
  powerline: "overhead-line",
  "overhead-power-line": "overhead-line",
  river: "water",
  stream: "water",
  pond: "water",
  lake: "water",
  shelter: "crew-shelter",
  footpath: "path",
  track: "path",
  trail: "path",
};

const POINTS: Record<string, What> = {
  "firing-point": "firing-point",
  "control-point": "control-point",
  peg: "control-point",
  benchmark: "control-point",
  "spot-height": "spot-height",
};

/** Computed by Fairthrow: written to files, never read back. */
const COMPUTED = ["zone", "zone-corner", "keep-out-zone"];
/** Takes a signature, which no file carries. */
const SIGNED = ["barrier"];

export type Meaning =
  | { what: "feature"; kind: FeatureKindName }
  | { what: Exclude<What, "feature">; kind: null }
  | { what: "computed"; kind: null }
  | { what: "signed"; kind: null };

/** A property as words; nothing where it is neither text nor number. */
export const wordsOf = (value: unknown): string =>
  typeof value === "string" || typeof value === "number" ? String(value) : "";

const plain = (word: string) =>
  word
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, "-");

/** The meaning of the first word that has one; null when none has. */
export function meaningOf(words: readonly string[]): Meaning | null {
  for (const word of words.map(plain)) {
    const meaning = known(word) ?? known(word.replace(/s$/, ""));
    if (meaning) return meaning;
  }
  return null;
}

function known(word: string): Meaning | null {
  if (COMPUTED.includes(word)) return { what: "computed", kind: null };
  if (SIGNED.includes(word)) return { what: "signed", kind: null };
  if (Object.hasOwn(POINTS, word)) return { what: POINTS[word] as Exclude<What, "feature">, kind: null };
  const kind = FEATURE_KIND_NAMES.find((name) => name === word);
  if (kind) return { what: "feature", kind };
  return Object.hasOwn(WORDS, word) ? { what: "feature", kind: WORDS[word] as FeatureKindName } : null;
}
