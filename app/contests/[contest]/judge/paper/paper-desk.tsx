"use client";
/** The lines of one round's landing log, in its order: what is entered already shows as such, the rest is typed in. */
import Link from "next/link";
import { useRouter } from "next/navigation";
import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { useLive } from "@/app/_ui/live/use-live";
import { Notice } from "@/app/_ui/notice";
import { serverNow } from "@/app/_ui/offline/clock";
import { useUnits } from "@/app/_ui/units";
import type { FixAnswer, JudgeView, Problem } from "@/lib/api/contracts";
import type { FixMethod } from "@/lib/survey";
import { entryFor } from "../assign";
import { type Complaints, draftOf } from "../draft";
import { formField, rangeOf } from "../entry";
import { keepView, newerView } from "../kept-view";
import { KeysContext } from "../keys-shown";
import { isAboutEntry, isEntry, type KeptEntry } from "../outbox";
import { Unsent } from "../unsent";
import { useOutbox } from "../use-outbox";
import { WhereSaved } from "../where-saved";
import styles from "./paper.module.css";
import { PaperHeadFields } from "./paper-head";
import { PaperLine } from "./paper-line";
import { clockHere, type Days, emptyRow, isTouched, type PaperRow, readRow } from "./paper-row";
import { useTypedLog } from "./use-typed-log";

/** The next line is sent after this long, whether or not the server has answered, ms. */
const PATIENCE = 2000;

export function PaperDesk({
  slug,
  initial,
  days,
  method,
  owner,
  madeAt,
  sequence,
}: {
  slug: string;
  initial: JudgeView;
  days: Days;
  /** What the log at hand was printed for; null when nobody said. */
  method: FixMethod | null;
  /** The judge's badge; null for who may only look. */
  owner: string | null;
  madeAt: string;
  sequence: number;
}) {
  const system = useUnits();
  const router = useRouter();
  const [view, setView] = useState(initial);
  /** By shot; the head's own stand under "". */
  const [complaints, setComplaints] = useState<Record<string, Complaints>>({});
  const [said, setSaid] = useState("");
  const [held, setHeld] = useState(0);
  const [saving, setSaving] = useState(false);
  const [keysFor, setKeysFor] = useState<string | null>(null);
  const keys = useMemo(() => ({ field: keysFor, show: setKeysFor }), [keysFor]);
  const form = useRef<HTMLFormElement>(null);
  const latest = useRef(view);
  // The printed log has the shots of its round, wherever in the day they are thrown.
  const logged = view.shots.filter(({ round }) => round === view.round);
  const store = `fairthrow:paper:${slug}:${initial.round}`;
  const { head, rows, setHead, setRow } = useTypedLog(store, days, method);

  const onSaved = useCallback(
    ({ shotId }: KeptEntry, fix: FixAnswer) => {
      if (fix.held) {
        setHeld((now) => now + 1);
        return;
      }
      const shots = latest.current.shots.map((one) => (one.id === shotId ? { ...one, fix } : one));
      latest.current = { ...latest.current, shots };
      setView(latest.current);
      void keepView(slug, latest.current);
    },
    [slug],
  );
  const { outbox, waiting } = useOutbox(slug, owner, { fix: onSaved });
  const heard = useLive(`/api/v1/contests/${slug}/live`, sequence, ({ kind }, missed) => {
    if (missed || kind === "fix" || kind === "ruling" || kind === "round") router.refresh();
  });

  useEffect(() => {
    const show = (next: JudgeView) => {
      latest.current = next;
      setView(next);
    };
    show(initial);
    // A page that opened without a network is older than what this phone knows.
    void newerView(slug, initial.round, madeAt).then((newer) => newer && show(newer));
  }, [slug, initial, madeAt]);

  const range = rangeOf(view);

  /** Written down, then sent; a refusal for what the line says brings it back. Answers that refusal. */
  const post = async (entry: KeptEntry): Promise<Problem | null> => {
    await outbox.keep(entry);
    setRow(entry.shotId, null);
    const late = new Promise<null>((no) => setTimeout(no, PATIENCE, null));
    const sent = await Promise.race([outbox.dispatch(entry.key), late]);
    if (!sent || sent.ok || !sent.reached || !isAboutEntry(sent.problem)) return null;
    putRight(entry);
    return sent.problem;
  };
  const putRight = (entry: KeptEntry) => {
    const { fix, observedAt, witness = "" } = entry.body;
    const { outcome, values } = draftOf(fix, "", system);
    const { day, time } = observedAt ? clockHere(new Date(observedAt)) : { day: head.day, time: "" };
    void outbox.drop(entry.key);
    setHead({ day, ...(fix.outcome === "landed" && { method: fix.method }) });
    setRow(entry.shotId, { outcome: outcome ?? "landed", values, time, witness });
  };

  const save = async () => {
    if (saving) return;
    const filled = logged.filter(({ id }) => rows[id] && isTouched(rows[id], head.method));
    const found: Record<string, Complaints> = {};
    if (filled.length > 0 && head.day === "")
      found[""] = { day: "Day: choose the day that stands on the log." };
    setSaving(true);
    let saved = 0;
    for (const shot of filled) {
      const reading = readRow(rows[shot.id] ?? emptyRow, head, shot, range, system, serverNow());
      if (!reading.ok) found[shot.id] = reading.complaints;
      if (!reading.ok || found[""]) continue;
      const problem = await post(entryFor(slug, shot, reading.body, owner, range, system));
      if (problem) found[shot.id] = complaintsOf(problem, rows[shot.id] ?? emptyRow, head.method);
      else saved++;
    }
    setSaving(false);
    setComplaints(found);
    const wrong = Object.keys(found).filter((id) => id !== "" && Object.keys(found[id] ?? {}).length > 0);
    setSaid(
      filled.length === 0
        ? "No line is filled in yet."
        : [
            `${lines(saved)} saved.`,
            found[""] && "The day is missing.",
            wrong.length > 0 && `${lines(wrong.length)} to put right.`,
          ]
            .filter(Boolean)
            .join(" "),
    );
    // After the complaints are on the page.
    requestAnimationFrame(() => {
      const first = form.current?.querySelector<HTMLElement>("[aria-invalid='true']");
      (first?.querySelector<HTMLElement>("input") ?? first)?.focus();
    });
  };

  if (view.round === null) return <p>No firing order is made yet, so no line can be typed in.</p>;
  return (
    <>
      <WhereSaved waiting={waiting} heard={heard} held={held} />
      <Unsent
        waiting={waiting}
        outbox={outbox}
        mayTakeOver={owner !== null}
        onPutRight={(entry) => putRight(entry)}
      />
      {owner === null && (
        <Notice>
          <p>Only a judge&rsquo;s badge can save an entry; this is to look at.</p>
        </Notice>
      )}
      <p>
        In the order of the printed log. Each line is an entry of its own; when and by whom it was seen stays
        with it.
      </p>
      <form
        ref={form}
        aria-label={`Landing log of round ${view.round}`}
        noValidate
        method="post"
        onSubmit={(event) => {
          event.preventDefault();
          void save();
        }}
      >
        <PaperHeadFields
          slug={slug}
          round={view.round}
          rounds={view.rounds}
          head={head}
          days={days}
          error={complaints[""]?.day ?? null}
          onChange={setHead}
        />
        <KeysContext value={keys}>
          <ol className={styles.lines}>
            {logged.map((shot) => (
              <PaperLine
                key={shot.id}
                slug={slug}
                shot={shot}
                range={range}
                method={head.method}
                witness={head.witness}
                row={rows[shot.id] ?? null}
                kept={waiting.entries.filter(isEntry).find(({ shotId }) => shotId === shot.id) ?? null}
                complaints={complaints[shot.id] ?? {}}
                onChange={(row) => setRow(shot.id, row)}
              />
            ))}
          </ol>
        </KeysContext>
        <p aria-live="polite" className={styles.said}>
          {said}
        </p>
        {owner !== null && (
          <Button type="submit" look="main" wide className={styles.save} aria-disabled={saving || undefined}>
            {saving ? "Saving…" : "Save the lines that are filled in"}
          </Button>
        )}
      </form>
      <p>
        <Link href={`/contests/${slug}/judge?round=${view.round}`} prefetch={false}>
          Back to the judge&rsquo;s page
        </Link>{" "}
        ·{" "}
        <Link
          href={`/contests/${slug}/landing-log?round=${view.round}&method=${head.method}`}
          prefetch={false}
        >
          The log to print
        </Link>
      </p>
    </>
  );
}

const lines = (count: number) => `${count} ${count === 1 ? "line" : "lines"}`;

/** The server's words at the fields of the line. */
function complaintsOf({ errors = [], detail }: Problem, row: PaperRow, method: FixMethod): Complaints {
  const found: Complaints = {};
  for (const { field, message } of errors) {
    const name = field === "observedAt" ? "time" : field === "witness" ? field : null;
    found[name ?? formField(field, { outcome: row.outcome, method, values: {}, reason: "" })] ??= message;
  }
  return errors.length > 0 ? found : { outcome: detail };
}
