import { PrintButton } from "@/app/_ui/print-button";
import { overview, titled } from "@/app/_ui/reading";
import { contestDays } from "@/app/_ui/words";
import { WrittenLines } from "@/app/_ui/written-lines";
import { KEEP_DAYS } from "@/lib/api/contracts";
import { consentText } from "@/lib/contest/guardian-consent";

export const generateMetadata = titled("A guardian’s consent");

type Props = {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
};

/** What a minor's guardian signs by hand; the organiser marks it as seen. Nothing that is written on it is kept here. */
export default async function ConsentForm({ params, searchParams }: Props) {
  const contest = await overview((await params).contest);
  const asked = Number((await searchParams).days);
  const keepDays = Number.isInteger(asked) && asked > 0 && asked <= 730 ? asked : KEEP_DAYS;
  return (
    <>
      <h1>A guardian’s consent</h1>
      <p className="button-row no-print">
        <PrintButton>Print this form</PrintButton>
      </p>
      <p>
        {contest.name}, {contestDays(contest)}. One form a minor.
      </p>
      <p>Team ________________________________________</p>
      <p>Minor’s name ________________________________________</p>
      <p>Guardian’s name ________________________________________</p>
      <p>Guardian’s telephone during the contest ________________________________________</p>
      <p>{consentText({ contest: contest.name, days: contestDays(contest), keepDays })}</p>
      <WrittenLines caption="Signed" rows={["Guardian", "Seen by the organiser"]} />
    </>
  );
}
