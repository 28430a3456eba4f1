import type { Metadata } from "next";
import Link from "next/link";
import { ButtonLink } from "@/app/_ui/button";
import { readerUnits } from "@/app/_ui/reader-units";
import { overview, reading } from "@/app/_ui/reading";
import { ConflictList } from "@/app/_ui/zones/conflict-list";
import { contestZones, machineClearance, machinePage, may, windOfDay } from "@/lib/contest";
import { widestLimits } from "@/lib/inspection";
import { PracticeStop } from "../../practice-stop";
import { KeepFresh } from "../keep-fresh";
import { Standing } from "../standing";
import { INSPECTION_WORDS } from "../words";
import { InspectionRecord } from "./inspection-record";
import { PermitForm } from "./permit-form";
import { PermitList } from "./permit-list";
import { WithdrawForm } from "./withdraw-form";

type Props = { params: Promise<{ contest: string; machine: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { contest: slug, machine: id } = await params;
  const name = (await overview(slug)).machines.find((machine) => machine.id === id)?.name ?? "Machine";
  return { title: `${name}: inspection and firing permit` };
}

/** One machine: whether it may throw and why not, its inspections, and signing. */
export default async function MachineClearancePage({ params }: Props) {
  const { contest: slug, machine: id } = await params;
  const contest = await overview(slug);
  const system = await readerUnits(contest.units);
  const { page, clearance, wind, zones, rights } = await reading(async (db, who) => ({
    page: await machinePage(db, who, slug, id),
    clearance: await machineClearance(db, who, slug, id),
    wind: await windOfDay(db, slug),
    zones: await contestZones(db, slug, { wait: 0 }),
    rights: {
      inspect: may(who, "inspect a machine", contest.id),
      sign: may(who, "sign and withdraw firing permits", contest.id),
    },
  }));
  const { machine, entrant, revisions, current } = page;
  const [newest] = revisions;
  const [permit] = clearance.permits;
  const [inspection] = clearance.inspections;
  const base = `/contests/${slug}/clearance/${id}`;
  const zone = zones.features.find(({ id: zoneId }) => zoneId === id)?.properties;
  const ofThis = inspection && inspection.revisionId === newest?.id ? inspection : null;
  return (
    <>
      <KeepFresh slug={slug} sequence={contest.sequence} />
      <h1>{machine.name}: inspection and firing permit</h1>
      <p>
        {entrant.number} {entrant.name}.{" "}
        <Link href={`/contests/${slug}/machines/${id}`} prefetch={false}>
          Its hazard sheet and dimensions
        </Link>
        . <Link href={`/contests/${slug}/clearance`}>All machines</Link>.
      </p>
      <Standing name={machine.name} permit={permit ?? null} />
      <PracticeStop revisions={revisions} />
      <p className="button-row">
        {rights.inspect && newest && (
          <ButtonLink href={`${base}/inspect`} look="main">
            Inspect revision {newest.number}
          </ButtonLink>
        )}
        <ButtonLink href={`${base}/permit`}>Permit on paper</ButtonLink>
        <ButtonLink href={`${base}/checklist`}>Checklist on paper</ButtonLink>
      </p>
      {!newest && <p>Nothing is declared yet: its team declares it first.</p>}

      {rights.sign && newest && (
        <>
          {zone && <ConflictList zones={[zone]} system={system} />}
          <h2>
            {permit && permit.state !== "fallen" ? "Sign another firing permit" : "Sign a firing permit"}
          </h2>
          {ofThis && ofThis.outcome !== "refused" && current.sheet && machine.firingPointId ? (
            <PermitForm
              key={`${ofThis.id} ${current.sheetId} ${machine.bearing}`}
              slug={slug}
              machine={machine}
              firingPointNumber={page.firingPoint?.number ?? 0}
              revision={{ id: newest.id, number: newest.number }}
              sheet={{ id: current.sheetId ?? "", ...current.sheet.exclusion }}
              inspection={ofThis}
              widest={widestLimits(newest.declaration, contest.policy, wind.limit)}
            />
          ) : (
            <ul>
              {!ofThis && <li>Revision {newest.number} has not been inspected yet.</li>}
              {ofThis?.outcome === "refused" && (
                <li>
                  {INSPECTION_WORDS.refused}: {ofThis.limits}
                </li>
              )}
              {!machine.firingPointId && <li>It does not stand on the firing line.</li>}
              {!current.sheet && <li>It has no hazard sheet as it stands now.</li>}
            </ul>
          )}
          {permit?.falls.every(({ cause }) => cause !== "withdrawn") && (
            <WithdrawForm slug={slug} permit={permit} />
          )}
        </>
      )}

      <h2>Firing permits</h2>
      <PermitList permits={clearance.permits} system={system} />
      <h2>Inspections</h2>
      {clearance.inspections.length === 0 && <p>Nobody has inspected it yet.</p>}
      {clearance.inspections.map((each, index) => (
        <InspectionRecord
          key={each.id}
          inspection={each}
          declaration={revisions.find(({ id: revisionId }) => revisionId === each.revisionId)?.declaration}
          system={system}
          open={index === 0}
        />
      ))}
    </>
  );
}
