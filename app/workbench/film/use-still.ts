"use client";
import { useSyncExternalStore } from "react";

const STILL = "(prefers-reduced-motion: reduce)";

/** Whether the reader asks for pictures that do not move. */
export const useStill = (): boolean =>
  useSyncExternalStore(
    watch,
    () => matchMedia(STILL).matches,
    () => false,
  );

function watch(changed: () => void) {
  const query = matchMedia(STILL);
  query.addEventListener("change", changed);
  return () => query.removeEventListener("change", changed);
}
