"use client";
import Link from "next/link";
import { SelectField, TextField } from "@/app/_ui/field";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import { DECISION_WORDS } from "@/app/_ui/words";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { RulingInfo, ShotInfo } from "@/lib/api/contracts";
import styles from "../organise.module.css";
import { shotResult } from "./shot-result";

interface RuledEntrant {
  id: string;
  number: number;
  name: string;
  status: string;
}

/** "stands 8f3c…" says which entry counts; what follows the word is its id. */
const standing = (fixId: string) => `stands ${fixId}`;
const decisionOf = (text: string) => {
  const [decision, fixId] = text.split(" ");
  return { decision, ...(fixId && { fixId }) };
};

interface Choice {
  value: string;
  label: string;
}

/** One ruling, on a team or on a shot. */
function RulingForm({
  of,
  at = "",
  slug,
  subject,
  subjects,
  decisions,
}: {
  of: "team" | "shot";
  /** Tells apart two forms on the page. */
  at?: string;
  slug: string;
  subject: "entrantId" | "shotId";
  subjects: Choice[];
  decisions: Choice[];
}) {
  return (
    <WriteForm<RulingInfo>
      label={at ? `Choose the entry that counts: ${subjects[0]?.label}` : `Rule on a ${of}`}
      url={`/api/v1/contests/${slug}/rulings`}
      fields={[subject, "decision", "reason"]}
      body={(form) => ({
        [subject]: textOf(form, subject),
        ...decisionOf(textOf(form, "decision")),
        reason: textOf(form, "reason"),
      })}
      submit="Record this ruling"
      done={({ decision }) => <p>Recorded: {DECISION_WORDS[decision]}.</p>}
    >
      {(errorFor) => (
        <>
          <SelectField
            id={`${of}-subject${at}`}
            name={subject}
            label={of === "team" ? "Team" : "Shot"}
            error={errorFor(subject)}
            choices={subjects}
          />
          <SelectField
            id={`${of}-decision${at}`}
            name="decision"
            label="Ruling"
            error={errorFor("decision")}
            choices={decisions}
          />
          <TextField
            id={`${of}-reason${at}`}
            name="reason"
            label="Reason"
            help="Stands in the scorebook for good; no person’s name."
            required
            error={errorFor("reason")}
          />
        </>
      )}
    </WriteForm>
  );
}

export function RulingForms({
  slug,
  entrants,
  shots,
}: {
  slug: string;
  entrants: readonly RuledEntrant[];
  shots: readonly ShotInfo[];
}) {
  const system = useUnits();
  const disputed = shots.filter(({ result }) => result.how === "disagree");
  const ruled = shots.filter(({ ruling }) => ruling !== null);
  const numbered = [...entrants].sort((a, b) => a.number - b.number);
  return (
    <>
      <div className={styles.two}>
        <section>
          <h2>On a team</h2>
          {entrants.length === 0 ? (
            <p>No team is entered yet.</p>
          ) : (
            <RulingForm
              of="team"
              slug={slug}
              subject="entrantId"
              subjects={numbered.map(({ id, number, name, status }) => ({
                value: id,
                label: `${number} ${name}${status === "DNS" || status === "DNF" ? ` (${status})` : ""}`,
              }))}
              decisions={[
                { value: "dns", label: "DNS: did not start" },
                { value: "dnf", label: "DNF: did not finish" },
                { value: "competing", label: "Competing after all" },
              ]}
            />
          )}
        </section>
        <section>
          <h2>On a shot</h2>
          {shots.length === 0 ? (
            <p>No shot is in a firing order yet.</p>
          ) : (
            <RulingForm
              of="shot"
              slug={slug}
              subject="shotId"
              subjects={[...shots].reverse().map((shot) => ({
                value: shot.id,
                label: `Round ${shot.round}, ${shot.entrantNumber} ${shot.entrantName}: ${shotResult(shot, system)}`,
              }))}
              decisions={[
                { value: "foul", label: "Foul: its mark does not count" },
                { value: "stands", label: "It stands as measured" },
                { value: "re-throw", label: "Re-throw: what is entered so far does not count" },
              ]}
            />
          )}
        </section>
      </div>
      {disputed.length > 0 && (
        <section>
          <h2>Which entry counts</h2>
          {disputed.map((shot) => (
            <div key={shot.id}>
              <p>
                <Link href={`/contests/${slug}/shots/${shot.id}`} prefetch={false}>
                  Round {shot.round}, {shot.entrantNumber} {shot.entrantName}
                </Link>
                : {shot.result.text}
              </p>
              <RulingForm
                of="shot"
                at={shot.id}
                slug={slug}
                subject="shotId"
                subjects={[{ value: shot.id, label: `Round ${shot.round}, ${shot.entrantName}` }]}
                decisions={shot.result.fixIds.map((id, index) => ({
                  value: standing(id),
                  label: `Entry ${index + 1} of ${shot.result.fixIds.length}, newest first`,
                }))}
              />
            </div>
          ))}
        </section>
      )}
      <h2>Shots ruled on</h2>
      <Table
        caption="Shots ruled on"
        hideCaption
        rows={ruled}
        rowKey={({ id }) => id}
        empty="No shot is ruled on. Teams that did not start or finish show in the standings."
        columns={[
          {
            key: "shot",
            head: "Shot",
            rowHead: true,
            cell: (shot) => (
              <Link href={`/contests/${slug}/shots/${shot.id}`} prefetch={false}>
                Round {shot.round}, {shot.entrantNumber} {shot.entrantName}
              </Link>
            ),
          },
          { key: "measured", head: "Measured", cell: (shot) => shotResult(shot, system) },
          {
            key: "ruling",
            head: "Ruling",
            cell: ({ ruling }) =>
              ruling && `${DECISION_WORDS[ruling.decision]}: ${ruling.reason} (${ruling.by})`,
          },
        ]}
      />
    </>
  );
}
