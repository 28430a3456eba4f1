/** For whoever inspects and signs: the team declared the machine while STOP stood on its own practice throws. */
import { Caution } from "@/app/_ui/caution";
import { practiceStopIn } from "@/lib/inspection";

export function PracticeStop({ revisions }: { revisions: readonly { number: number; note: string }[] }) {
  const found = practiceStopIn(revisions);
  if (!found) return null;
  return (
    <Caution
      kind="prohibition"
      title={`throw before it is known why: STOP stood when revision ${found.number} was declared`}
    >
      <p>{found.note}</p>
      <p>
        A practice throw went farther than the machine can by its numbers, or was not judged; its team had
        answered none of it then. Ask what was found since, and see it thrown or measured: its hazard sheet
        follows from the same numbers.
      </p>
    </Caution>
  );
}
