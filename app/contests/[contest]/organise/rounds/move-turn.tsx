"use client";
/** Pass a turn over, or put it after another one; folded away until it is needed. */
import { SelectField, TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { FiringOrder, TurnInfo } from "@/lib/api/contracts";

const LAST = "last";

export function MoveTurn({
  slug,
  turn,
  turns,
  onDone,
}: {
  slug: string;
  turn: TurnInfo;
  /** Those to come. */
  turns: readonly TurnInfo[];
  onDone: () => Promise<void>;
}) {
  const id = `move-${turn.shotId}`;
  const name = `${turn.entrantNumber} ${turn.entrantName}, round ${turn.round}`;
  const choices = turns
    .filter(({ shotId, stage }) => shotId !== turn.shotId && stage >= turn.round)
    .map((other) => ({
      value: other.shotId,
      label: `after ${other.entrantNumber} ${other.entrantName}, round ${other.stage}`,
    }));
  return (
    <details>
      <summary>
        Pass over or move<span className="aloud"> {name}</span>
      </summary>
      <WriteForm<FiringOrder>
        label={`Move ${name}`}
        method="PUT"
        url={`/api/v1/contests/${slug}/turns/${turn.shotId}/place`}
        fields={["after", "reason"]}
        body={(form) => ({
          after: textOf(form, "after") === LAST ? null : textOf(form, "after"),
          reason: textOf(form, "reason"),
        })}
        submit="Move it"
        look="plain"
        done={() => <p>Moved. Nobody else changed places.</p>}
        onDone={() => void onDone()}
      >
        {(errorFor) => (
          <>
            <SelectField
              id={id}
              name="after"
              label="It comes"
              choices={[{ value: LAST, label: "last in this round (passed over)" }, ...choices]}
              error={errorFor("after")}
            />
            <TextField id={`${id}-reason`} name="reason" label="Why" required error={errorFor("reason")} />
          </>
        )}
      </WriteForm>
    </details>
  );
}
