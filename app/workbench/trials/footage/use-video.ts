"use client";
/** A film of this device, frame by frame. It is read where it lies: nothing of it is sent or kept. */
import { useCallback, useEffect, useRef, useState } from "react";

export interface Shown {
  /** s, of the frame that is really shown where the browser tells it. */
  time: number;
  /** The browser told it; else it is where the film was sent. */
  timed: boolean;
}

const START: Shown = { time: 0, timed: false };
/** How long a frame may take to be shown before its time is taken for untold, ms. */
const PATIENCE = 1000;
/** Two times within it are of one frame, s. */
const SAME = 4e-4;
/** Steps that wait are made one by one up to so many, else in one jump. */
const JUMP = 5;

export interface Rate {
  /** Frames a second, by what is usual between frames. */
  rate: number;
  uneven: boolean;
}

export function useVideo(plays: number) {
  const video = useRef<HTMLVideoElement>(null);
  const [source, setSource] = useState<string | null>(null);
  const [size, setSize] = useState<{ width: number; height: number; duration: number } | null>(null);
  const [shown, setShown] = useState<Shown>(START);
  const [failure, setFailure] = useState<string | null>(null);
  const now = useRef<Shown>(START);
  const rate = useRef(plays);
  rate.current = plays;
  // What is asked for and not done yet: of several places only the last one is gone to, steps add up.
  const wish = useRef<{ time: number | null; steps: number }>({ time: null, steps: 0 });
  const busy = useRef(false);

  useEffect(() => () => void (source && URL.revokeObjectURL(source)), [source]);

  const choose = (file: File) => {
    setFailure(file.size === 0 ? "The file is empty: there is no film in it." : null);
    setSize(null);
    wish.current = { time: null, steps: 0 };
    now.current = START;
    setShown(START);
    setSource(URL.createObjectURL(file));
  };

  const work = useCallback(async () => {
    if (busy.current) return;
    busy.current = true;
    try {
      for (;;) {
        const at = video.current;
        const { time, steps } = wish.current;
        if (!at || !Number.isFinite(at.duration) || (time === null && steps === 0)) break;
        if (time !== null) {
          wish.current.time = null;
          now.current = await shownAt(at, time);
        } else {
          const whole = Math.abs(steps) >= JUMP ? steps : Math.sign(steps);
          wish.current.steps -= whole;
          now.current = await stepped(at, now.current, whole, rate.current);
        }
        setShown(now.current);
      }
    } finally {
      busy.current = false;
    }
  }, []);

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
    const film = at.src;
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
    if (video.current?.src !== film) return null;
    if (!Number.isFinite(at.duration) || at.duration <= 0) {
      setFailure(
        "How long the film is cannot be told, so it cannot be stepped through. Save it anew as MP4.",
      );
      return null;
    }
    const size = { width: at.videoWidth, height: at.videoHeight };
    setSize({ ...size, duration: at.duration });
    await go(0);
    return size;
  };

  const broken = () =>
    setFailure(
      "This browser cannot play the file: it is no film, or one of a kind that it does not know. Save the film in another format, MP4 with H.264.",
    );

  /** By playing a moment of it; null where the browser does not tell its frames, or there are too few. */
  const measure = async (): Promise<Rate | null> => {
    const at = video.current;
    if (!at || !("requestVideoFrameCallback" in at)) return null;
    const back = now.current.time;
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
    for (let waited = 0; waited < 2000 && heard.length < 25 && !at.ended; waited += 50) await pause(50);
    going = false;
    at.pause();
    await go(back);
    return rateOf(heard);
  };

  return { video, source, size, shown, failure, choose, go, step, opened, broken, measure };
}

/** Where the page missed a frame the count tells it: such steps are left out. */
export function rateOf(heard: readonly { time: number; count: number }[]): Rate | null {
  const steps = heard.slice(1).flatMap(({ time, count }, i) => {
    const before = heard[i] as { time: number; count: number };
    return time > before.time && count === before.count + 1 ? [time - before.time] : [];
  });
  if (steps.length < 4) return null;
  steps.sort((a, b) => a - b);
  const at = (share: number) => steps[Math.floor(share * (steps.length - 1))] as number;
  const middle = at(0.5);
  // Files round times to the millisecond: the mean of what is about as long as the middle one has less of that.
  const usual = steps.filter((step) => Math.abs(step - middle) < Math.max(0.0015, 0.2 * middle));
  const mean = usual.reduce((sum, step) => sum + step, 0) / usual.length;
  return { rate: Math.round(100 / mean) / 100, uneven: at(0.8) - at(0.2) > Math.max(0.0025, 0.2 * middle) };
}

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

/** Some frames on or back from one that is shown: the next one is wherever the time of the picture first changes. */
async function stepped(video: HTMLVideoElement, from: Shown, by: number, rate: number): Promise<Shown> {
  if (!from.timed) {
    const frame = Math.max(0, Math.round(from.time * rate) + by);
    const shown = await shownAt(video, (frame + 0.5) / rate);
    return shown.timed ? shown : { time: frame / rate, timed: false };
  }
  if (Math.abs(by) > 1) return shownAt(video, from.time + (by + 0.5) / rate);
  if (by < 0) return shownAt(video, from.time - Math.min(0.002, 0.1 / rate));
  for (const frames of [0.6, 1.1, 1.6, 2.6, 4.6]) {
    const shown = await shownAt(video, from.time + frames / rate);
    if (!shown.timed || shown.time > from.time + SAME) return shown;
    if (from.time + frames / rate >= video.duration) break;
  }
  return from;
}

/** Goes there and sees which frame it is. */
async function shownAt(video: HTMLVideoElement, time: number): Promise<Shown> {
  const target = Math.min(Math.max(0, time), video.duration);
  let told: number | null = null;
  let heard = 0;
  const framed = new Promise<void>((resolve) => {
    if (!("requestVideoFrameCallback" in video)) {
      resolve();
      return;
    }
    heard = video.requestVideoFrameCallback((_, { mediaTime }) => {
      told = mediaTime;
      resolve();
    });
  });
  const sought = new Promise((resolve) => video.addEventListener("seeked", resolve, { once: true }));
  video.currentTime = target;
  await Promise.race([sought, pause(3000)]);
  await Promise.race([framed, pause(PATIENCE)]);
  if (heard && told === null) video.cancelVideoFrameCallback(heard);
  return told === null ? { time: target, timed: false } : { time: told, timed: true };
}
