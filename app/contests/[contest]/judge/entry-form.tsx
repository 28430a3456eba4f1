"use client";
/** What happened to one shot, in as few touches as it takes, with the mark shown before it is saved. */
import { useEffect, useMemo, useRef, useState } from "react";
import { otherSystem } from "@/app/_ui/both-units";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { TextField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { serverNow } from "@/app/_ui/offline/clock";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import type { FixAnswer, Problem } from "@/lib/api/contracts";
import type { FixMethod } from "@/lib/survey";
import { formatQuantity } from "@/lib/units";
import { entryFor } from "./assign";
import { type Complaints, type Draft, emptyDraft, fieldsOf } from "./draft";
import { loadDraft, saveDraft } from "./drafts";
import { formField, type JudgeShot, type Range, type Reading, readDraft } from "./entry";
import { sightedValues } from "./from-sightings";
import styles from "./judge.module.css";
import { KeysContext } from "./keys-shown";
import { MethodChoice } from "./method-choice";
import { MethodFields } from "./method-fields";
import type { KeptEntry } from "./outbox";
import { PlaceMap } from "./place-map";
import { SpottersOffer } from "./spotters-offer";
import { rememberMethod, usualMethod } from "./usual-method";

const NUMBERS = ".field-with-unit input";

export function EntryForm({
  slug,
  shot,
  range,
  correcting,
  owner,
  problem,
  onSave,
  onCancel,
}: {
  slug: string;
  shot: JudgeShot;
  range: Range;
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
  const [usual, setUsual] = useState<FixMethod | null>(null);
  const [loaded, setLoaded] = useState(false);
  const [tried, setTried] = useState(false);
  const [keysFor, setKeysFor] = useState<string | null>(null);
  const keys = useMemo(() => ({ field: keysFor, show: setKeysFor }), [keysFor]);
  const [sending, setSending] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  const reading = readDraft(draft, shot, range, correcting !== null, system);
  const complaints = complaintsOf(reading, tried, problem, draft);

  const change = (part: Partial<Draft>) => setDraft((now) => ({ ...now, ...part }));
  // After the first picture, which must agree with the server's.
  useEffect(() => {
    const kept = loadDraft(slug, shot.id);
    const last = usualMethod(slug);
    setUsual(last);
    // What is typed already stays with its own way of measuring.
    setDraft(last && Object.keys(kept.values).length === 0 ? { ...kept, method: last } : kept);
    setLoaded(true);
  }, [slug, shot.id]);
  useEffect(() => {
    if (loaded) saveDraft(slug, shot.id, draft);
  }, [loaded, slug, shot.id, draft]);
  const landed = draft.outcome === "landed";
  // Once, and only where nothing is typed; the form says where it comes from.
  const offered = loaded && landed && draft.method === "spotters" && draft.values.spotters === undefined;
  useEffect(() => {
    const sighted = offered ? sightedValues(shot, range, system) : null;
    if (sighted) setDraft((now) => ({ ...now, values: { ...now.values, spotters: sighted } }));
  }, [offered, shot, range, system]);
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
    if (landed) rememberMethod(slug, draft.method);
    const refused = await onSave(
      entryFor(
        slug,
        shot,
        {
          fix: reading.fix,
          observedAt: serverNow().toISOString(),
          ...draft.seen,
          ...(correcting ? { replacesId: correcting.id, reason: draft.reason.trim() } : {}),
        },
        owner,
        range,
        system,
      ),
    );
    // Kept elsewhere it is no draft any more: the same shot must not be saved twice from it.
    if (refused) saveDraft(slug, shot.id, draft);
    setSending(false);
  };

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
        onChange={(outcome) => {
          change({ outcome });
          // The first number is a touch less away; a mouse and a keyboard go their own way.
          if (outcome === "landed" && matchMedia("(pointer: coarse)").matches)
            requestAnimationFrame(() => form.current?.querySelector<HTMLElement>(NUMBERS)?.focus());
        }}
        error={complaints.outcome}
        choices={[
          { value: "landed", label: "Landed" },
          { value: "foul", label: "Foul", note: "against the rules" },
          { value: "misfire", label: "Misfire", note: "nothing left" },
          { value: "burst", label: "Burst", note: "broke up in the air" },
        ]}
      />
      {landed && (
        <>
          <MethodChoice usual={usual} method={draft.method} onChange={(method) => change({ method })} />
          {draft.method === "spotters" && (
            <SpottersOffer
              shot={shot}
              range={range}
              values={draft.values.spotters}
              onFill={(spotters) => change({ values: { ...draft.values, spotters } })}
            />
          )}
          <KeysContext value={keys}>
            <MethodFields
              key={draft.method}
              fields={fieldsOf(draft.method)}
              values={draft.values[draft.method] ?? {}}
              onChange={(values) => change({ values: { ...draft.values, [draft.method]: values } })}
              complaints={complaints}
              shot={shot}
              range={range}
            />
          </KeysContext>
        </>
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
      <Preview reading={reading} landed={landed} system={system} shot={shot} range={range} />
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
  shot,
  range,
}: {
  reading: Reading;
  landed: boolean;
  shot: JudgeShot;
  range: Range;
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
        ) : outcome.mark === null || outcome.made === null ? (
          landed ? (
            "No mark comes out of this. It can be kept as it is."
          ) : (
            "No mark."
          )
        ) : (
          <>
            <span>
              Mark from{" "}
              {range.marking.rule.from === "arc"
                ? "the measuring arc"
                : `firing point ${shot.firingPointNumber}`}
            </span>
            <strong>{formatQuantity(outcome.mark, "distance", system, { digits: 2 })}</strong>
            <span>
              {formatQuantity(outcome.mark, "distance", otherSystem(system), { digits: 2 })}, ±{" "}
              {formatQuantity(outcome.made.uncertainty, "distance", system, { digits: 2 })} (95 %), on bearing{" "}
              {bearingText(outcome.made.bearing)} true
            </span>
          </>
        )}
      </output>
      {outcome?.located && <PlaceMap located={outcome.located} shot={shot} range={range} />}
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
function complaintsOf(reading: Reading, tried: boolean, problem: Problem | null, draft: Draft): Complaints {
  const found: Complaints = tried && !reading.ok ? { ...reading.complaints } : {};
  for (const { field, message } of problem?.errors ?? []) found[formField(field, draft)] ??= message;
  return found;
}

function focusFirst(form: HTMLFormElement | null): void {
  const wrong = form?.querySelector<HTMLElement>("[aria-invalid='true']");
  (wrong?.querySelector<HTMLElement>("input") ?? wrong)?.focus();
}
