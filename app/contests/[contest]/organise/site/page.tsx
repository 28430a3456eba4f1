import { allowed, overview, titled } from "@/app/_ui/reading";
import { SiteDesk } from "./site-desk";

export const generateMetadata = titled("Site");

export default async function SitePage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const { features, firingPoints } = await overview(slug);
  return (
    <>
      <h1>Site features and firing points</h1>
      <SiteDesk
        slug={slug}
        features={features}
        firingPoints={firingPoints}
        mayChange={who.role === "organiser"}
      />
    </>
  );
}
