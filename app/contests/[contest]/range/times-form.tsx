"use client";
/** How long silence, a clear and a misfire last: the safety officer's. */
import { TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { RangeTimes } from "@/lib/api/contracts";

const ASKED = [
  [
    "silence",
    1,
    "Silence, seconds",
    "A post’s phone or the page that keeps the range hot counts as lost after this.",
  ],
  ["clearLasts", 60, "A clear counts, minutes", "Then the post looks and says it again before hot."],
  [
    "misfireWait",
    60,
    "Wait after a misfire, minutes",
    "Nobody goes near before. Take the machine’s own paper if it says more.",
  ],
] as const;

export function TimesForm({ slug, times }: { slug: string; times: RangeTimes }) {
  return (
    <details>
      <summary>Times of the range</summary>
      <p>The usual ones are common practice, no source: the safety officer sets them.</p>
      <WriteForm<RangeTimes>
        label="Times of the range"
        method="PUT"
        url={`/api/v1/contests/${slug}/range/times`}
        fields={["reason", ...ASKED.map(([key]) => `times.${key}`)]}
        body={(form) => ({
          times: Object.fromEntries(
            ASKED.map(([key, unit]) => [key, Number(textOf(form, key).replace(",", ".")) * unit]),
          ),
          reason: textOf(form, "reason"),
        })}
        submit="Set the times"
        done={() => <p>The times are set.</p>}
      >
        {(errorFor) => (
          <>
            {ASKED.map(([key, unit, label, help]) => (
              <TextField
                key={key}
                id={`times-${key}`}
                name={key}
                label={label}
                help={help}
                inputMode="decimal"
                defaultValue={String(times[key] / unit)}
                required
                error={errorFor(`times.${key}`)}
              />
            ))}
            <TextField id="times-reason" name="reason" label="Why" required error={errorFor("reason")} />
          </>
        )}
      </WriteForm>
    </details>
  );
}
