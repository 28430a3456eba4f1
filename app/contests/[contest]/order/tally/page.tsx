import form from "@/app/_ui/paper-form.module.css";
import { PrintButton } from "@/app/_ui/print-button";
import { overview, titled } from "@/app/_ui/reading";
import { longDay } from "@/app/_ui/words";
import styles from "../paper.module.css";

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
      <dl className={styles.head}>
        <div>
          <dt>Day</dt>
          <dd>{oneDay ? longDay(contest.date) : ""}</dd>
        </div>
        <div>
          <dt>Post</dt>
          <dd />
        </div>
        <div>
          <dt>Sheet</dt>
          <dd />
        </div>
      </dl>
      <div className="table-frame" role="region" aria-label="Tally" tabIndex={0}>
        <table className={`table ${styles.lines} ${styles.tally}`}>
          <thead>
            <tr>
              <th scope="col">No.</th>
              <th scope="col">Tag</th>
              <th scope="col">Who, for what</th>
              <th scope="col">Out at</th>
              <th scope="col">In at</th>
            </tr>
          </thead>
          <tbody>
            {Array.from({ length: LINES }, (_, line) => (
              <tr key={`line ${line + 1}`}>
                <th scope="row">{line + 1}</th>
                <td />
                <td />
                <td />
                <td />
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <dl className={styles.head}>
        <div>
          <dt>Out, in, missing</dt>
          <dd />
        </div>
        <div>
          <dt>Read aloud by (two posts)</dt>
          <dd />
        </div>
      </dl>
    </>
  );
}
