import type { Metadata } from "next";
import { readerUnits } from "@/app/_ui/reader-units";
import { overview, reading } from "@/app/_ui/reading";
import { contestZones, machineClearance, machinePage, may } from "@/lib/contest";
import { MachineDesk } from "./machine-desk";

type Props = { params: Promise<{ contest: string; machine: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { contest: slug, machine: id } = await params;
  const { machines } = await overview(slug);
  return { title: machines.find((machine) => machine.id === id)?.name ?? "Machine" };
}

export default async function MachinePage({ params }: Props) {
  const { contest: slug, machine: id } = await params;
  const contest = await overview(slug);
  const { page, clearance, rights } = await reading(async (db, who) => ({
    page: await machinePage(db, who, slug, id),
    clearance: await machineClearance(db, who, slug, id),
    rights: {
      declare: may(who, "declare a machine revision", contest.id, who?.entrantId ?? undefined),
      place: may(who, "place a machine", contest.id),
    },
  }));
  const zones = await reading((db) => contestZones(db, slug, { wait: 0 }));
  return (
    <>
      <h1>{page.machine.name}</h1>
      <MachineDesk
        slug={slug}
        page={page}
        inspection={clearance.inspections[0] ?? null}
        permit={clearance.permits[0] ?? null}
        zone={zones.features.find(({ id: zoneId }) => zoneId === id)?.properties ?? null}
        policy={contest.policy}
        caution={zones.caution}
        firingPoints={contest.firingPoints.filter(({ retired }) => !retired)}
        rights={rights}
        sequence={contest.sequence}
        startingUnits={await readerUnits(contest.units)}
      />
    </>
  );
}
