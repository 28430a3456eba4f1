/** From a request to what the formulas of a machine without a swing are given. */
import { airProperties } from "../earth";
import type { Air } from "./contracts/air";
import type { Conditions } from "./machines/kind";
import { gravityOf, type Throwable } from "./setup";

export function conditionsOf(
  request: Throwable & { air?: Air | undefined; tolerances?: Record<string, number> | undefined },
): Conditions {
  const { pressure, temperature } = airProperties(request.air ?? {});
  return {
    projectile: request.projectile,
    gravity: gravityOf(request),
    pressure,
    temperature,
    tolerances: request.tolerances ?? {},
  };
}
