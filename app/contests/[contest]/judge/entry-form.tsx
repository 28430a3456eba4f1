"use client";
/** What happened to one shot, in as few touches as it takes, with the mark shown before it is saved. */
import { useEffect, useRef, useState } from "react";
import { otherSystem } from "@/app/_ui/both-units";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { SelectField, TextField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { serverNow } from "@/app/_ui/offline/clock";
import { PositionField } from "@/app/_ui/position-field";
import { QuantityField } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import type { FixAnswer, Problem } from "@/lib/api/contracts";
import { formatQuantity } from "@/lib/units";
import { entryFor } from "./assign";
import { loadDraft, saveDraft } from "./drafts";
import {
  type Complaints,
  type Draft,
  emptyDraft,
  formField,
  type JudgeShot,
  type Reading,
  readDraft,
} from "./entry";
import styles from "./judge.module.css";
import type { KeptEntry } from "./outbox";

export function EntryForm({
  slug,
  shot,
  declination,
  correcting,
  owner,
  problem,
  onSave,
  onCancel,
}: {
  slug: string;
  shot: JudgeShot;
  /** Degrees, east positive; added to a magnetic bearing. */
  declination: number;
  /** The entry that this one replaces. */
  correcting: FixAnswer | null;
  /** The badge that saves; null for who may only look. */
  owner: string | null;
  problem: Problem | null;
  /** Answers the refusal that the form must deal with; null when the entry is out of its hands. */
  onSave: (entry: KeptEntry) => Promise<Problem | null>;
  onCancel: () => void;
}) {
  const system = useUnits();
  const [draft, setDraft] = useState<Draft>(emptyDraft);
  const [loaded, setLoaded] = useState(false);
  const [tried, setTried] = useState(false);
  const [sending, setSending] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  const reading = readDraft(draft, shot, declination, correcting !== null, system);
  const complaints = complaintsOf(reading, tried, problem);

  const change = (part: Partial<Draft>) => setDraft((now) => ({ ...now, ...part }));
  // After the first picture, which must agree with the server's.
  useEffect(() => {
    setDraft(loadDraft(slug, shot.id));
    setLoaded(true);
  }, [slug, shot.id]);
  useEffect(() => {
    if (loaded) saveDraft(slug, shot.id, draft);
  }, [loaded, slug, shot.id, draft]);
  useEffect(() => {
    if (problem) focusFirst(form.current);
  }, [problem]);

  const save = async () => {
    setTried(true);
    if (sending) return;
    if (!reading.ok) {
      // After the complaints are on the page.
      requestAnimationFrame(() => focusFirst(form.current));
      return;
    }
    setSending(true);
    const observedAt = serverNow().toISOString();
    const refused = await onSave(
      entryFor(
        slug,
        shot,
        {
          fix: reading.fix,
          observedAt,
          ...(correcting ? { replacesId: correcting.id, reason: draft.reason.trim() } : {}),
        },
        owner,
        system,
      ),
    );
    // Kept elsewhere it is no draft any more: the same shot must not be saved twice from it.
    if (refused) saveDraft(slug, shot.id, draft);
    setSending(false);
  };

  const landed = draft.outcome === "landed";
  return (
    <form
      ref={form}
      className={styles.form}
      aria-label={correcting ? "Correction" : "Entry"}
      noValidate
      method="post"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      {correcting && (
        <Notice title="Correction">
          <p>The entry that is there stays in the record with who made it; this one counts from now on.</p>
        </Notice>
      )}
      <ChoiceTiles
        id="outcome"
        legend="What happened?"
        value={draft.outcome}
        onChange={(outcome) => change({ outcome })}
        error={complaints.outcome}
        choices={[
          { value: "landed", label: "Landed" },
          { value: "foul", label: "Foul", note: "against the rules" },
          { value: "misfire", label: "Misfire", note: "nothing left" },
          { value: "burst", label: "Burst", note: "broke up in the air" },
        ]}
      />
      {landed && (
        <ChoiceTiles
          id="method"
          legend="Measured by"
          value={draft.method}
          onChange={(method) => change({ method })}
          choices={[
            { value: "bearing-distance", label: "Bearing and distance" },
            { value: "position", label: "Latitude, longitude" },
          ]}
        />
      )}
      {landed && draft.method === "bearing-distance" && (
        <div className={styles.pair}>
          <QuantityField
            id="bearing"
            label="Bearing"
            fieldName="Bearing"
            dimension="angle"
            quantity={draft.bearing}
            onChange={(bearing) => change({ bearing })}
            help={`It aims at ${bearingText(shot.bearing)}.`}
            error={complaints.bearing ?? null}
          />
          <QuantityField
            id="distance"
            label="Distance"
            fieldName="Distance"
            dimension="distance"
            quantity={draft.distance}
            onChange={(distance) => change({ distance })}
            help="To where it first struck."
            error={complaints.distance ?? null}
          />
          {declination !== 0 && (
            <SelectField
              id="north"
              label="Bearing from"
              value={draft.north}
              onChange={(event) => change({ north: event.target.value as Draft["north"] })}
              choices={[
                { value: "true", label: "True north" },
                {
                  value: "magnetic",
                  label: `A compass: ${Math.abs(declination)}° ${declination > 0 ? "east" : "west"} is added`,
                },
              ]}
            />
          )}
        </div>
      )}
      {landed && draft.method === "position" && (
        <PositionField
          id="position"
          text={draft.position}
          onChange={(position) => change({ position, accuracy: null })}
          onPhone={({ accuracy }) => change({ accuracy })}
          error={complaints.position ?? null}
        />
      )}
      {correcting && (
        <TextField
          id="reason"
          label="Reason for the correction"
          help="Stands in the scorebook for good."
          required
          value={draft.reason}
          onChange={(event) => change({ reason: event.target.value })}
          error={complaints.reason ?? null}
        />
      )}
      {problem && (
        <Notice kind="problem">
          <p>{problem.detail}</p>
        </Notice>
      )}
      <Preview reading={reading} landed={landed} system={system} point={shot.firingPointNumber} />
      {owner !== null && (
        <Button type="submit" look="main" wide className={styles.save} aria-disabled={sending || undefined}>
          {sending ? "Saving…" : saveWords(reading, correcting !== null)}
        </Button>
      )}
      {correcting && (
        <Button wide onClick={onCancel}>
          Leave it as it is
        </Button>
      )}
    </form>
  );
}

function Preview({
  reading,
  landed,
  system,
  point,
}: {
  reading: Reading;
  landed: boolean;
  point: number;
  system: ReturnType<typeof useUnits>;
}) {
  const outcome = reading.ok ? reading.outcome : null;
  return (
    <>
      <output className={styles.preview} aria-live="polite">
        {outcome === null ? (
          landed ? (
            "The mark shows here before you save it."
          ) : null
        ) : outcome.mark === null ? (
          "No mark."
        ) : (
          <>
            <span>Mark from firing point {point}</span>
            <strong>{formatQuantity(outcome.mark, "distance", system, { digits: 2 })}</strong>
            <span>
              {formatQuantity(outcome.mark, "distance", otherSystem(system), { digits: 2 })}, ±{" "}
              {formatQuantity(outcome.uncertainty ?? 0, "distance", system, { digits: 2 })} (95 %), on bearing{" "}
              {bearingText(outcome.bearing ?? 0)} true
            </span>
          </>
        )}
      </output>
      {outcome && outcome.warnings.length > 0 && (
        <Notice title="Look again; it can be saved all the same">
          <ul>
            {outcome.warnings.map((warning) => (
              <li key={warning}>{warning}</li>
            ))}
          </ul>
        </Notice>
      )}
    </>
  );
}

function saveWords(reading: Reading, correcting: boolean): string {
  if (!reading.ok) return correcting ? "Save the correction" : "Save";
  const what = reading.outcome.mark === null ? reading.fix.outcome : "this mark";
  return correcting ? `Save the correction: ${what}` : `Save ${what}`;
}

/** Before the first try only what the fields themselves find; after it everything, the server's words first. */
function complaintsOf(reading: Reading, tried: boolean, problem: Problem | null): Complaints {
  const found: Complaints = tried && !reading.ok ? { ...reading.complaints } : {};
  for (const { field, message } of problem?.errors ?? []) found[formField(field)] ??= message;
  return found;
}

function focusFirst(form: HTMLFormElement | null): void {
  const wrong = form?.querySelector<HTMLElement>("[aria-invalid='true']");
  (wrong?.querySelector<HTMLElement>("input") ?? wrong)?.focus();
}
