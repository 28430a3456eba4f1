import Link from "next/link";
import { overview, reading, titled } from "@/app/_ui/reading";
import { siteOf } from "@/app/_ui/zones/scene-of";
import { sightedShots } from "@/lib/contest";
import { SplashDesk } from "./splash-desk";

export const generateMetadata = titled("Walk to the splash");

export default async function SplashPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const contest = await overview(slug);
  const { shots } = await reading((db) => sightedShots(db, slug));
  const { height, declination, sequence } = contest;
  return (
    <>
      <h1>Walk to the splash</h1>
      <SplashDesk
        slug={slug}
        site={siteOf(contest)}
        height={height}
        declination={declination}
        initial={{ at: new Date().toISOString(), shots }}
        sequence={sequence}
      />
      <p>
        Whose zone you stand in says <Link href={`/contests/${slug}/walk`}>Walk the zone</Link>. Spotters send
        bearings from <Link href={`/contests/${slug}/spot`}>Spot the splash</Link>.
      </p>
    </>
  );
}
