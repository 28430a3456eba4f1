import { ButtonLink } from "@/app/_ui/button";
import { allowed, overview, titled } from "@/app/_ui/reading";
import { siteOf } from "@/app/_ui/zones/scene-of";
import { PictureDesk } from "./picture-desk";

export const generateMetadata = titled("Aerial picture");

export default async function PicturePage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const contest = await overview(slug);
  const { latitude, longitude } = contest;
  return (
    <>
      <h1>Aerial picture underneath</h1>
      <p className="button-row">
        <ButtonLink href={`/contests/${slug}/organise/site`}>Site features and firing points</ButtonLink>
      </p>
      <PictureDesk
        slug={slug}
        site={{ ...siteOf(contest), latitude, longitude }}
        mayChange={who.role === "organiser"}
      />
    </>
  );
}
