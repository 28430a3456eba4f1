import Link from "next/link";
import { allowed, overview, titled } from "@/app/_ui/reading";
import { Table } from "@/app/_ui/table";
import { bearingText } from "@/app/_ui/words";
import { machineKind } from "@/lib/throw";
import { Retire } from "../retire";
import { MachineForm } from "./machine-form";
import { RenameForm } from "./rename-form";

export const generateMetadata = titled("Machines");

export default async function MachinesPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const { machines, entrants, firingPoints } = await overview(slug);
  const team = (id: string) => entrants.find((entrant) => entrant.id === id);
  return (
    <>
      <h1>Machines and where they stand</h1>
      <p>
        Open a machine to declare its dimensions, to see its hazard sheet, and to give it a firing point and a
        bearing. Its keep-out zone appears on the <Link href={`/contests/${slug}/map`}>map</Link> when it has
        all three.
      </p>
      <Table
        caption="Machines"
        stacks
        rows={machines}
        rowKey={({ id }) => id}
        empty="No machine is entered yet."
        columns={[
          {
            key: "name",
            head: "Machine",
            rowHead: true,
            cell: ({ id, name }) => <Link href={`/contests/${slug}/machines/${id}`}>{name}</Link>,
          },
          {
            key: "team",
            head: "Team",
            cell: ({ entrantId }) => `${team(entrantId)?.number} ${team(entrantId)?.name}`,
          },
          {
            key: "declared",
            head: "Declared",
            cell: ({ kind, revision }) =>
              revision === null
                ? "not yet"
                : `${machineKind(kind as Parameters<typeof machineKind>[0]).title}, revision ${revision}`,
          },
          {
            key: "placed",
            head: "Stands",
            cell: ({ firingPointId, bearing, retired }) =>
              retired
                ? "retired"
                : firingPointId && bearing !== null
                  ? `firing point ${firingPoints.find(({ id }) => id === firingPointId)?.number}, bearing ${bearingText(bearing)}`
                  : "not placed",
          },
          ...(who.role === "organiser"
            ? [
                {
                  key: "change",
                  head: "Change",
                  cell: ({ id, name, retired }: (typeof machines)[number]) => (
                    <Retire
                      url={`/api/v1/contests/${slug}/machines/${id}`}
                      name={name}
                      retired={retired}
                      meaning="Retired: it throws no more and has no zone."
                    />
                  ),
                },
              ]
            : []),
        ]}
      />
      {who.role === "organiser" && (
        <>
          {machines.length > 0 && (
            <>
              <h2>Put a name right</h2>
              <RenameForm slug={slug} machines={machines.map(({ id, name }) => ({ id, name }))} />
            </>
          )}
          <h2>Enter a machine</h2>
          {entrants.length === 0 ? (
            <p>
              <Link href={`/contests/${slug}/organise/teams`}>Enter a team</Link> first: every machine belongs
              to one.
            </p>
          ) : (
            <MachineForm slug={slug} entrants={entrants} />
          )}
        </>
      )}
    </>
  );
}
