"use client";
import Link from "next/link";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import type { ShotInfo } from "@/lib/api/contracts";
import { formatQuantity } from "@/lib/units";

export function OrderTable({
  slug,
  round,
  shots,
}: {
  slug: string;
  round: number;
  shots: readonly ShotInfo[];
}) {
  const system = useUnits();
  return (
    <Table
      caption={`Round ${round}`}
      hideCaption
      rows={shots}
      rowKey={({ id }) => id}
      columns={[
        { key: "turn", head: "Turn", number: true, cell: (_, index) => index + 1 },
        {
          key: "team",
          head: "Team",
          rowHead: true,
          cell: ({ id, entrantNumber, entrantName }) => (
            <Link href={`/contests/${slug}/shots/${id}`} prefetch={false}>
              {entrantNumber} {entrantName}
            </Link>
          ),
        },
        { key: "machine", head: "Machine", cell: ({ machineName }) => machineName },
        {
          key: "point",
          head: "Firing point",
          number: true,
          cell: ({ firingPointNumber }) => firingPointNumber,
        },
        {
          key: "result",
          head: "Entry",
          number: true,
          cell: ({ fix }) =>
            fix === null
              ? "–"
              : fix.mark === null
                ? fix.outcome
                : formatQuantity(fix.mark, "distance", system, { digits: 2 }),
        },
      ]}
    />
  );
}
