/** Written agreements that let a zone reach what it otherwise must not: an overhead line's, a closed road's. */
import { type FeatureKindName, type Protection, ruleOf } from "./kinds";

export interface Agreement {
  /** YYYY-MM-DD, the last day on which it holds; null: it does not end. */
  expiresOn: string | null;
}

/** A line of the register, without who gave it. */
export interface RegisteredConsent {
  kind: string;
  featureId: string | null;
  /** YYYY-MM-DD; null while it is only asked for. */
  givenOn: string | null;
  expiresOn: string | null;
}

/** On which machines may fire, YYYY-MM-DD; the two are the same where there is one. */
export interface Days {
  first: string;
  last: string;
}

/** Whose word it takes. All others are protected whatever anyone has signed. */
const WHOSE: Partial<Record<FeatureKindName, string>> = { "overhead-line": "utility", road: "road" };

/**
 * The agreement on file for a feature that holds from the first day to the last, the longest of several; null when
 * there is none, or when the feature needs none.
 */
export function agreementOf(
  feature: Protection & { id: string },
  consents: readonly RegisteredConsent[],
  days: Days,
): Agreement | null {
  const kind = WHOSE[feature.kind];
  if (!kind || ruleOf(feature) !== "protected") return null;
  const holding = consents.filter(
    (consent) =>
      consent.kind === kind &&
      consent.featureId === feature.id &&
      consent.givenOn !== null &&
      consent.givenOn <= days.first &&
      (consent.expiresOn === null || consent.expiresOn >= days.last),
  );
  if (holding.length === 0) return null;
  const ends = holding.map(({ expiresOn }) => expiresOn);
  if (ends.includes(null)) return { expiresOn: null };
  return { expiresOn: ends.reduce((last, end) => ((end ?? "") > (last ?? "") ? end : last)) };
}
