/** Barriers that stand, for a page and on paper. */
import { Table } from "@/app/_ui/table";
import { coordinates } from "@/app/_ui/words";
import type { BarrierInfo } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";

export function BarrierTable({
  barriers,
  system,
  empty,
}: {
  barriers: readonly BarrierInfo[];
  system: UnitSystem;
  empty?: string;
}) {
  return (
    <Table
      caption="Barriers signed for: each stops only what flies lower than it"
      stacks
      rows={barriers}
      rowKey={({ id }) => id}
      empty={empty}
      columns={[
        { key: "name", head: "Barrier", rowHead: true, cell: ({ name }) => name },
        {
          key: "height",
          head: "Height",
          number: true,
          cell: ({ height }) => formatQuantity(height, "distance", system, { digits: 1 }),
        },
        {
          key: "line",
          head: "From end to end",
          cell: ({ geometry }) =>
            geometry.coordinates
              .map(([longitude, latitude]) => coordinates({ latitude, longitude }))
              .join("; "),
        },
        { key: "reason", head: "Why it holds", cell: ({ reason }) => reason },
        {
          key: "signed",
          head: "Signed",
          cell: ({ signedBy, signedAt }) => `${signedBy}, ${signedAt.slice(0, 16).replace("T", " ")} UTC`,
        },
      ]}
    />
  );
}
