"use client";
/** What the zone would have to be, what that touches, and the other machines that rest on the same model. */
import Link from "next/link";
import { keepOffBoth } from "@/app/_ui/kept-distance";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { conflictWords } from "@/app/_ui/zones/conflict-words";
import type { IncidentInfo } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import { PERMIT_WORDS } from "../../clearance/words";

export function NeededZone({
  slug,
  incident,
  system,
}: {
  slug: string;
  incident: IncidentInfo;
  system: UnitSystem;
}) {
  const { needed, outside, beyondModel, sameKind, machineName } = incident;
  if (outside === 0 && !beyondModel) return null;
  return (
    <>
      {outside > 0 && (
        <>
          <h2>What the zone would have to be</h2>
          {needed ? (
            <>
              <p>
                {needed.factor.toFixed(2)} times as long all round, since what was wrong one way may be as
                wrong another: {keepOffBoth(needed.exclusion.forward, system)} ahead,{" "}
                {keepOffBoth(needed.exclusion.backward, system)} behind,{" "}
                {keepOffBoth(needed.exclusion.side, system)} beside. It would hold every piece with all that
                its place may be off. It changes no policy and no sheet: the safety officer decides.
              </p>
              <Touches needed={needed} system={system} />
            </>
          ) : (
            <p>No zone can be told: nothing was computed, or a place gave no point. Measure it again.</p>
          )}
        </>
      )}
      {beyondModel && (
        <Notice kind="problem" title="Beyond what the model foresees">
          <p>
            The model is wrong for {machineName}, or what was declared of it is. Machines of the same kind
            rest on the same model: nobody relies on their zones before the cause is known.
          </p>
        </Notice>
      )}
      {sameKind.length > 0 && (
        <Table
          caption="Other machines of this kind, and their firing permits"
          stacks
          rows={sameKind}
          rowKey={({ machineId }) => machineId}
          columns={[
            {
              key: "machine",
              head: "Machine",
              rowHead: true,
              cell: ({ machineId, machineName: name, entrantNumber, entrantName }) => (
                <Link href={`/contests/${slug}/clearance/${machineId}`} prefetch={false}>
                  {entrantNumber} {entrantName}: {name}
                </Link>
              ),
            },
            {
              key: "permit",
              head: "Firing permit",
              cell: ({ permit, permitNumber }) =>
                permit ? `Permit ${permitNumber} ${PERMIT_WORDS[permit]}` : "None",
            },
          ]}
        />
      )}
    </>
  );
}

function Touches({ needed, system }: { needed: NonNullable<IncidentInfo["needed"]>; system: UnitSystem }) {
  const against = needed.conflicts.filter(({ inConflict }) => inConflict);
  return (
    <ul>
      {against.map((conflict) => (
        <li key={conflict.featureId}>
          <strong>{conflict.name}</strong>: it {conflictWords(conflict, system)}.
        </li>
      ))}
      {needed.standClear.map(({ id, name, machines }) => (
        <li key={id}>
          {name} would stand clear
          {machines.length > 0 && `, with ${machines.map(({ machineName }) => machineName).join(", ")}`}.
        </li>
      ))}
      {against.length === 0 && needed.standClear.length === 0 && <li>It would touch nothing protected.</li>}
    </ul>
  );
}
