/** The throw as meant against one number of the machine, all others as they are. */
import type { HazardRequest } from "../contracts/request";
import { Thrower } from "./evaluate";
import { isInRange, withValue } from "./knobs";

export interface TuningPoint {
  /** Of the parameter, SI; angles in degrees. */
  value: number;
  /** First impact, m, downrange positive; null where nothing is thrown, or nobody may build it so. */
  distance: number | null;
}

/** @param n points, both ends included; at least 2 */
export function curve(
  request: HazardRequest,
  name: string,
  low: number,
  high: number,
  n: number,
): TuningPoint[] {
  const thrower = new Thrower(request);
  return Array.from({ length: n }, (_, i) => {
    const value = low + ((high - low) * i) / (n - 1);
    const changed = withValue(request, name, value);
    return { value, distance: isInRange(changed) ? thrower.distance(changed) : null };
  });
}
