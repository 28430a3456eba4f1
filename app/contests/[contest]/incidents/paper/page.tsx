import Link from "next/link";
import form from "@/app/_ui/paper-form.module.css";
import { BlankLines, Blanks } from "@/app/_ui/paper-lines";
import { PrintButton } from "@/app/_ui/print-button";
import { allowed, overview, titled } from "@/app/_ui/reading";
import { WrittenLines } from "@/app/_ui/written-lines";
import { FOUND_WORDS, PART_WORDS, PLACE_WORDS } from "../words";
import styles from "./incident-paper.module.css";

export const generateMetadata = titled("Incident form");

const PIECES = 6;
const boxes = (words: Record<string, string>) =>
  Object.values(words)
    .map((text) => `☐ ${text}`)
    .join("   ");

/** What is to be written down beside the machine, in the order in which it is typed in later. */
export default async function IncidentPaper({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer", "judge"]);
  const contest = await overview(slug);
  const pegs = contest.controlPoints.filter(({ retired }) => !retired).map(({ name }) => name);
  const back = who.role === "judge" ? "incidents/new" : "incidents";
  return (
    <>
      <h1>Incident</h1>
      <p className={form.words}>
        {contest.name}. Help first; horn, flag and radio hold the range. Leave everything as it lies until it
        is measured. This sheet goes to the safety officer alone and is kept with the papers that name people.
      </p>
      <p className="button-row no-print">
        <PrintButton>Print this form</PrintButton>
        <Link className="button button-plain" href={`/contests/${slug}/${back}`}>
          Back
        </Link>
      </p>
      <Blanks of={["Day, time seen", "Seen by (role or post)"]} />
      <Blanks of={["Machine", "Firing point, bearing"]} />
      <p className={form.words}>Is anybody hurt? ☐ Nobody ☐ Somebody ☐ Not known</p>
      <Blanks of={["Called for help at", "Wind, gust"]} />
      <p className={form.words}>What failed? {boxes(PART_WORDS)}</p>
      <BlankLines
        label="Places"
        caption={
          <>
            Where pieces came down. What: {boxes(FOUND_WORDS)} Place: {boxes(PLACE_WORDS)} From: firing point
            {pegs.length > 0 && ` or peg (${pegs.join(", ")})`}
          </>
        }
        heads={[
          "What, which place",
          "From",
          "Distance ±",
          "Bearing ±, true or magnetic",
          "Or latitude, longitude ±",
        ]}
        lines={PIECES}
        className={styles.places}
      />
      <p className={form.words}>
        What happened, what was heard and seen before, what was on the machine. Names of people only on the
        back.
      </p>
      <div className={styles.room} />
      <WrittenLines caption="Written down and handed over" rows={["Who saw it", "Safety officer"]} />
    </>
  );
}
