"use client";
/** What stands at the head of the log: which round, which day, how it was measured, who saw it. */
import Link from "next/link";
import { useEffect, useState } from "react";
import { SelectField, TextField } from "@/app/_ui/field";
import { serverNow } from "@/app/_ui/offline/clock";
import { contestDays, longDay } from "@/app/_ui/words";
import type { FixMethod } from "@/lib/survey";
import { PAPER_METHODS, WITNESS_COLUMN } from "../../landing-log/columns";
import styles from "./paper.module.css";
import { clockHere, type Days, type PaperHead } from "./paper-row";

export function PaperHeadFields({
  slug,
  round,
  rounds,
  head,
  days,
  error,
  onChange,
}: {
  slug: string;
  round: number;
  rounds: readonly number[];
  head: PaperHead;
  days: Days;
  error: string | null;
  onChange: (part: Partial<PaperHead>) => void;
}) {
  const others = rounds.filter((one) => one !== round);
  // Known once the browser has said where here is.
  const [today, setToday] = useState<string | undefined>(undefined);
  const [zone, setZone] = useState("");
  useEffect(() => {
    setToday(clockHere(serverNow()).day);
    setZone(zoneText());
  }, []);
  return (
    <>
      {others.length > 0 && (
        <p className="button-row">
          {others.map((one) => (
            <Link
              key={one}
              className="button button-plain"
              href={`/contests/${slug}/judge/paper?round=${one}&method=${head.method}`}
              prefetch={false}
            >
              Round {one}
            </Link>
          ))}
        </p>
      )}
      <h2>Round {round}</h2>
      <div className={styles.head}>
        <TextField
          id="paper-day"
          type="date"
          label="Day"
          help={`${head.day === "" ? "" : `${longDay(head.day)}. `}As on the log. The contest: ${contestDays(days)}. Times are read as clocks show them here${zone}.`}
          max={today}
          value={head.day}
          onChange={(event) => onChange({ day: event.target.value })}
          error={error}
        />
        <SelectField
          id="paper-method"
          label="Measured by"
          help="As printed. For a line that was measured otherwise choose that, and save the line before you go on."
          value={head.method}
          onChange={(event) => onChange({ method: event.target.value as FixMethod })}
          choices={PAPER_METHODS.map(({ method, title }) => ({ value: method, label: title }))}
        />
        <TextField
          id="paper-witness"
          label={`${WITNESS_COLUMN} of lines that name none`}
          help="A post or a role, no person’s name."
          optional
          value={head.witness}
          onChange={(event) => onChange({ witness: event.target.value })}
        />
      </div>
    </>
  );
}

/** " (UTC+2)". */
function zoneText(): string {
  const hours = -new Date().getTimezoneOffset() / 60;
  return ` (UTC${hours === 0 ? "" : `${hours > 0 ? "+" : "−"}${Math.abs(hours)}`})`;
}
