import { ButtonLink } from "@/app/_ui/button";
import { allowed, overview, titled } from "@/app/_ui/reading";
import { siteOf } from "@/app/_ui/zones/scene-of";
import { SiteDesk } from "./site-desk";

export const generateMetadata = titled("Site");

export default async function SitePage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const contest = await overview(slug);
  const { latitude, longitude, height, declination } = contest;
  return (
    <>
      <h1>Site features and firing points</h1>
      <p className="button-row">
        <ButtonLink href={`/contests/${slug}/organise/site/picture`}>Aerial picture underneath</ButtonLink>
        <ButtonLink href={`/contests/${slug}/map`}>Map with the zones</ButtonLink>
      </p>
      <SiteDesk
        slug={slug}
        site={{ ...siteOf(contest), latitude, longitude, height, declination }}
        mayChange={who.role === "organiser"}
      />
    </>
  );
}
