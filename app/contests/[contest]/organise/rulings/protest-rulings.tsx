"use client";
/** Protests with their answers, and the form that answers one: with what it does to its shot, or by word alone. */
import Link from "next/link";
import { useState } from "react";
import { SelectField, TextField } from "@/app/_ui/field";
import { DECISION_WORDS, instantText } from "@/app/_ui/words";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { ProtestInfo, RulingInfo, ShotInfo } from "@/lib/api/contracts";

const ALONE = [
  { value: "dismissed", label: "Dismissed: all stays as it is" },
  { value: "upheld", label: "Upheld: an entry is corrected, or a team is ruled on" },
];
const WITH_SHOT = [
  ...ALONE,
  { value: "foul", label: "Upheld: the shot is a foul" },
  { value: "re-throw", label: "Upheld: the shot is thrown again" },
  { value: "stands", label: "The shot stands as measured" },
];

export function ProtestRulings({
  slug,
  protests,
  shots,
  teams,
}: {
  slug: string;
  protests: readonly ProtestInfo[];
  shots: readonly ShotInfo[];
  teams: readonly { id: string; name: string }[];
}) {
  const open = protests.filter(({ ruling }) => ruling === null);
  const [chosen, setChosen] = useState("");
  const current = open.find(({ id }) => id === chosen) ?? open[0];
  const team = (id: string) => teams.find((each) => each.id === id)?.name ?? "";
  const about = ({ shotId }: ProtestInfo) => {
    const shot = shots.find(({ id }) => id === shotId);
    return shot ? `round ${shot.round}, ${shot.entrantName}` : "the standings";
  };
  return (
    <section>
      <h2>Protests</h2>
      {protests.length === 0 && (
        <p>No protest is entered. A team or an official enters one on the page of the shot.</p>
      )}
      <ul>
        {protests.map((one) => (
          <li key={one.id}>
            {team(one.entrantId)} against{" "}
            {one.shotId ? (
              <Link href={`/contests/${slug}/shots/${one.shotId}`} prefetch={false}>
                {about(one)}
              </Link>
            ) : (
              about(one)
            )}
            , {instantText(one.createdAt)}: {one.text}{" "}
            {one.ruling ? (
              <>
                Answered: {DECISION_WORDS[one.ruling.decision]}. {one.ruling.reason} ({one.ruling.by})
              </>
            ) : (
              <strong>Not answered yet.</strong>
            )}
          </li>
        ))}
      </ul>
      {current && (
        <WriteForm<RulingInfo>
          label="Answer a protest"
          url={`/api/v1/contests/${slug}/rulings`}
          fields={["protestId", "decision", "reason"]}
          body={(form) => {
            const decision = textOf(form, "decision");
            const byWord = ALONE.some(({ value }) => value === decision);
            return {
              protestId: current.id,
              ...(!byWord && current.shotId && { shotId: current.shotId }),
              decision,
              reason: textOf(form, "reason"),
            };
          }}
          submit="Record this answer"
          done={({ decision }) => <p>Recorded: {DECISION_WORDS[decision]}.</p>}
        >
          {(errorFor) => (
            <>
              <SelectField
                id="protest-answered"
                label="Protest"
                value={current.id}
                onChange={(event) => setChosen(event.target.value)}
                error={errorFor("protestId")}
                choices={open.map((one) => ({
                  value: one.id,
                  label: `${team(one.entrantId)} against ${about(one)}`,
                }))}
              />
              <SelectField
                id="protest-decision"
                name="decision"
                label="Answer"
                error={errorFor("decision")}
                choices={current.shotId ? WITH_SHOT : ALONE}
              />
              <TextField
                id="protest-reason"
                name="reason"
                label="Reason of the answer"
                help="Stands in the scorebook for good; no person’s name."
                required
                error={errorFor("reason")}
              />
            </>
          )}
        </WriteForm>
      )}
    </section>
  );
}
