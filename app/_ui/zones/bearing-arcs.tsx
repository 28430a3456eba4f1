/** The arcs on which a machine's zone touches nothing it must not, and what is in the way of the rest. */
import { Table } from "../table";
import { bearingText } from "../words";

const quarter = (degrees: number) =>
  `${(degrees % 360)
    .toFixed(2)
    .replace(/\.?0+$/, "")
    .padStart(3, "0")}°`;

export function BearingArcs({
  clear,
  blocked,
  bearing,
}: {
  clear: readonly { from: number; to: number }[];
  blocked: readonly { from: number; to: number; by: readonly { name: string }[] }[];
  bearing: number | null;
}) {
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
