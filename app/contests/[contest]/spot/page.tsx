import { overview, reading, roundAsked, titled } from "@/app/_ui/reading";
import { judgeView } from "@/lib/contest";
import { SpotDesk } from "./spot-desk";

export const generateMetadata = titled("Spot the splash");

export default async function SpotPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  const round = roundAsked(await searchParams);
  const { sequence } = await overview(slug);
  const { view, who } = await reading(async (db, asker) => ({
    view: await judgeView(db, asker, slug, round),
    who: asker,
  }));
  return (
    <>
      <h1>Spot the splash</h1>
      <SpotDesk
        key={view.round}
        slug={slug}
        initial={view}
        label={who?.label ?? ""}
        owner={who?.role === "judge" ? who.badgeId : null}
        madeAt={new Date().toISOString()}
        sequence={sequence}
      />
    </>
  );
}
