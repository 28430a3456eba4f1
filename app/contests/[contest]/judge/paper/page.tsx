import { overview, reading, roundAsked, titled } from "@/app/_ui/reading";
import { judgeView } from "@/lib/contest";
import { isPaperMethod } from "../../landing-log/columns";
import { PaperDesk } from "./paper-desk";

export const generateMetadata = titled("Landing log typed in");

/** A landing log that was filled in by hand, typed in line by line. */
export default async function PaperPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  const asked = await searchParams;
  const { sequence, date, lastDate } = await overview(slug);
  const { view, who } = await reading(async (db, asker) => ({
    view: await judgeView(db, asker, slug, roundAsked(asked)),
    who: asker,
  }));
  return (
    <>
      <h1>Landing log, typed in</h1>
      <PaperDesk
        key={view.round}
        slug={slug}
        initial={view}
        days={{ date, lastDate }}
        method={isPaperMethod(asked.method) ? asked.method : null}
        owner={who?.role === "judge" ? who.badgeId : null}
        madeAt={new Date().toISOString()}
        sequence={sequence}
      />
    </>
  );
}
