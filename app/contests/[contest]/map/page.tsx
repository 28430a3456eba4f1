import Link from "next/link";
import { ButtonLink } from "@/app/_ui/button";
import { KeptHere } from "@/app/_ui/offline/kept-here";
import { asker, overview, reading, titled } from "@/app/_ui/reading";
import { siteOf } from "@/app/_ui/zones/scene-of";
import { contestZones, windOfDay } from "@/lib/contest";
import { MapDesk } from "./map-desk";

export const generateMetadata = titled("Site map and keep-out zones");

export default async function MapPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const contest = await overview(slug);
  const zones = await reading((db) => contestZones(db, slug));
  const wind = await reading((db) => windOfDay(db, slug));
  const who = await asker();
  const here = who?.contestSlug === slug ? who : null;
  const opens = here && (here.role === "team" ? here.entrantId : "all");
  return (
    <>
      <h1>Site map and keep-out zones</h1>
      <p>
        On the field, <Link href={`/contests/${slug}/walk`}>walk the zone</Link> with a phone: it says whose
        zone it stands in.
      </p>
      <MapDesk
        slug={slug}
        site={siteOf(contest)}
        zones={zones}
        wind={wind}
        at={new Date().toISOString()}
        sequence={contest.sequence}
        opens={opens}
      />
      <KeptHere
        pages={[`/contests/${slug}/map`, `/contests/${slug}/walk`]}
        ready="Without a network this map and the walk open from this phone."
      />
      <p className="button-row">
        <ButtonLink href={`/contests/${slug}/range-plan`}>Range plan to scale, to print</ButtonLink>
      </p>
    </>
  );
}
