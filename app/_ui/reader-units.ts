/** For server components: the units this reader wants to see. */
import { cookies } from "next/headers";
import { asUnitSystem, UNITS_COOKIE, type UnitSystem } from "./units-cookie";

/** The reader's own choice, else the contest's, else metric. */
export async function readerUnits(contestUnits?: string): Promise<UnitSystem> {
  const chosen = (await cookies()).get(UNITS_COOKIE)?.value;
  return asUnitSystem(chosen) ?? asUnitSystem(contestUnits) ?? "metric";
}
