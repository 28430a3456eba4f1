"use client";
/** A film of this device, frame by frame. It is read where it lies: nothing of it is sent or kept. */
import { useCallback, useEffect, useRef, useState } from "react";

export interface Shown {
  /** Which frame, counted at the rate that is told. */
  index: number;
  /** s, of the frame that is really shown where the browser tells it. */
  time: number;
}

/** How long a frame may take to be shown before its time is taken from its number, ms. */
const PATIENCE = 250;

export function useVideo(rate: number) {
  const video = useRef<HTMLVideoElement>(null);
  const [source, setSource] = useState<string | null>(null);
  const [size, setSize] = useState<{ width: number; height: number; duration: number } | null>(null);
  const [shown, setShown] = useState<Shown>({ index: 0, time: 0 });
  const [failure, setFailure] = useState<string | null>(null);
  const wanted = useRef(0);

  useEffect(() => () => void (source && URL.revokeObjectURL(source)), [source]);

  const choose = (file: File | undefined) => {
    if (!file) return;
    setFailure(null);
    setSize(null);
    wanted.current = 0;
    setShown({ index: 0, time: 0 });
    setSource(URL.createObjectURL(file));
  };

  const go = useCallback(
    async (index: number) => {
      const at = video.current;
      if (!at || !Number.isFinite(at.duration)) return;
      const last = Math.max(0, Math.ceil(at.duration * rate) - 1);
      const target = Math.min(last, Math.max(0, index));
      wanted.current = target;
      const time = await seek(at, (target + 0.5) / rate);
      // Of steps that follow fast on each other only the last one is shown.
      if (wanted.current === target) setShown({ index: target, time: time ?? target / rate });
    },
    [rate],
  );

  /** A film that was recorded without its length tells it once somebody has gone to its end. */
  const opened = async () => {
    const at = video.current;
    if (!at) return;
    if (at.videoWidth === 0) {
      setFailure(
        "This browser finds no picture in the file. Save the film in another format, MP4 with H.264.",
      );
      return;
    }
    if (!Number.isFinite(at.duration)) {
      const known = new Promise((resolve) => at.addEventListener("durationchange", resolve, { once: true }));
      at.currentTime = 1e7;
      await Promise.race([known, pause(3000)]);
    }
    if (!Number.isFinite(at.duration)) {
      setFailure(
        "How long the film is cannot be told, so it cannot be stepped through. Save it anew as MP4.",
      );
      return;
    }
    setSize({ width: at.videoWidth, height: at.videoHeight, duration: at.duration });
    await go(0);
  };

  const broken = () =>
    setFailure("This browser cannot play the file. Save the film in another format, MP4 with H.264.");

  /** Frames a second, by playing a moment of it; null where the browser does not tell its frames. */
  const measure = async (): Promise<number | null> => {
    const at = video.current;
    if (!at || !("requestVideoFrameCallback" in at)) return null;
    const times: number[] = [];
    let going = true;
    const hear = (_: number, { mediaTime }: VideoFrameCallbackMetadata) => {
      times.push(mediaTime);
      if (going) at.requestVideoFrameCallback(hear);
    };
    at.requestVideoFrameCallback(hear);
    await at.play().catch(() => {});
    for (let waited = 0; waited < 2000 && times.length < 25 && !at.ended; waited += 50) await pause(50);
    going = false;
    at.pause();
    const steps = times
      .slice(1)
      .flatMap((time, i) => (time > (times[i] ?? 0) ? [time - (times[i] ?? 0)] : []));
    steps.sort((a, b) => a - b);
    const middle = steps[Math.floor(steps.length / 2)];
    await go(wanted.current);
    return steps.length < 5 || !middle ? null : Math.round(100 / middle) / 100;
  };

  return { video, source, size, shown, failure, choose, go, opened, broken, measure };
}

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

/** Goes there; the time of the frame that is shown then, null where the browser does not tell. */
async function seek(video: HTMLVideoElement, time: number): Promise<number | null> {
  let told: number | null = null;
  const framed = new Promise<void>((resolve) => {
    if (!("requestVideoFrameCallback" in video)) return;
    video.requestVideoFrameCallback((_, { mediaTime }) => {
      told = mediaTime;
      resolve();
    });
  });
  const sought = new Promise((resolve) => video.addEventListener("seeked", resolve, { once: true }));
  video.currentTime = time;
  await Promise.race([sought, pause(3000)]);
  await Promise.race([framed, pause(PATIENCE)]);
  return told;
}
