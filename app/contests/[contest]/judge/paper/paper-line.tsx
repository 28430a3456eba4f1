"use client";
/** One line of the log: its fields in the order in which they are printed, or what is entered of the shot already. */
import Link from "next/link";
import { Button } from "@/app/_ui/button";
import { SelectField, TextField } from "@/app/_ui/field";
import { useUnits } from "@/app/_ui/units";
import { bearingText, instantText, OUTCOME_WORDS, toConfirmWords } from "@/app/_ui/words";
import type { FixMethod } from "@/lib/survey";
import { OUTCOME_COLUMN, TIME_COLUMN, WITNESS_COLUMN } from "../../landing-log/columns";
import { type Complaints, fieldsOf } from "../draft";
import type { JudgeShot, Range } from "../entry";
import { MethodFields } from "../method-fields";
import type { KeptEntry } from "../outbox";
import { answerWords } from "../saved-panel";
import styles from "./paper.module.css";
import { emptyRow, type PaperRow } from "./paper-row";

export function PaperLine({
  slug,
  shot,
  range,
  method,
  witness,
  row,
  kept,
  complaints,
  onChange,
}: {
  slug: string;
  shot: JudgeShot;
  range: Range;
  method: FixMethod;
  /** Of lines that name none. */
  witness: string;
  /** What is typed; null before anything is. */
  row: PaperRow | null;
  /** An entry of this shot that only this phone has. */
  kept: KeptEntry | null;
  complaints: Complaints;
  onChange: (row: PaperRow | null) => void;
}) {
  const system = useUnits();
  const id = (field: string) => `${shot.id}.${field}`;
  const entered = shot.fix !== null || kept !== null;
  const title = `${shot.position}. ${shot.entrantNumber} ${shot.entrantName}`;
  return (
    <li>
      <fieldset className={styles.line} data-entered={entered || undefined}>
        <legend>
          {title}
          <span>
            {" "}
            firing point {shot.firingPointNumber}, {bearingText(shot.bearing)}
          </span>
        </legend>
        {kept && (
          <p>
            On this phone, not at the server yet: <strong>{kept.result}</strong>.
          </p>
        )}
        {shot.fix && (
          <p>
            Entered: <strong>{answerWords(shot.fix, system)}</strong> by {shot.fix.by}, seen{" "}
            {instantText(shot.fix.observedAt)}
            {shot.fix.witness && `, witness ${shot.fix.witness}`}.{" "}
            <Link href={`/contests/${slug}/shots/${shot.id}`} prefetch={false}>
              History of this shot
            </Link>
          </p>
        )}
        {shot.toConfirm > 0 && <p>{toConfirmWords(shot.toConfirm)}.</p>}
        {entered && row === null ? (
          <Button aria-label={`Type in another entry of it: ${title}`} onClick={() => onChange(emptyRow)}>
            Type in another entry of it
          </Button>
        ) : (
          <Cells
            id={id}
            shot={shot}
            range={range}
            method={method}
            witness={witness}
            row={row ?? emptyRow}
            complaints={complaints}
            onChange={onChange}
          />
        )}
        {entered && row !== null && (
          <Button look="quiet" aria-label={`Leave it as it is: ${title}`} onClick={() => onChange(null)}>
            Leave it as it is
          </Button>
        )}
      </fieldset>
    </li>
  );
}

function Cells({
  id,
  shot,
  range,
  method,
  witness,
  row,
  complaints,
  onChange,
}: {
  id: (field: string) => string;
  shot: JudgeShot;
  range: Range;
  method: FixMethod;
  witness: string;
  row: PaperRow;
  complaints: Complaints;
  onChange: (row: PaperRow) => void;
}) {
  const change = (part: Partial<PaperRow>) => onChange({ ...row, ...part });
  return (
    <div className={styles.cells}>
      <SelectField
        id={id("outcome")}
        label={OUTCOME_COLUMN}
        value={row.outcome}
        onChange={(event) => change({ outcome: event.target.value as PaperRow["outcome"] })}
        error={complaints.outcome ?? null}
        choices={Object.entries(OUTCOME_WORDS).map(([value, label]) => ({ value, label }))}
      />
      {row.outcome === "landed" && (
        <div className={styles.numbers}>
          <MethodFields
            key={method}
            fields={fieldsOf(method)}
            values={row.values[method] ?? {}}
            onChange={(values) => change({ values: { ...row.values, [method]: values } })}
            complaints={Object.fromEntries(
              Object.entries(complaints).map(([name, text]) => [id(name), text]),
            )}
            shot={shot}
            range={range}
            path={id("")}
            terse
          />
        </div>
      )}
      <TextField
        id={id("time")}
        label={TIME_COLUMN}
        inputMode="decimal"
        placeholder="10:42"
        value={row.time}
        onChange={(event) => change({ time: event.target.value })}
        error={complaints.time ?? null}
      />
      <TextField
        id={id("witness")}
        label={WITNESS_COLUMN}
        optional={witness.trim() !== ""}
        placeholder={witness}
        value={row.witness}
        onChange={(event) => change({ witness: event.target.value })}
        error={complaints.witness ?? null}
      />
    </div>
  );
}
