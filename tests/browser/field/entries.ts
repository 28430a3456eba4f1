/** Thirty entries of every kind, each of another landing point, at the field of the survey tests. */
import { direct } from "@/lib/earth";
import type { FixInput } from "@/lib/survey";
import { FIRING, observations, PEGS, SITE } from "@/tests/unit/survey-site";

export { FIRING, PEGS, SITE };

export interface Entry {
  fix: FixInput;
  /** What is typed in place of a number, by field of the form. */
  words?: Record<string, string>;
}

/** As people read it off and type it: seven digits of a degree, tenths of a millimetre. */
function typed(value: unknown, name = ""): unknown {
  if (typeof value === "number")
    return Number(value.toFixed(name === "latitude" || name === "longitude" ? 7 : 4));
  if (Array.isArray(value)) return value.map((one) => typed(one));
  if (typeof value === "object" && value !== null)
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, typed(one, key)]));
  return value;
}

/** Number `number` of the entries: `pegs` are the ids by the letters of the survey tests. */
export function entry(number: number, pegs: Record<string, string>): Entry {
  const point = direct(FIRING, 2 + (number % 16), 60 + number);
  const feet: Entry = {
    fix: { outcome: "landed", method: "bearing-distance", bearing: 10, distance: (150.5 + number) * 0.3048 },
    words: { distance: `${150 + number} ft 6 in` },
  };
  const kinds: Entry[] = [
    ...Object.values(observations(SITE, point)).map((fix) => ({ fix: typedFix(fix as FixInput, pegs) })),
    feet,
    { fix: { outcome: "foul" } },
    { fix: { outcome: "misfire" } },
    { fix: { outcome: "burst" } },
  ];
  return kinds[number % kinds.length] as Entry;
}

/** A fix as it is typed, with the ids of pegs for the letters of the survey tests. */
export const typedFix = (fix: FixInput, pegs: Record<string, string>): FixInput =>
  withIds(typed(fix), pegs) as FixInput;

function withIds(value: unknown, pegs: Record<string, string>): unknown {
  if (Array.isArray(value)) return value.map((one) => withIds(one, pegs));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, one]) => [
      key,
      key === "from" ? (pegs[one as string] ?? one) : withIds(one, pegs),
    ]),
  );
}
