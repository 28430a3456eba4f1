/** What the picture of the swing shows, as figures. */
import { heightText, instantText } from "@/app/_ui/hazard-sheet/words";
import { Table } from "@/app/_ui/table";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { SwingFrame } from "@/lib/throw";
import type { ReleaseMark } from "./release-marks";

const ROWS = 12;

export function SwingTable({
  frames,
  marks,
  system,
}: {
  frames: readonly SwingFrame[];
  marks: readonly ReleaseMark[];
  system: UnitSystem;
}) {
  const step = Math.max(1, Math.floor((frames.length - 1) / ROWS));
  const sampled = frames
    .filter((_, index) => index % step === 0)
    .map((frame) => ({
      time: frame.time,
      at: frame.projectile,
      tip: frame.tip,
      what: frame.loose ? "sling slack" : "sling taut",
    }));
  const released = marks.map((mark) => ({
    time: mark.time,
    at: mark.at,
    tip: null,
    what: `let go, ${mark.label}`,
  }));
  const rows = [...sampled, ...released].sort((a, b) => a.time - b.time);
  const place = (value: number | undefined) => (value === undefined ? "–" : heightText(value, system));
  return (
    <details>
      <summary>The swing in figures</summary>
      <Table
        caption="Projectile and arm tip, downrange of the firing point and above the ground"
        rows={rows}
        rowKey={(row) => `${row.time} ${row.what}`}
        columns={[
          { key: "time", head: "After", rowHead: true, cell: (row) => instantText(row.time) },
          { key: "what", head: "What", cell: (row) => row.what },
          { key: "x", head: "Projectile downrange", number: true, cell: (row) => place(row.at[0]) },
          { key: "y", head: "Projectile up", number: true, cell: (row) => place(row.at[1]) },
          { key: "tx", head: "Tip downrange", number: true, cell: (row) => place(row.tip?.[0]) },
          { key: "ty", head: "Tip up", number: true, cell: (row) => place(row.tip?.[1]) },
        ]}
      />
    </details>
  );
}
