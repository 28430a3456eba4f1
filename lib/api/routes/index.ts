/** Every route of /api/v1 in one table: what it is for, who may, what it takes and gives. The OpenAPI document is it. */
import { CALCULATOR } from "./calculator";
import { CLEARANCE } from "./clearance";
import { CURES } from "./cures";
import { ENTRIES } from "./entries";
import { EXCHANGE } from "./exchange";
import { FIRING_ORDER } from "./firing-order";
import { INCIDENTS } from "./incidents";
import { MACHINES } from "./machines";
import { PEOPLE } from "./people";
import { RANGE } from "./range";
import { RANGE_STATE } from "./range-state";
import { REHEARSAL } from "./rehearsal";
import { RESULTS } from "./results";
import { SAFETY } from "./safety";
import type { RouteInfo } from "./shapes";
import { SITE } from "./site";
import { WIND } from "./wind";

export * from "./shapes";

export const ROUTES: readonly RouteInfo[] = [
  ...CALCULATOR,
  ...PEOPLE,
  ...ENTRIES,
  ...RANGE,
  ...RANGE_STATE,
  ...REHEARSAL,
  ...SITE,
  ...EXCHANGE,
  ...WIND,
  ...SAFETY,
  ...MACHINES,
  ...CLEARANCE,
  ...INCIDENTS,
  ...CURES,
  ...FIRING_ORDER,
  ...RESULTS,
];
