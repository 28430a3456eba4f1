import form from "@/app/_ui/paper-form.module.css";
import { BlankLines, Blanks } from "@/app/_ui/paper-lines";
import styles from "@/app/_ui/paper-lines.module.css";
import { PrintButton } from "@/app/_ui/print-button";
import { overview, titled } from "@/app/_ui/reading";
import { longDay } from "@/app/_ui/words";

export const generateMetadata = titled("Tally sheet");

/** So many fit on one side of A4 and of Letter. */
const LINES = 20;

/** For the post at the line: who went downrange with which tag, and who is back. Filled in by hand. */
export default async function TallyPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const contest = await overview(slug);
  const oneDay = !contest.lastDate || contest.lastDate === contest.date;
  return (
    <>
      <h1>Tally: who is downrange</h1>
      <p className={form.words}>
        {contest.name}. A line for each tag that goes out, a time for each that comes back. The range goes hot
        only when every line has its time in, read aloud by two people. A tag that is missing counts as a
        person downrange. Write tag numbers or names; this sheet stays with the officials and is destroyed
        with the other papers that name people.
      </p>
      <p className="no-print">
        <PrintButton>Print this sheet</PrintButton>
      </p>
      <Blanks of={[{ label: "Day", value: oneDay ? longDay(contest.date) : "" }, "Post", "Sheet"]} />
      <BlankLines
        label="Tally"
        heads={["Tag", "Who, for what", "Out at", "In at"]}
        lines={LINES}
        className={styles.tally}
      />
      <Blanks of={["Out, in, missing", "Read aloud by (two posts)"]} />
    </>
  );
}
