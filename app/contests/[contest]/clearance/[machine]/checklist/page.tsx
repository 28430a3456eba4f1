import type { Metadata } from "next";
import Link from "next/link";
import { PrintButton } from "@/app/_ui/print-button";
import { readerUnits } from "@/app/_ui/reader-units";
import { overview, reading } from "@/app/_ui/reading";
import { Table } from "@/app/_ui/table";
import { WrittenLines } from "@/app/_ui/written-lines";
import { machinePage } from "@/lib/contest";
import { dimensionsOf, linesFor } from "@/lib/inspection";
import { formatQuantity } from "@/lib/units";

type Props = { params: Promise<{ contest: string; machine: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { contest: slug, machine: id } = await params;
  const name = (await overview(slug)).machines.find((machine) => machine.id === id)?.name ?? "machine";
  return { title: `Checklist for ${name}` };
}

/** An inspection on paper, to be written by hand and typed in later. */
export default async function ChecklistPaper({ params }: Props) {
  const { contest: slug, machine: id } = await params;
  const { name, units } = await overview(slug);
  const system = await readerUnits(units);
  const { machine, entrant, revisions } = await reading((db, who) => machinePage(db, who, slug, id));
  const [newest] = revisions;
  return (
    <>
      <h1>Inspection of {machine.name}</h1>
      <p className="button-row no-print">
        <PrintButton>Print this checklist</PrintButton>
        <Link className="button button-plain" href={`/contests/${slug}/clearance/${id}`}>
          Back
        </Link>
      </p>
      {!newest ? (
        <p>Nothing is declared yet: its team declares it first.</p>
      ) : (
        <>
          <p>
            {name}. {entrant.number} {entrant.name}, revision {newest.number}. Time ____________ Witness (a
            role or a post, no person’s name) ________________________
          </p>
          <Table
            caption="Lines: ✓ meets it, L with a limit, F fails, – does not apply"
            rows={linesFor(newest.declaration.machine)}
            rowKey={({ id: line }) => line}
            columns={[
              { key: "box", head: "✓ L F –", cell: () => "☐" },
              { key: "line", head: "Line", rowHead: true, cell: ({ title }) => title },
              { key: "look", head: "What to look at", cell: ({ look }) => look },
              { key: "note", head: "Note, limit", cell: () => "____________________" },
            ]}
          />
          <Table
            caption="Measured"
            rows={dimensionsOf(newest.declaration)}
            rowKey={({ path }) => path}
            columns={[
              { key: "what", head: "What", rowHead: true, cell: ({ label }) => label },
              {
                key: "declared",
                head: "Declared",
                cell: ({ declared, tolerance, dimension }) =>
                  `${formatQuantity(declared, dimension, system)}${tolerance ? ` ± ${formatQuantity(tolerance, dimension, system)}` : ""}`,
              },
              { key: "measured", head: "Measured", cell: () => "____________" },
            ]}
          />
          <p>☐ meets it ☐ meets it with limits ☐ refused. Limits, or why: ______________________________</p>
          <WrittenLines caption="Inspected" rows={["Inspector", "Chief of the crew"]} />
        </>
      )}
    </>
  );
}
