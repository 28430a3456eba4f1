import { judgesRound, overview, roundAsked, titled } from "@/app/_ui/reading";
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
  const { date, lastDate } = await overview(slug);
  const { given } = await judgesRound(slug, roundAsked(asked));
  return (
    <>
      <h1>Landing log, typed in</h1>
      <PaperDesk
        key={given.initial.round}
        {...given}
        days={{ date, lastDate }}
        method={isPaperMethod(asked.method) ? asked.method : null}
      />
    </>
  );
}
