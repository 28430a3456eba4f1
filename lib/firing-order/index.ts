/**
 * Who throws when: the shortest day in which nobody re-arms inside a live zone, nobody waits unfairly long and the order
 * rotates. Pure: no database, no web, no clock, no chance but a seeded one.
 */
export type { Day, Machine, Pause, Rules, Thrown, Turn } from "./day";
export { type Plan, type PlannedTurn, plan, planning, rota, timed } from "./plan";
