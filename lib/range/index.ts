/**
 * Whether the range is cold, hot or on hold, and why not: what officials, posts and crews have said, turned into one
 * answer. It knows no database, no web and no clock: every event brings its time, and what hangs on the site comes as
 * `Facts`. Events may come twice, late and in any order.
 */
export { apply, type Done, type Outcome, settle } from "./apply";
export { type Mode, modeOf, standsInTheWay } from "./conditions";
export type { RangeEvent } from "./events";
export { type HoldDone, LATE, withHold } from "./hold";
export { stateWords, whereWords } from "./machine";
export {
  type Clear,
  type Facts,
  type Firing,
  freshRange,
  type Hold,
  type Hot,
  isSilent,
  MACHINE_STATES,
  type Machine,
  type MachineState,
  machineOf,
  type RangeState,
  TIMES,
  type Times,
} from "./state";
