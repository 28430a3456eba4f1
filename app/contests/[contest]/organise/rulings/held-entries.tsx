"use client";
/** Entries of ended badges, each with what an official needs to decide about it, and the form that does. */
import Link from "next/link";
import { useState } from "react";
import { bothUnits } from "@/app/_ui/both-units";
import { SelectField, TextField } from "@/app/_ui/field";
import { useUnits } from "@/app/_ui/units";
import { ENDED_WORDS, instantText } from "@/app/_ui/words";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { FixAnswer, HeldFixes, ShotInfo } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import { measuredWords, type PegNames } from "../../shots/[shot]/measured";
import { shotResult } from "./shot-result";

export function HeldEntries({
  slug,
  waiting,
  pegs,
}: {
  slug: string;
  waiting: HeldFixes["waiting"];
  pegs: PegNames;
}) {
  const system = useUnits();
  const [said, setSaid] = useState("");
  return (
    <section>
      <h2>To confirm</h2>
      <p aria-live="polite">{said}</p>
      {waiting.length === 0 ? (
        <p>Nothing waits. What an ended badge had seen before and delivers later is confirmed here.</p>
      ) : (
        <p>
          These came from badges that had ended, or were revoked, before they arrived. When each was seen is
          what its phone says, and nobody else has vouched for it: ask who saw the shot, and compare before
          you confirm.
        </p>
      )}
      {waiting.map(({ fix, shot }) => (
        <article key={fix.id}>
          <h3>
            <Link href={`/contests/${slug}/shots/${shot.id}`} prefetch={false}>
              Round {shot.round}, {shot.entrantNumber} {shot.entrantName}
            </Link>
            : {fix.mark === null ? fix.outcome : bothUnits(fix.mark, "distance", system, { digits: 2 })}
          </h3>
          <HeldFacts fix={fix} shot={shot} system={system} pegs={pegs} />
          <WriteForm<FixAnswer>
            label={`Decide about round ${shot.round}, ${shot.entrantName}, seen ${instantText(fix.observedAt)}`}
            url={`/api/v1/contests/${slug}/held-fixes/${fix.id}/decision`}
            fields={["decision", "reason"]}
            body={(form) => ({ decision: textOf(form, "decision"), reason: textOf(form, "reason") })}
            submit="Record this decision"
            // The page comes anew without this entry.
            onDone={({ held }) =>
              setSaid(`Recorded: ${held?.state}. Round ${shot.round}, ${shot.entrantName}.`)
            }
          >
            {(errorFor) => (
              <>
                <SelectField
                  id={`held-decision-${fix.id}`}
                  name="decision"
                  label="Decision"
                  error={errorFor("decision")}
                  choices={[
                    { value: "", label: "Choose" },
                    { value: "confirmed", label: "Confirmed: it counts from now on" },
                    { value: "rejected", label: "Rejected: it never counts" },
                  ]}
                />
                <TextField
                  id={`held-reason-${fix.id}`}
                  name="reason"
                  label="Reason of the decision"
                  help="Stands in the scorebook for good; no person’s name."
                  required
                  error={errorFor("reason")}
                />
              </>
            )}
          </WriteForm>
        </article>
      ))}
    </section>
  );
}

function HeldFacts({
  fix,
  shot,
  system,
  pegs,
}: {
  fix: FixAnswer;
  shot: ShotInfo;
  system: UnitSystem;
  pegs: PegNames;
}) {
  const { input, held } = fix;
  const rethrow = shot.ruling?.decision === "re-throw" ? shot.ruling : null;
  return (
    <ul>
      <li>
        By {fix.by}, whose badge {held && `${ENDED_WORDS[held.ended]} at ${instantText(held.endedAt)}`}. Seen{" "}
        {instantText(fix.observedAt)}, arrived {held && instantText(held.arrivedAt)}.
      </li>
      {input.outcome === "landed" && <li>{measuredWords(input, system, pegs)}.</li>}
      {fix.witness && <li>Witness: {fix.witness}.</li>}
      <li>
        {fix.replacesId === null
          ? `The shot has now: ${shotResult(shot, system)}. Confirmed, this is one more entry of it.`
          : `It corrects an entry of the shot, which has now: ${shotResult(shot, system)}. Reason given: ${fix.reason}`}
      </li>
      {rethrow && rethrow.createdAt > fix.observedAt && (
        <li>
          <strong>
            A re-throw was ruled at {instantText(rethrow.createdAt)}, after this was seen: it may be of the
            throw that counts no more.
          </strong>
        </li>
      )}
      {fix.flags.map(({ code, text }) => (
        <li key={code}>Looked odd: {text}</li>
      ))}
    </ul>
  );
}
