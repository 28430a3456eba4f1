"use client";
/** The arcs on which a machine's zone touches nothing it must not, and what is in the way of the rest. */
import { useEffect } from "react";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { bearingText } from "@/app/_ui/words";
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

const quarter = (degrees: number) =>
  `${(degrees % 360)
    .toFixed(2)
    .replace(/\.?0+$/, "")
    .padStart(3, "0")}°`;

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
  const { clear, blocked } = arcs.answer;
  const rows = [
    ...clear.map((arc) => ({ ...arc, by: null })),
    ...blocked.map((arc) => ({ ...arc, by: arc.by.map(({ name }) => name).join(", ") })),
  ].sort((first, second) => first.from - second.from);
  const holds = (arc: { from: number; to: number }) =>
    bearing !== null && [bearing, bearing + 360].some((each) => each >= arc.from && each <= arc.to);
  return (
    <>
      <p>
        {clear.length === 0
          ? "At this firing point there is no bearing on which its zone touches nothing it must not."
          : "On these bearings its zone touches nothing it must not, to a quarter of a degree."}
      </p>
      <Table
        caption="Bearings at this firing point"
        rows={rows}
        rowKey={({ from }) => from}
        columns={[
          {
            key: "arc",
            head: "From, clockwise to",
            rowHead: true,
            cell: ({ from, to }) => (to - from >= 360 ? "all round" : `${quarter(from)} to ${quarter(to)}`),
          },
          {
            key: "wide",
            head: "Width",
            number: true,
            cell: ({ from, to }) => `${Math.min(360, to - from)}°`,
          },
          { key: "state", head: "Zone", cell: ({ by }) => (by === null ? "✓ touches nothing" : `✕ ${by}`) },
          { key: "now", head: "Aimed", cell: (arc) => (holds(arc) ? bearingText(bearing ?? 0) : "") },
        ]}
      />
    </>
  );
}
