/** The reader's choice of units lives in this cookie, "metric" or "us"; without it the contest's units hold. */
export const UNITS_COOKIE = "fairthrow-units";

export type UnitSystem = "metric" | "us";

export const asUnitSystem = (text: string | undefined | null): UnitSystem | null =>
  text === "metric" || text === "us" ? text : null;
