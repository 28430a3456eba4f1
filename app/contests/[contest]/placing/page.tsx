import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { placingDesk } from "@/lib/contest";
import { PlacingDesk } from "./placing-desk";

export const generateMetadata = titled("Where machines stand and aim");

export default async function PlacingPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<{ machine?: string | string[] }>;
}) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const { longitude, features, firingPoints, sequence } = await overview(slug);
  const placing = await reading((db, asker) => placingDesk(db, asker, slug));
  const { machine } = await searchParams;
  return (
    <>
      <h1>Where machines stand and aim</h1>
      <PlacingDesk
        slug={slug}
        site={{
          longitude,
          features: features.filter(({ retired }) => !retired),
          firingPoints: firingPoints.filter(({ retired }) => !retired),
        }}
        placing={placing}
        sequence={sequence}
        organiser={who.role === "organiser"}
        first={typeof machine === "string" ? machine : null}
      />
    </>
  );
}
