"use client";
/** Whether there is a zone, and if there is none why: then nothing may be fired. */
import Link from "next/link";
import { Caution } from "@/app/_ui/caution";
import { Notice } from "@/app/_ui/notice";
import type { Worked } from "./use-zone";

/** Why nothing can be asked; null where something is. */
export type Lack = "numbers" | "point" | "bearing" | null;

const LACKS: Record<Exclude<Lack, null>, string> = {
  numbers: "Numbers of the machine are missing or wrong",
  point: "No firing point is laid out",
  bearing: "The firing point has no bearing",
};

export function ZoneState({ lack, worked }: { lack: Lack; worked: Worked }) {
  const { answer, current, done, failure } = worked;
  if (current) return null;
  const old = answer !== null;
  if (lack)
    return (
      <Caution kind="prohibition" title="no zone: the machine must not fire">
        <p>
          {LACKS[lack]}, so nothing is computed and nobody knows how far it throws.{" "}
          {lack === "numbers" && (
            <>
              Put them right on the <Link href="/workbench">machine page</Link>.{" "}
            </>
          )}
          {old && "The zone from before is out of date and is taken off the map."}
        </p>
      </Caution>
    );
  if (failure !== null)
    return (
      <Caution kind="prohibition" title="no zone: the machine must not fire">
        <p role="alert">
          The hazard sheet could not be computed: {failure}{" "}
          {old && "The zone from before is out of date and is taken off the map."}
        </p>
      </Caution>
    );
  return (
    <Notice title={old ? "Out of date" : "Being computed"} live>
      <p>
        {old
          ? "Something has changed: the zone from before is out of date and is taken off the map. The new one is being worked out on this device"
          : "The whole hazard sheet is being worked out on this device"}
        ; that takes some seconds. Until then there is no zone: nobody fires.
      </p>
      <p>
        <progress aria-label="Hazard sheet" max={1} value={done ?? 0} />{" "}
        <span aria-hidden="true">{Math.round(100 * (done ?? 0))} %</span>
      </p>
    </Notice>
  );
}
