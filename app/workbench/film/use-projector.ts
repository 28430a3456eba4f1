"use client";
/**
 * Runs a film: which instant is shown, and whether it goes on by itself. While it plays, pictures and scrubber are
 * painted outside of React, and what is read as words follows a few times a second.
 */
import { type RefObject, useCallback, useEffect, useRef, useState } from "react";
import type { FilmInstant, Reel } from "@/lib/throw";
import type { Painters } from "./pictures/layers";
import { stillsOf } from "./scrub";

/** Between two readings of the words while it plays, ms. */
const WORDS = 200;
/** How long each picture stands of a film in still pictures, ms. */
const STAND = 1000;

export interface Projector {
  /** s from the trigger, as the words have it. */
  time: number;
  playing: boolean;
  painters: RefObject<Painters>;
  /** The instant painted last. */
  shown: RefObject<FilmInstant | null>;
  /** Shows an instant and stops there. */
  show: (time: number) => void;
  play: () => void;
  pause: () => void;
}

/** @param slowed how many times slower than it happens */
export function useProjector(reel: Reel, slowed: number, still: boolean, first: number | null): Projector {
  const { film } = reel;
  const [time, setTime] = useState(first ?? film.begin);
  const [playing, setPlaying] = useState(false);
  const painters = useRef<Painters>(new Set());
  const shown = useRef<FilmInstant | null>(null);
  const clock = useRef(time);

  const paint = useCallback(
    (at: number) => {
      const instant = reel.at(at);
      clock.current = instant.time;
      shown.current = instant;
      for (const each of painters.current) each(instant);
    },
    [reel],
  );

  const show = useCallback(
    (at: number) => {
      setPlaying(false);
      paint(at);
      setTime(clock.current);
    },
    [paint],
  );

  // Other numbers make another film: the same instant of it.
  useEffect(() => {
    paint(clock.current);
    setTime(clock.current);
  }, [paint]);

  useEffect(() => {
    if (!playing || still) return;
    let before: number | null = null;
    let told = 0;
    let handle = 0;
    const step = (now: number) => {
      const passed = before === null ? 0 : (now - before) / 1000;
      before = now;
      paint(clock.current + passed / slowed);
      const over = clock.current >= film.end;
      if (over || now - told > WORDS) {
        told = now;
        setTime(clock.current);
      }
      if (over) setPlaying(false);
      else handle = requestAnimationFrame(step);
    };
    handle = requestAnimationFrame(step);
    return () => {
      cancelAnimationFrame(handle);
      setTime(clock.current);
    };
  }, [playing, still, slowed, paint, film]);

  useEffect(() => {
    if (!playing || !still) return;
    const stills = stillsOf(film, film.marks, slowed);
    const next = () => {
      const following = stills.find((at) => at > clock.current + 1e-6);
      if (following !== undefined) {
        paint(following);
        setTime(clock.current);
      }
      if (clock.current >= film.end - 1e-6) setPlaying(false);
    };
    const timer = setInterval(next, STAND);
    return () => clearInterval(timer);
  }, [playing, still, slowed, paint, film]);

  const play = useCallback(() => {
    if (clock.current >= film.end - 1e-6) paint(film.begin);
    setPlaying(true);
  }, [film, paint]);
  const pause = useCallback(() => setPlaying(false), []);
  return { time, playing, painters, shown, show, play, pause };
}
