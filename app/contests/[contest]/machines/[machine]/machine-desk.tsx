"use client";
/** One machine: what is declared, where it stands, its hazard sheet, and what its zone touches. */
import Link from "next/link";
import { useRouter } from "next/navigation";
import { useEffect } from "react";
import { HazardSheetView } from "@/app/_ui/hazard-sheet";
import { useLive } from "@/app/_ui/live/use-live";
import { LocalTime } from "@/app/_ui/local-time";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { bearingText, instantText } from "@/app/_ui/words";
import { ConflictList } from "@/app/_ui/zones/conflict-list";
import type {
  ContestOverview,
  InspectionInfo,
  MachinePage,
  PermitInfo,
  ZoneProperties,
} from "@/lib/api/contracts";
import type { Policy } from "@/lib/throw";
import { formatQuantity } from "@/lib/units";
import { Standing } from "../../clearance/standing";
import { INSPECTION_WORDS } from "../../clearance/words";
import { SheetState } from "../../map/sheet-state";
import { PracticeStop } from "../../practice-stop";
import { DeclareForm } from "./declare-form";
import { PlaceForm } from "./place-form";

type Revision = MachinePage["revisions"][number];
interface RevisionRow {
  revision: Revision;
  sheet: Revision["sheets"][number] | null;
}

export function MachineDesk({
  slug,
  page,
  inspection,
  permit,
  zone,
  policy,
  caution,
  firingPoints,
  rights,
  startingUnits,
  sequence,
}: {
  slug: string;
  page: MachinePage;
  /** The newest. */
  inspection: InspectionInfo | null;
  permit: PermitInfo | null;
  zone: ZoneProperties | null;
  policy: Policy;
  caution: string;
  firingPoints: ContestOverview["firingPoints"];
  rights: { declare: boolean; place: boolean };
  startingUnits: UnitSystem;
  /** Of the newest scorebook entry that this shows. */
  sequence: number;
}) {
  const system = useUnits();
  const router = useRouter();
  const { machine, entrant, firingPoint, revisions, current } = page;
  const renew = () => {
    if (navigator.onLine) router.refresh();
  };
  useLive(`/api/v1/contests/${slug}/live`, sequence, ({ kind }, missed) => {
    if (missed || ["sheet", "machine", "permit", "conditions", "layout"].includes(kind)) renew();
  });
  // A sheet being computed may be ready before its event reaches a page that has just connected.
  useEffect(() => {
    if (current.state !== "computing") return;
    const timer = setInterval(() => navigator.onLine && router.refresh(), 4000);
    return () => clearInterval(timer);
  }, [current.state, router]);

  const newest = revisions[0];
  const declareForm = (
    <DeclareForm
      key={newest?.number ?? 0}
      slug={slug}
      machineId={machine.id}
      newest={newest?.declaration ?? null}
      startingUnits={startingUnits}
    />
  );
  return (
    <>
      <p>
        {entrant.number} {entrant.name}.{" "}
        {firingPoint && machine.bearing !== null
          ? `Stands at firing point ${firingPoint.number}, bearing ${bearingText(machine.bearing)}.`
          : "Not on the firing line yet."}
      </p>
      <Standing name={machine.name} permit={permit} />
      <PracticeStop revisions={revisions} />
      <p>
        {inspection ? (
          <>
            {INSPECTION_WORDS[inspection.outcome]} by the inspection of revision {inspection.revision},{" "}
            <LocalTime iso={inspection.inspectedAt} day />.{" "}
            {inspection.limits && <strong>{inspection.limits} </strong>}
          </>
        ) : (
          "Not inspected yet. "
        )}
        <Link href={`/contests/${slug}/clearance/${machine.id}`} prefetch={false}>
          Inspection and firing permit
        </Link>
      </p>
      <SheetState state={current.state} reason={current.reason} progress={current.progress} />
      {zone && <ConflictList zones={[zone]} system={system} />}
      {rights.place && (
        <>
          <h2>Where it stands</h2>
          <PlaceForm slug={slug} machine={machine} firingPoints={firingPoints} />
          <p>
            <Link href={`/contests/${slug}/placing?machine=${machine.id}`} prefetch={false}>
              Place it on the map
            </Link>
            , with its clear bearings and the cures for what its zone touches.
          </p>
        </>
      )}
      {current.sheet && newest && (
        <HazardSheetView
          sheet={{ ...current.sheet, assumptions: [...current.given, ...current.sheet.assumptions] }}
          system={system}
          declaration={newest.declaration}
          {...(current.air && { air: current.air })}
          {...(current.terrain && { terrain: current.terrain })}
          policy={policy}
          heading={`Hazard sheet: ${machine.name}, revision ${newest.number}`}
          facts={[
            { label: "Made", value: current.createdAt ? instantText(current.createdAt) : "" },
            { label: "Hash of the inputs", value: <code>{current.inputHash}</code> },
          ]}
        />
      )}
      {current.sheet && <p>{caution}</p>}
      <h2>Revisions</h2>
      <p>A machine is never changed in place: every change is a new revision, and the old ones stay.</p>
      <Table
        caption="Revisions"
        hideCaption
        rows={revisions.flatMap((revision): RevisionRow[] =>
          revision.sheets.length > 0
            ? revision.sheets.map((sheet) => ({ revision, sheet }))
            : [{ revision, sheet: null }],
        )}
        rowKey={({ revision, sheet }) => sheet?.id ?? revision.id}
        empty="Nothing is declared yet."
        columns={[
          { key: "number", head: "Revision", rowHead: true, cell: ({ revision }) => revision.number },
          { key: "note", head: "What changed", cell: ({ revision }) => revision.note || "–" },
          { key: "declared", head: "Declared", cell: ({ revision }) => instantText(revision.createdAt) },
          {
            key: "forward",
            head: "Zone forward",
            number: true,
            cell: ({ sheet }) =>
              sheet ? formatQuantity(sheet.forward, "distance", system, { digits: 0 }) : "no sheet",
          },
          {
            key: "backward",
            head: "Zone backward",
            number: true,
            cell: ({ sheet }) =>
              sheet ? formatQuantity(sheet.backward, "distance", system, { digits: 0 }) : "no sheet",
          },
          {
            key: "state",
            head: "Sheet",
            cell: ({ sheet }) =>
              sheet ? (sheet.current ? "in force" : `stale, of ${instantText(sheet.createdAt)}`) : "–",
          },
        ]}
      />
      {rights.declare ? (
        <>
          <h2>{newest ? "Declare a new revision" : "Declare this machine"}</h2>
          {newest && (
            <Notice>
              <p>
                The fields start from revision {newest.number}. As soon as a new one is declared the sheet of
                the old is stale, and shots not yet thrown are of the new one.
              </p>
            </Notice>
          )}
          {newest ? (
            <details>
              <summary>Open the form</summary>
              {declareForm}
            </details>
          ) : (
            declareForm
          )}
        </>
      ) : (
        <p>The organiser and the machine&rsquo;s own team declare revisions.</p>
      )}
    </>
  );
}
