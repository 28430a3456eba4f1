import Link from "next/link";
import { LocalTime } from "@/app/_ui/local-time";
import { KeptHere } from "@/app/_ui/offline/kept-here";
import { overview, reading, titled } from "@/app/_ui/reading";
import { Table } from "@/app/_ui/table";
import { bearingText } from "@/app/_ui/words";
import { listClearance } from "@/lib/contest";
import { KeepFresh } from "./keep-fresh";
import { INSPECTION_WORDS, PERMIT_WORDS } from "./words";

export const generateMetadata = titled("Inspections and firing permits");

/** How far every machine has come: inspected, permitted, and what keeps it from throwing. */
export default async function ClearancePage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const { sequence } = await overview(slug);
  const { machines } = await reading((db, who) => listClearance(db, who, slug));
  const base = `/contests/${slug}/clearance`;
  const stand = machines.filter(({ permit }) => permit?.state === "stands").length;
  return (
    <>
      <KeepFresh slug={slug} sequence={sequence} />
      <h1>Inspections and firing permits</h1>
      <p>
        {stand} of {machines.length} {machines.length === 1 ? "machine has" : "machines have"} a firing permit
        that stands. Nothing throws without one, and nobody can pass over that. A permit falls by itself; only
        the safety officer signs another.
      </p>
      <Table
        caption="Machines in the order of their teams"
        hideCaption
        stacks
        rows={machines}
        rowKey={({ machineId }) => machineId}
        empty="No machine is entered yet."
        columns={[
          {
            key: "machine",
            head: "Machine",
            rowHead: true,
            cell: ({ machineId, machineName, entrantNumber, entrantName }) => (
              <Link href={`${base}/${machineId}`} prefetch={false}>
                {entrantNumber} {entrantName}: {machineName}
              </Link>
            ),
          },
          {
            key: "stands",
            head: "Stands",
            cell: ({ firingPointNumber, bearing }) =>
              firingPointNumber !== null && bearing !== null
                ? `Firing point ${firingPointNumber}, ${bearingText(bearing)}`
                : "Not on the firing line",
          },
          {
            key: "inspection",
            head: "Inspection",
            cell: ({ inspection, revision }) =>
              inspection ? (
                <>
                  {INSPECTION_WORDS[inspection.outcome]}, revision {inspection.revision}
                  {inspection.revision !== revision && `; it is revision ${revision} by now`},{" "}
                  <LocalTime iso={inspection.inspectedAt} day />
                </>
              ) : (
                "Not inspected yet"
              ),
          },
          {
            key: "permit",
            head: "Firing permit",
            cell: ({ permit }) =>
              permit ? (
                <>
                  <strong>
                    Permit {permit.number} {PERMIT_WORDS[permit.state]}
                  </strong>
                  {permit.falls.length > 0 && `. ${permit.falls.map(({ text }) => text).join(" ")}`}
                </>
              ) : (
                <strong>None</strong>
              ),
          },
        ]}
      />
      <KeptHere pages={[base]} ready="Without a network this list opens from this phone, as of now." />
    </>
  );
}
