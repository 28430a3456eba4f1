"use client";
/** Where the chosen machine's ordinary throws land, asked for and drawn on request. */
import { useState } from "react";
import { bothUnits } from "@/app/_ui/both-units";
import { Button } from "@/app/_ui/button";
import { Table } from "@/app/_ui/table";
import type { LandingContours } from "@/lib/api/contracts";
import { localPlane } from "@/lib/earth";
import type { UnitSystem } from "@/lib/units";

export interface Contours {
  machineId: string;
  answer: LandingContours;
}

const percent = (share: number) => `${Math.round(100 * share)} %`;

export function LandingContoursPanel({
  base,
  machine,
  origin,
  contours,
  onContours,
  system,
}: {
  /** Of the contest's API. */
  base: string;
  machine: { machineId: string; machineName: string };
  /** Its firing point. */
  origin: { latitude: number; longitude: number };
  contours: Contours | null;
  onContours: (contours: Contours | null) => void;
  system: UnitSystem;
}) {
  const [state, setState] = useState<"idle" | "asking" | string>("idle");
  const ask = async () => {
    setState("asking");
    try {
      const response = await fetch(`${base}/machines/${machine.machineId}/landing-contours`);
      const answer = await response.json();
      if (!response.ok) throw new Error(answer.detail);
      onContours({ machineId: machine.machineId, answer });
      setState("idle");
    } catch (error) {
      setState(`The contours could not be had: ${error instanceof Error ? error.message : "try again"}`);
    }
  };
  /** Nearest and farthest of a contour from the firing point. */
  const between = (ring: readonly [number, number][]) => {
    const plane = localPlane(origin);
    const far = ring.map(([longitude, latitude]) => {
      const { east, north } = plane.toPlane({ latitude, longitude });
      return Math.hypot(east, north);
    });
    const words = (value: number) => bothUnits(value, "distance", system, { digits: 0 });
    return `${words(Math.min(...far))} to ${words(Math.max(...far))}`;
  };
  if (!contours)
    return (
      <div>
        <Button onClick={ask} disabled={state === "asking"}>
          {state === "asking" ? "Computing …" : "Draw where normal throws land"}
        </Button>
        {state !== "idle" && state !== "asking" && <p role="alert">{state}</p>}
      </div>
    );
  const { answer } = contours;
  return (
    <div>
      <p role="status">
        <strong>{answer.label}</strong> {answer.landed} of {answer.draws} throws drawn by chance land.{" "}
        {answer.assumptions.join(" ")}
      </p>
      <Table
        caption={`Where normal throws of ${machine.machineName} land`}
        rows={answer.features}
        rowKey={({ properties }) => properties.share}
        empty="No throw drawn by chance lands."
        columns={[
          {
            key: "share",
            head: "Share inside",
            rowHead: true,
            cell: ({ properties }) => percent(properties.share),
          },
          {
            key: "where",
            head: "From the firing point",
            cell: ({ geometry }) => between(geometry.coordinates[0] ?? []),
          },
        ]}
      />
      <Button onClick={() => onContours(null)}>Take them off the map</Button>
    </div>
  );
}
