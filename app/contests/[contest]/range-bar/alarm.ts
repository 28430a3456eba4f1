"use client";
/** The sound and the shaking of a hold, until somebody has seen it. Browsers let a page sound once it was touched. */
import { useEffect, useState } from "react";

const EVERY = 2400; // ms
/** Two tones, s and Hz: a horn's is one. */
const TONES = [
  [0, 0.35, 960],
  [0.4, 0.35, 640],
  [0.8, 0.35, 960],
  [1.2, 0.35, 640],
] as const;
const SHAKES = [500, 150, 500, 150, 500];

let context: AudioContext | null = null;
function ready(): void {
  if (typeof AudioContext === "undefined") return;
  context ??= new AudioContext();
  void context.resume();
}

function sound(): void {
  if (context?.state !== "running") return;
  for (const [from, lasts, pitch] of TONES) {
    const tone = context.createOscillator();
    const loudness = context.createGain();
    tone.type = "square";
    tone.frequency.value = pitch;
    loudness.gain.value = 0.5;
    tone.connect(loudness).connect(context.destination);
    tone.start(context.currentTime + from);
    tone.stop(context.currentTime + from + lasts);
  }
}

/** Browsers refuse it, with a complaint, where nobody has touched the page. */
function shake(pattern: number | number[]): void {
  if (navigator.userActivation?.hasBeenActive ?? true) navigator.vibrate?.(pattern);
}

/** Answers whether this page cannot sound yet. */
export function useAlarm(on: boolean): { mute: boolean } {
  const [mute, setMute] = useState(false);
  useEffect(() => {
    addEventListener("pointerdown", ready);
    addEventListener("keydown", ready);
    return () => {
      removeEventListener("pointerdown", ready);
      removeEventListener("keydown", ready);
    };
  }, []);
  useEffect(() => {
    if (!on) return;
    const alarm = () => {
      sound();
      shake(SHAKES);
      setMute(context?.state !== "running");
    };
    alarm();
    const timer = setInterval(alarm, EVERY);
    return () => {
      clearInterval(timer);
      shake(0);
    };
  }, [on]);
  return { mute };
}
