import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import { bearingText } from "@/app/_ui/words";
import type { PermitInfo } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import { Reasons } from "../standing";
import { limitRows, PERMIT_WORDS } from "../words";

export function PermitList({ permits, system }: { permits: readonly PermitInfo[]; system: UnitSystem }) {
  return (
    <Table
      caption="Firing permits, newest first: that one counts"
      hideCaption
      stacks
      rows={permits}
      rowKey={({ id }) => id}
      empty="No firing permit has been signed yet."
      columns={[
        {
          key: "number",
          head: "Permit",
          rowHead: true,
          cell: ({ number, revision }) => `Permit ${number}, revision ${revision}`,
        },
        {
          key: "place",
          head: "Place",
          cell: ({ firingPointNumber, bearing }) =>
            `Firing point ${firingPointNumber}, bearing ${bearingText(bearing)}`,
        },
        {
          key: "limits",
          head: "Limits",
          cell: (permit) => (
            <>
              {limitRows(permit, system).map(({ label, text }) => (
                <div key={label}>
                  {label}: {text}
                </div>
              ))}
              {permit.conditions && <div>{permit.conditions}</div>}
            </>
          ),
        },
        {
          key: "signed",
          head: "Signed",
          cell: ({ signedBy, signedAt, paper }) => (
            <>
              {signedBy}, <LocalTime iso={signedAt} day />
              {paper && (
                <div>
                  on paper <LocalTime iso={paper.signedAt} day />, seen by {paper.witness}
                </div>
              )}
            </>
          ),
        },
        {
          key: "state",
          head: "State",
          cell: (permit) => (
            <>
              <strong>{PERMIT_WORDS[permit.state]}</strong>
              {permit.falls.length > 0 && <Reasons permit={permit} />}
            </>
          ),
        },
      ]}
    />
  );
}
