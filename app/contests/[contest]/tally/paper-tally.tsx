"use client";
import { instantOf } from "@/app/_ui/clock-fields";
/** Lines of a tally that was kept on paper, written in when everybody is back. */
import { TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { TagInfo } from "@/lib/api/contracts";

export const PaperTally = ({ slug, onDone }: { slug: string; onDone: () => void }) => (
  <details>
    <summary>Write in a tally from paper</summary>
    <p>
      One line after the other. Whoever is still out is tagged out above: these lines are of people who are
      back.
    </p>
    <WriteForm<TagInfo>
      label="Tally from paper"
      url={`/api/v1/contests/${slug}/range/tags/paper`}
      fields={["name", "number", "outAt", "inAt", "witness"]}
      refresh={false}
      body={(form) => {
        const [outAt, inAt] = [instantOf(textOf(form, "outAt")), instantOf(textOf(form, "inAt"))];
        if (!outAt || !inAt) return "Out at, in at: give both with day and time, as they stand on the sheet.";
        const who = textOf(form, "who");
        return {
          ...(/^\d+$/.test(who) ? { number: who } : who !== "" && { name: who }),
          outAt,
          inAt,
          witness: textOf(form, "witness"),
        };
      }}
      submit="Write this line in"
      onDone={onDone}
      done={() => <p>It is written in. The next line?</p>}
    >
      {(errorFor) => (
        <>
          <TextField
            id="paper-who"
            name="who"
            label="Name, or number of the tag, on the sheet"
            required
            error={errorFor("name") ?? errorFor("number")}
          />
          <TextField
            id="paper-out"
            name="outAt"
            type="datetime-local"
            label="Out at"
            required
            error={errorFor("outAt")}
          />
          <TextField
            id="paper-in"
            name="inAt"
            type="datetime-local"
            label="In at"
            required
            error={errorFor("inAt")}
          />
          <TextField
            id="paper-witness"
            name="witness"
            label="Who kept the sheet"
            help="A role or a post, no person’s name."
            required
            maxLength={80}
            error={errorFor("witness")}
          />
        </>
      )}
    </WriteForm>
  </details>
);
