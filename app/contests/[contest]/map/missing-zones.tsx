"use client";
/** Machines that have no zone, by name and with the reason: no page or paper may be silent about them. */
import { useRouter } from "next/navigation";
import { useEffect } from "react";
import { Caution } from "@/app/_ui/caution";
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

/** How often a page that waits for sheets is made anew, ms. */
const AGAIN = 5_000;

export function MissingZones({
  machines,
  what,
  renew = false,
}: {
  machines: readonly ZonelessMachine[];
  /** What lacks them: "This plan". */
  what: string;
  /** Has the server make the page anew while a sheet is being computed. */
  renew?: boolean;
}) {
  const router = useRouter();
  const waits = renew && machines.some(({ state }) => state === "computing");
  useEffect(() => {
    if (!waits) return;
    const timer = setInterval(() => router.refresh(), AGAIN);
    return () => clearInterval(timer);
  }, [waits, router]);
  if (machines.length === 0) return null;
  return (
    <Caution title={`no zone is drawn for ${namesOf(machines)}`}>
      <ul>
        {machines.map(({ machineName, reason }) => (
          <li key={machineName}>
            <strong>{machineName}</strong>: {reason}
          </li>
        ))}
      </ul>
      <p>
        {what} says nothing of what {machines.length === 1 ? "it" : "they"} could reach. Without a zone a
        machine must not fire.
        {waits && " A new zone shows here by itself; print after that."}
      </p>
    </Caution>
  );
}
