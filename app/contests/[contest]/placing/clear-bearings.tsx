"use client";
/** The arcs on which a machine's zone touches nothing it must not, and what is in the way of the rest. */
import { useEffect } from "react";
import { Notice } from "@/app/_ui/notice";
import { BearingArcs } from "@/app/_ui/zones/bearing-arcs";
import type { ClearBearings } from "@/lib/api/contracts";
import { type Asked, useAnswer } from "./use-answer";

/** Of a machine at a firing point; asked anew when either changes. */
export function useClearBearings(
  slug: string,
  machineId: string | null,
  pointId: string | null,
): Asked<ClearBearings> {
  const { asked, ask, forget } = useAnswer<ClearBearings>();
  useEffect(() => {
    forget();
    if (!machineId || !pointId) return;
    void ask(`/api/v1/contests/${slug}/clear-bearings?machine=${machineId}&firingPoint=${pointId}`);
  }, [slug, machineId, pointId, ask, forget]);
  return asked;
}

export function ClearBearingsTable({
  arcs,
  bearing,
}: {
  arcs: Asked<ClearBearings>;
  bearing: number | null;
}) {
  if (arcs.state === "refused")
    return (
      <Notice kind="problem">
        <p>{arcs.why}</p>
      </Notice>
    );
  if (arcs.state === "asking") return <p role="status">Being computed …</p>;
  if (arcs.state === "idle") return <p>They are told for a machine with a hazard sheet at a firing point.</p>;
  return <BearingArcs {...arcs.answer} bearing={bearing} />;
}
