/**
 * Machines that have no zone, by name and with the reason: no page or paper may be silent about them. Apart from what
 * the browser runs, because papers are made by the server.
 */
import type { ZoneProperties, Zones } from "@/lib/api/contracts";
import { lackOfSheet } from "@/lib/api/contracts/machines";

export type ZonelessMachine = Pick<Zones["without"][number], "machineName" | "state" | "reason">;

/** Of the machines on a plan or in a list, those without a zone. */
export const zoneless = (
  machines: readonly (Pick<ZoneProperties, "state" | "reason" | "exclusion"> & { name: string })[],
): ZonelessMachine[] =>
  machines
    .filter(({ exclusion }) => exclusion === null)
    .map(({ name, state, reason }) => ({ machineName: name, state, reason: lackOfSheet({ state, reason }) }));

export const namesOf = (machines: readonly ZonelessMachine[]): string =>
  machines.map(({ machineName }) => machineName).join(", ");
