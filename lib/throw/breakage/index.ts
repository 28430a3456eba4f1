/** What may break, quickly: the loads card of the workbench. */
export type { Arrival, MachineStop } from "../faults/arrivals";
export { type Breakage, breakage } from "./breakage";
export { whatWouldHelp } from "./help";
export type { Help, HelpCode } from "./help-codes";
export type { Life, PartLoad, PartName } from "./parts";
export { leastReserve } from "./scope";
