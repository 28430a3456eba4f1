"use client";
/** A judge's screen: the shot that is up, its entry, what became of it, and what has not been sent yet. */
import Link from "next/link";
import { useRouter } from "next/navigation";
import { useCallback, useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { useLive } from "@/app/_ui/live/use-live";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import type { FixAnswer, JudgeView, Problem, ShotInfo } from "@/lib/api/contracts";
import { saveDraft } from "./drafts";
import { draftOf } from "./entry";
import { EntryForm } from "./entry-form";
import styles from "./judge.module.css";
import type { KeptEntry } from "./outbox";
import { answerWords, resultWords, SavedPanel } from "./saved-panel";
import { ShotChooser } from "./shot-chooser";
import { Unsent } from "./unsent";
import { useOutbox } from "./use-outbox";

type Screen =
  | { show: "form"; correcting: boolean }
  | { show: "saved"; entry: KeptEntry; answer: FixAnswer | null };

/** The server's words for an entry that came after another's. */
const FASTER = new Set(["already-recorded", "already-corrected"]);

export function JudgeDesk({
  slug,
  initial,
  label,
  mayRecord,
  sequence,
}: {
  slug: string;
  initial: JudgeView;
  label: string;
  mayRecord: boolean;
  /** Of the newest scorebook entry that this shows. */
  sequence: number;
}) {
  const system = useUnits();
  const router = useRouter();
  const [view, setView] = useState(initial);
  const [chosen, setChosen] = useState(initial.upId ?? initial.shots[0]?.id ?? null);
  const [screen, setScreen] = useState<Screen>({ show: "form", correcting: false });
  const [problem, setProblem] = useState<Problem | null>(null);
  const top = useRef<HTMLHeadingElement>(null);

  const onSaved = useCallback((entry: KeptEntry, answer: FixAnswer) => {
    setView((now) => ({
      ...now,
      shots: now.shots.map((shot) => (shot.id === entry.shotId ? { ...shot, fix: answer } : shot)),
    }));
    setScreen((now) => (now.show === "saved" && now.entry.key === entry.key ? { ...now, answer } : now));
  }, []);
  const { waiting, stored, post, again, drop } = useOutbox(slug, onSaved);

  const heard = useLive(`/api/v1/contests/${slug}/live`, sequence, ({ kind }, missed) => {
    if (kind === "round") router.refresh();
    else if (missed || kind === "fix" || kind === "ruling" || kind === "machine") void refresh();
  });
  const refresh = async () => {
    try {
      const url = `/api/v1/contests/${slug}/shots?round=${view.round}`;
      const response = await fetch(url, { cache: "no-store" });
      if (!response.ok) return;
      const { shots } = (await response.json()) as { shots: ShotInfo[] };
      const known = new Map(shots.map((one) => [one.id, one]));
      if (shots.some(({ id }) => !view.shots.some((one) => one.id === id))) router.refresh();
      setView((now) => ({ ...now, shots: now.shots.map((one) => ({ ...one, ...known.get(one.id) })) }));
    } catch {
      // No network: the list stays as it was last known.
    }
  };
  // A new round or a later shot came with the page anew.
  useEffect(() => setView(initial), [initial]);

  const upId = view.shots.find(({ fix }) => fix === null)?.id ?? null;
  const shot = view.shots.find(({ id }) => id === chosen) ?? null;
  const kept = new Set(waiting.map(({ shotId }) => shotId));
  const open = view.shots.filter(({ id, fix }) => fix === null && !kept.has(id));
  const next = open.find(({ id }) => id !== chosen) ?? null;

  /** Somebody was faster: theirs stands, and what was sent becomes a correction of it, with nothing typed again. */
  const correctInstead = (entry: KeptEntry, refusal: Problem) => {
    const current = refusal.current as FixAnswer | undefined;
    if (current) {
      setView((now) => ({
        ...now,
        shots: now.shots.map((one) => (one.id === entry.shotId ? { ...one, fix: current } : one)),
      }));
    }
    saveDraft(slug, entry.shotId, draftOf(entry.body.fix, entry.body.reason ?? "", system));
    drop(entry.key);
    setChosen(entry.shotId);
    setProblem(refusal);
    setScreen({ show: "form", correcting: true });
  };

  const go = (id: string) => {
    setChosen(id);
    setProblem(null);
    setScreen({ show: "form", correcting: false });
  };
  const moved = screen.show === "saved" ? screen.entry.key : `${chosen}`;
  const first = useRef(moved);
  useEffect(() => {
    // After a save or a change of shot the eye and the reading voice start at the top again.
    if (first.current !== moved) top.current?.focus();
    first.current = moved;
  }, [moved]);

  if (view.round === null || !shot) {
    return (
      <p>No firing order is made yet. When the organiser makes one, the shot that is up appears here.</p>
    );
  }
  const position = `shot ${view.shots.indexOf(shot) + 1} of ${view.shots.length}`;
  return (
    <>
      <Unsent waiting={waiting} stored={stored} again={again} drop={drop} onCorrect={correctInstead} />
      {!mayRecord && (
        <Notice>
          <p>
            {label ? `You are signed in as ${label}. ` : ""}Only a judge&rsquo;s badge can save an entry; this
            is to look at.
          </p>
        </Notice>
      )}
      {screen.show === "saved" ? (
        <SavedPanel
          heading={top}
          entry={screen.entry}
          answer={screen.answer}
          waiting={waiting.find(({ key }) => key === screen.entry.key) ?? null}
          next={next}
          round={view.round}
          onNext={() => next && go(next.id)}
          onCorrect={() => go(screen.entry.shotId)}
        />
      ) : (
        <>
          <section className={styles.up} aria-labelledby="shot-up">
            <p className={styles.where}>
              Round {view.round}, {position}
              {shot.id === upId && <strong className={styles.upNow}>Up now</strong>}
            </p>
            <h2 id="shot-up" ref={top} tabIndex={-1}>
              <span className={styles.number}>{shot.entrantNumber}</span> {shot.entrantName}
            </h2>
            <p>
              {shot.machineName}, firing point {shot.firingPointNumber}, bearing {bearingText(shot.bearing)}
            </p>
          </section>
          {shot.fix && !screen.correcting ? (
            <section>
              <p>
                Entered: <strong>{answerWords(shot.fix, system)}</strong> by {shot.fix.by}.
              </p>
              <p className="button-row">
                {mayRecord && (
                  <Button look="main" onClick={() => setScreen({ show: "form", correcting: true })}>
                    Correct this entry
                  </Button>
                )}
                <Link
                  className="button button-plain"
                  href={`/contests/${slug}/shots/${shot.id}`}
                  prefetch={false}
                >
                  History of this shot
                </Link>
              </p>
              {next && (
                <p>
                  <Button onClick={() => go(next.id)}>
                    To the shot without an entry: {next.entrantNumber} {next.entrantName}
                  </Button>
                </p>
              )}
            </section>
          ) : (
            <EntryForm
              key={`${shot.id}:${screen.correcting}`}
              slug={slug}
              shot={shot}
              declination={view.contest.declination}
              correcting={screen.correcting ? shot.fix : null}
              mayRecord={mayRecord}
              problem={problem}
              onCancel={() => setScreen({ show: "form", correcting: false })}
              onSave={async (entry, done) => {
                setProblem(null);
                const sent = await post(entry);
                if (sent && !sent.ok && sent.reached && sent.settled) {
                  if (FASTER.has(sent.problem.code)) {
                    correctInstead(entry, sent.problem);
                    return;
                  }
                  // Refused for what it says: the form still has it, so nothing needs keeping.
                  drop(entry.key);
                  setProblem(sent.problem);
                  return;
                }
                done();
                setScreen({ show: "saved", entry, answer: sent?.ok ? sent.data : null });
              }}
            />
          )}
        </>
      )}
      <ShotChooser
        slug={slug}
        view={view}
        upId={upId}
        chosen={chosen}
        kept={kept}
        words={resultWords}
        onChoose={go}
      />
      <p className={styles.heard}>
        {heard.open
          ? "Connected: other judges’ entries show by themselves."
          : "Not connected. Entries are kept on this phone and sent when the network is back."}
      </p>
    </>
  );
}
