import Link from "next/link";
import { KeptHere } from "@/app/_ui/offline/kept-here";
import { overview, titled } from "@/app/_ui/reading";
import { WalkDesk } from "./walk-desk";

export const generateMetadata = titled("Walk the zone");

export default async function WalkPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const { latitude, longitude, height, sequence } = await overview(slug);
  return (
    <>
      <h1>Walk the zone</h1>
      <WalkDesk slug={slug} middle={{ latitude, longitude, height }} sequence={sequence} />
      <KeptHere
        pages={[`/contests/${slug}/walk`, `/contests/${slug}/map`]}
        ready="Without a network this page and the map open from this phone."
      />
      <p>
        Everything here stands on the <Link href={`/contests/${slug}/map`}>map and in its tables</Link> too.
      </p>
    </>
  );
}
