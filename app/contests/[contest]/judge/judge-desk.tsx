"use client";
/** A judge's screen: the shot that is up, its entry, what became of it, and what has not been sent yet. */
import Link from "next/link";
import { useCallback, useEffect, useRef, useState } from "react";
import { ButtonLink } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import type { FixAnswer, Problem } from "@/lib/api/contracts";
import { movedTo } from "./assign";
import { draftOfEntry, emptyDraft } from "./draft";
import { saveDraft } from "./drafts";
import { rangeOf } from "./entry";
import { EntryForm } from "./entry-form";
import { isAboutEntry, isEntry, type KeptEntry } from "./outbox";
import { resultWords, SavedPanel } from "./saved-panel";
import { ShotChooser } from "./shot-chooser";
import { EnteredPanel, ShotUp } from "./shot-up";
import { Unsent } from "./unsent";
import { useOutbox } from "./use-outbox";
import { type Given, useRoundView } from "./use-round-view";
import { KeptPages, WhereSaved } from "./where-saved";

type Screen =
  | { show: "form"; correcting: boolean }
  | { show: "saved"; entry: KeptEntry; answer: FixAnswer | null; moving: boolean };

/** The judge goes on to the next shot after this long, whether or not the server has answered, ms. */
const PATIENCE = 2000;

const entering: Screen = { show: "form", correcting: false };

export function JudgeDesk({ label, ...given }: Given & { label: string }) {
  const { slug, initial, owner } = given;
  const system = useUnits();
  const { view, changeShot, heard } = useRoundView(given);
  const [chosen, setChosen] = useState(initial.upId ?? initial.shots[0]?.id ?? null);
  const [screen, setScreen] = useState<Screen>(entering);
  const [problem, setProblem] = useState<Problem | null>(null);
  /** Entries that arrived from here to be confirmed. */
  const [held, setHeld] = useState(0);
  const top = useRef<HTMLHeadingElement>(null);
  const touched = useRef(false);

  const range = rangeOf(view);
  const setFix = useCallback(
    (shotId: string, fix: FixAnswer) => changeShot(shotId, () => ({ fix })),
    [changeShot],
  );
  const onSaved = useCallback(
    (entry: KeptEntry, answer: FixAnswer) => {
      // The badge has ended meanwhile: it arrived, and counts for nothing yet.
      if (answer.held) setHeld((now) => now + 1);
      else setFix(entry.shotId, answer);
      setScreen((now) => (now.show === "saved" && now.entry.key === entry.key ? { ...now, answer } : now));
    },
    [setFix],
  );
  const { outbox, waiting } = useOutbox(slug, owner, { fix: onSaved });

  const entries = waiting.entries.filter(isEntry);
  const kept = new Set(entries.map(({ shotId }) => shotId));
  const open = view.shots.filter(({ id, fix, out }) => fix === null && !out && !kept.has(id));
  const upId = open[0]?.id ?? null;
  // Until the judge touches anything, what was learned since the page was made may change what is up.
  const at = touched.current || screen.show === "saved" ? chosen : (upId ?? chosen);
  const shot = view.shots.find(({ id }) => id === at) ?? null;
  const next = open.find(({ id }) => id !== at) ?? null;

  const go = (id: string) => {
    touched.current = true;
    setChosen(id);
    setProblem(null);
    setScreen(entering);
  };

  /** Somebody was faster: theirs stands, and what was sent becomes a correction of it, with nothing typed again. */
  const correctInstead = (entry: KeptEntry, refusal: Problem) => {
    const current = refusal.current as FixAnswer | undefined;
    if (current) setFix(entry.shotId, current);
    putRight(entry);
    setProblem(refusal);
    setScreen({ show: "form", correcting: true });
  };
  /** Back into the form, with nothing typed again. */
  const putRight = (entry: KeptEntry) => {
    saveDraft(slug, entry.shotId, draftOfEntry(entry.body, system));
    void outbox.drop(entry.key);
    go(entry.shotId);
    setProblem(entry.refused);
    setScreen({ show: "form", correcting: entry.body.replacesId !== undefined });
  };
  /** Written down, then sent; the screen goes on whether or not the server answers soon. Answers a refusal. */
  const post = async (entry: KeptEntry): Promise<Problem | null> => {
    touched.current = true;
    setChosen(entry.shotId);
    setProblem(null);
    const stored = await outbox.keep(entry);
    if (stored) saveDraft(slug, entry.shotId, emptyDraft);
    const sending = outbox.dispatch(entry.key);
    const sent = await Promise.race([sending, new Promise<null>((no) => setTimeout(no, PATIENCE, null))]);
    if (sent && !sent.ok && sent.reached && sent.settled && isAboutEntry(sent.problem)) {
      // Somebody else corrected it meanwhile.
      if (sent.problem.code === "already-corrected") {
        correctInstead(entry, sent.problem);
        return null;
      }
      // Refused for what it says: the form still has it, so nothing needs keeping.
      void outbox.drop(entry.key);
      setProblem(sent.problem);
      return sent.problem;
    }
    if (!stored) saveDraft(slug, entry.shotId, emptyDraft);
    setScreen({ show: "saved", entry, answer: sent?.ok ? sent.data : null, moving: false });
    return null;
  };
  /** The entry was of another shot. What the server has stays until that shot's own entry corrects it. */
  const move = async (entry: KeptEntry, to: string) => {
    const target = view.shots.find(({ id }) => id === to);
    if (!target || to === entry.shotId) return;
    const waits = entries.find(({ key }) => key === entry.key);
    if (waits) await outbox.drop(waits.key);
    else {
      const draft = { ...emptyDraft, reason: `Entered for the wrong shot: it was ${target.entrantName}’s` };
      saveDraft(slug, entry.shotId, draft);
    }
    const moved = movedTo(entry, target, owner, range, system);
    if (await post(moved)) {
      saveDraft(slug, to, draftOfEntry(moved.body, system));
      setScreen(entering);
    }
  };

  const moved = screen.show === "saved" ? screen.entry.key : `${at}`;
  const first = useRef(moved);
  useEffect(() => {
    // After a save or a change of shot the eye and the reading voice start at the top again.
    if (first.current !== moved && touched.current) top.current?.focus();
    first.current = moved;
  }, [moved]);

  const where = <WhereSaved waiting={waiting} heard={heard} held={held} />;
  if (view.round === null || !shot) {
    return (
      <>
        <p>No firing order is made yet. When the organiser makes one, the shot that is up appears here.</p>
        {where}
      </>
    );
  }
  const keptHere = entries.find(({ shotId }) => shotId === shot.id) ?? null;
  return (
    <>
      {where}
      <Unsent
        waiting={waiting}
        outbox={outbox}
        mayTakeOver={owner !== null}
        onCorrect={correctInstead}
        onPutRight={putRight}
      />
      {owner === null && (
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
          waiting={entries.find(({ key }) => key === screen.entry.key) ?? null}
          next={next}
          round={view.round}
          moving={screen.moving}
          onNext={() => next && go(next.id)}
          onCorrect={() => go(screen.entry.shotId)}
          onMove={() => setScreen({ ...screen, moving: !screen.moving })}
        />
      ) : (
        <>
          <ShotUp heading={top} view={view} shot={shot} upId={upId} />
          {(shot.fix || keptHere) && !screen.correcting ? (
            <EnteredPanel
              slug={slug}
              shot={shot}
              kept={keptHere}
              next={next}
              onCorrect={owner === null ? null : () => setScreen({ show: "form", correcting: true })}
              onNext={go}
            />
          ) : (
            <EntryForm
              key={`${shot.id}:${screen.correcting}`}
              slug={slug}
              shot={shot}
              range={range}
              correcting={screen.correcting ? shot.fix : null}
              owner={owner}
              problem={problem}
              onCancel={() => setScreen(entering)}
              onSave={post}
            />
          )}
        </>
      )}
      <ShotChooser
        slug={slug}
        view={view}
        upId={upId}
        chosen={at}
        kept={kept}
        moving={screen.show === "saved" && screen.moving}
        words={({ fix }, units) => resultWords(fix, units)}
        onChoose={(id) => (screen.show === "saved" && screen.moving ? void move(screen.entry, id) : go(id))}
      />
      <p className="button-row">
        <ButtonLink href={`/contests/${slug}/spot`}>Spot the splash from a post</ButtonLink>
        <ButtonLink href={`/contests/${slug}/splash`}>Walk to the splash</ButtonLink>
      </p>
      <p>
        <Link href={`/contests/${slug}/judge/paper?round=${view.round}`} prefetch={false}>
          Type in a landing log that was filled in on paper
        </Link>
      </p>
      <KeptPages slug={slug} rounds={view.rounds} />
    </>
  );
}
