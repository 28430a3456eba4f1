import { asker, overview, reading, titled } from "@/app/_ui/reading";
import { siteOf } from "@/app/_ui/zones/scene-of";
import { may, readIncident } from "@/lib/contest";
import { KeepFresh } from "../../clearance/keep-fresh";
import { pegsOf } from "../stand";
import { titleOf } from "../words";
import { IncidentDesk } from "./incident-desk";

export const generateMetadata = titled("Incident");

export default async function IncidentPage({
  params,
}: {
  params: Promise<{ contest: string; incident: string }>;
}) {
  const { contest: slug, incident: id } = await params;
  const incident = await reading((db, who) => readIncident(db, who, slug, id));
  const contest = await overview(slug);
  return (
    <>
      <KeepFresh slug={slug} sequence={contest.sequence} />
      <h1>{titleOf(incident)}</h1>
      <IncidentDesk
        slug={slug}
        incident={incident}
        site={siteOf(contest)}
        pegs={pegsOf(contest)}
        mayErase={may(await asker(), "erase what was written of an incident", contest.id)}
      />
    </>
  );
}
