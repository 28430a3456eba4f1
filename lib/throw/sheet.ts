import type { HazardRequest, HazardSheet } from "./contracts";
import type { Preview } from "./picture";

/**
 * The whole hazard sheet of one request: nominal, worst, ceiling, exclusion and what was assumed.
 * @param onProgress called with 0 to 1 as the search goes on.
 */
export function hazardSheet(_request: HazardRequest, _onProgress?: (done: number) => void): HazardSheet {
  throw new Error("hazardSheet is being written");
}

/** Nominal and worst at the declared dimensions, with what the pages draw. */
export function preview(_request: HazardRequest): Preview {
  throw new Error("preview is being written");
}
