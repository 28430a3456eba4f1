import { delivered, judgesRound, overview, roundAsked, titled } from "@/app/_ui/reading";
import { EndedDesk } from "./ended-desk";
import { JudgeDesk } from "./judge-desk";

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
  const gone = await delivered(slug);
  if (gone)
    return (
      <>
        <h1>Landing points</h1>
        <EndedDesk
          slug={slug}
          owner={gone.actor.badgeId}
          how={gone.over.how}
          at={gone.over.at.toISOString()}
          delivered={gone.delivered}
          sequence={(await overview(slug)).sequence}
        />
      </>
    );
  const { given, label } = await judgesRound(slug, round);
  return (
    <>
      <h1>Landing points</h1>
      <JudgeDesk key={given.initial.round} label={label} {...given} />
    </>
  );
}
