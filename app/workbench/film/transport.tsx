"use client";
/** Scrubber, play and pause, and the instants worth a look. */
import { useEffect, useRef } from "react";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import type { FilmInstant, Reel } from "@/lib/throw";
import styles from "./film.module.css";
import { SCRUB_STEPS, scrubberAt, timeAt } from "./scrub";
import type { Projector } from "./use-projector";
import { doingWords, markWords, momentText, zeroWords } from "./words";

/** One press of a step button, s: a twentieth of what the eye follows at real time. */
const STEP = 0.005;

export function Transport({ reel, projector, still }: { reel: Reel; projector: Projector; still: boolean }) {
  const { film } = reel;
  const { time, playing, painters, show, play, pause } = projector;
  const slider = useRef<HTMLInputElement>(null);
  const told = useRef<HTMLOutputElement>(null);
  const instant = reel.at(time);

  // While it plays the scrubber follows every picture.
  useEffect(() => {
    const follow = (at: FilmInstant) => {
      if (slider.current) slider.current.value = String(scrubberAt(film, at.time));
      if (told.current) told.current.textContent = momentText(at.time);
    };
    const all = painters.current;
    all.add(follow);
    return () => {
      all.delete(follow);
    };
  }, [film, painters]);

  return (
    <div className={`${styles.transport} no-print`}>
      <p className={styles.clock}>
        <label htmlFor="film-instant">Instant {zeroWords(film)}</label>{" "}
        <output ref={told} htmlFor="film-instant" aria-live="off">
          {momentText(time)}
        </output>
      </p>
      <input
        ref={slider}
        id="film-instant"
        type="range"
        min={0}
        max={SCRUB_STEPS}
        step={1}
        value={Math.round(scrubberAt(film, time))}
        aria-valuetext={`${momentText(time)}, ${doingWords(instant)}`}
        onChange={(event) => show(timeAt(film, Number(event.target.value)))}
      />
      {film.release !== null && film.release > film.begin && (
        <p className={styles.halves} aria-hidden="true">
          <span>up to the release</span>
          <span>the flight</span>
        </p>
      )}
      <p className="button-row">
        <Button look="main" className={styles.play} onClick={playing ? pause : play}>
          {playing ? "Pause" : still ? "Play in still pictures" : "Play"}
        </Button>
        <Button onClick={() => show(time - STEP)}>
          −{1000 * STEP} ms<span className="aloud">, back</span>
        </Button>
        <Button onClick={() => show(time + STEP)}>
          +{1000 * STEP} ms<span className="aloud">, on</span>
        </Button>
      </p>
    </div>
  );
}

export const SPEEDS = [
  { value: "1", label: "Real time" },
  { value: "4", label: "4 times slower" },
  { value: "16", label: "16 times slower" },
] as const;
export type Speed = (typeof SPEEDS)[number]["value"];

export function SpeedChoice({
  speed,
  onSpeed,
  still,
}: {
  speed: Speed;
  onSpeed: (speed: Speed) => void;
  still: boolean;
}) {
  return (
    <div className="no-print">
      <ChoiceTiles
        id="film-speed"
        legend={still ? "How many still pictures" : "How fast"}
        choices={SPEEDS.map((each, index) => ({
          ...each,
          label: still ? (["Few", "More", "Most"][index] as string) : each.label,
        }))}
        value={speed}
        onChange={onSpeed}
      />
    </div>
  );
}

/** Jumps to the marked instants. */
export function Marks({ reel, projector }: { reel: Reel; projector: Projector }) {
  const { film } = reel;
  const { kind } = film.request.machine;
  return (
    <fieldset className={`${styles.marks} no-print`}>
      <legend>Go to</legend>
      <div className="button-row">
        {film.marks.map(({ of, time }) => (
          <Button
            key={of}
            aria-pressed={Math.abs(projector.time - time) < 1e-6}
            onClick={() => projector.show(time)}
          >
            <span>
              {markWords(of, kind, inCupOf(reel))} · <span className={styles.moment}>{momentText(time)}</span>
            </span>
          </Button>
        ))}
      </div>
    </fieldset>
  );
}

/** Whether the projectile lies in a cup at the tip. */
export const inCupOf = ({ film }: Reel): boolean => {
  const { machine } = film.request;
  return machine.kind === "torsion" && machine.slingLength === undefined;
};
