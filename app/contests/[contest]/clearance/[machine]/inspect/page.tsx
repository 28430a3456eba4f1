import type { Metadata } from "next";
import Link from "next/link";
import { KeptHere } from "@/app/_ui/offline/kept-here";
import { overview, reading } from "@/app/_ui/reading";
import { machinePage, may } from "@/lib/contest";
import { PracticeStop } from "../../../practice-stop";
import { KeepFresh } from "../../keep-fresh";
import { InspectDesk } from "./inspect-desk";

type Props = { params: Promise<{ contest: string; machine: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { contest: slug, machine: id } = await params;
  const name = (await overview(slug)).machines.find((machine) => machine.id === id)?.name ?? "machine";
  return { title: `Inspect ${name}` };
}

/** For a phone in one hand, beside the machine. */
export default async function InspectPage({ params }: Props) {
  const { contest: slug, machine: id } = await params;
  const contest = await overview(slug);
  const { page, mayInspect } = await reading(async (db, who) => ({
    page: await machinePage(db, who, slug, id),
    mayInspect: may(who, "inspect a machine", contest.id),
  }));
  const { machine, entrant, revisions, current } = page;
  const [newest] = revisions;
  const here = `/contests/${slug}/clearance/${id}`;
  return (
    <>
      <KeepFresh slug={slug} sequence={contest.sequence} />
      <h1>Inspect {machine.name}</h1>
      <p>
        {entrant.number} {entrant.name}. <Link href={here}>Its inspections and permits</Link>.
      </p>
      <PracticeStop revisions={revisions} />
      {!newest ? (
        <p>Nothing is declared yet: its team declares it first.</p>
      ) : !mayInspect ? (
        <p>The safety officer inspects machines.</p>
      ) : (
        <InspectDesk
          slug={slug}
          machineId={id}
          revision={{ id: newest.id, number: newest.number, declaration: newest.declaration }}
          loads={current.revision === newest.number ? (current.sheet?.loads ?? null) : null}
          back={here}
        />
      )}
      <KeptHere
        pages={[`${here}/inspect`]}
        ready="Without a network this inspection opens from this phone, and keeps what you enter; it is sent once there is a network."
      />
    </>
  );
}
