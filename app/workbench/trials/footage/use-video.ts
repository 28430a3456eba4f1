"use client";
/** A film of this device, frame by frame. It is read where it lies: nothing of it is sent or kept. */
import { useCallback, useEffect, useRef, useState } from "react";
import { pause, type Rate, rateOf, type Shown, shownAt, stepped } from "./frames";

const START: Shown = { time: 0, timed: false };
/** Steps that wait are made one by one up to so many, else in one jump. */
const JUMP = 5;
/** A film that takes longer to open is told what may help, ms. */
const SLOW = 5000;

export function useVideo(plays: number) {
  const video = useRef<HTMLVideoElement>(null);
  const [source, setSource] = useState<string | null>(null);
  const [size, setSize] = useState<{ width: number; height: number; duration: number } | null>(null);
  const [shown, setShown] = useState<Shown>(START);
  const [failure, setFailure] = useState<string | null>(null);
  const now = useRef<Shown>(START);
  // Frames of an uneven film may follow each other faster than is usual: steps must not pass one over.
  const finest = useRef(0);
  const rate = useRef(plays);
  rate.current = Math.max(plays, finest.current);
  // What is asked for and not done yet: of several places only the last one is gone to, steps add up.
  const wish = useRef<{ time: number | null; steps: number }>({ time: null, steps: 0 });
  const working = useRef<Promise<void> | null>(null);
  // It plays to be measured: what is asked for waits, and no point is marked on a frame that runs by.
  const playing = useRef(false);
  const [measuring, setMeasuring] = useState(false);
  // Which film it is: what was begun with an earlier one stops.
  const film = useRef(0);

  const [slow, setSlow] = useState(false);
  useEffect(() => {
    if (!source) return;
    setSlow(false);
    const timer = setTimeout(() => setSlow(true), SLOW);
    return () => {
      clearTimeout(timer);
      URL.revokeObjectURL(source);
    };
  }, [source]);

  const choose = (file: File) => {
    film.current++;
    playing.current = false;
    setMeasuring(false);
    setFailure(file.size === 0 ? "The file is empty: there is no film in it." : null);
    setSize(null);
    wish.current = { time: null, steps: 0 };
    now.current = START;
    finest.current = 0;
    setShown(START);
    setSource(URL.createObjectURL(file));
  };

  /** Does what is asked for until nothing is. */
  const work = useCallback(() => {
    const all = async () => {
      for (;;) {
        const at = video.current;
        const { time, steps } = wish.current;
        if (!at || playing.current || !Number.isFinite(at.duration) || (time === null && steps === 0)) return;
        if (time !== null) {
          wish.current.time = null;
          now.current = await shownAt(at, time, now.current, rate.current);
        } else {
          const whole = Math.abs(steps) >= JUMP ? steps : Math.sign(steps);
          wish.current.steps -= whole;
          now.current = await stepped(at, now.current, whole, rate.current);
        }
        setShown(now.current);
      }
    };
    working.current ??= all().finally(() => {
      working.current = null;
    });
    return working.current;
  }, []);

  /** Both resolve when the film stands where it was sent last. */
  const go = useCallback(
    (time: number) => {
      wish.current = { time, steps: 0 };
      return work();
    },
    [work],
  );
  const step = useCallback(
    (by: number) => {
      wish.current.steps += by;
      return work();
    },
    [work],
  );

  /** A film that was recorded without its length tells it once somebody has gone to its end. */
  const opened = async (): Promise<{ width: number; height: number } | null> => {
    const at = video.current;
    if (!at) return null;
    const mine = film.current;
    if (at.videoWidth === 0) {
      setFailure(
        "This browser finds no picture in the file: it may hold sound alone. Save the film in another format, MP4 with H.264.",
      );
      return null;
    }
    if (!Number.isFinite(at.duration)) {
      const known = new Promise((resolve) => at.addEventListener("durationchange", resolve, { once: true }));
      at.currentTime = 1e7;
      await Promise.race([known, pause(3000)]);
    }
    if (film.current !== mine) return null;
    if (!Number.isFinite(at.duration) || at.duration <= 0) {
      setFailure(
        "How long the film is cannot be told, so it cannot be stepped through. Save it anew as MP4.",
      );
      return null;
    }
    const size = { width: at.videoWidth, height: at.videoHeight };
    setSize({ ...size, duration: at.duration });
    await go(0);
    return film.current === mine ? size : null;
  };

  const broken = () =>
    setFailure(
      "This browser cannot play the file: it is no film, or one of a kind that it does not know. Save the film in another format, MP4 with H.264.",
    );

  /** By playing a moment of it; null where the browser does not tell its frames, or there are too few. */
  const measure = async (): Promise<Rate | null | "stopped"> => {
    const at = video.current;
    if (!at || !("requestVideoFrameCallback" in at)) return null;
    const mine = film.current;
    if (playing.current) return "stopped";
    playing.current = true;
    setMeasuring(true);
    const heard: { time: number; count: number }[] = [];
    let going = true;
    const hear = (_: number, { mediaTime, presentedFrames }: VideoFrameCallbackMetadata) => {
      if (!going) return;
      heard.push({ time: mediaTime, count: presentedFrames });
      at.requestVideoFrameCallback(hear);
    };
    at.requestVideoFrameCallback(hear);
    at.currentTime = 0;
    await at.play().catch(() => {});
    for (
      let waited = 0;
      waited < 2000 && heard.length < 25 && !at.ended && film.current === mine;
      waited += 50
    )
      await pause(50);
    going = false;
    if (film.current !== mine) return "stopped";
    at.pause();
    playing.current = false;
    // Back to where it stood, then on with the steps that were asked for meanwhile.
    wish.current.time ??= now.current.time;
    await work();
    setMeasuring(false);
    const found = rateOf(heard);
    finest.current = found?.uneven ? found.finest : 0;
    return found;
  };

  return { video, source, size, shown, failure, slow, measuring, choose, go, step, opened, broken, measure };
}
