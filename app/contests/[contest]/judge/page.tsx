import { delivered, overview, reading, roundAsked, titled } from "@/app/_ui/reading";
import { judgeView } from "@/lib/contest";
import { JudgeDesk } from "./judge-desk";
import { RevokedDesk } from "./revoked-desk";

export const generateMetadata = titled("Judge");

export default async function JudgePage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  const round = roundAsked(await searchParams);
  const { sequence } = await overview(slug);
  const gone = await delivered(slug);
  if (gone)
    return (
      <>
        <h1>Landing points</h1>
        <RevokedDesk
          slug={slug}
          owner={gone.actor.badgeId}
          revokedAt={gone.revokedAt.toISOString()}
          delivered={gone.delivered}
          sequence={sequence}
        />
      </>
    );
  const { view, who } = await reading(async (db, asker) => ({
    view: await judgeView(db, asker, slug, round),
    who: asker,
  }));
  return (
    <>
      <h1>Landing points</h1>
      <JudgeDesk
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
