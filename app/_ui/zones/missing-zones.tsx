"use client";
/** The warning that names machines without a zone. */
import { useRouter } from "next/navigation";
import { useEffect } from "react";
import { Caution } from "../caution";
import { namesOf, type ZonelessMachine } from "./zoneless";

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
