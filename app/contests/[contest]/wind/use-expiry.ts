"use client";
import { useEffect, useRef } from "react";
import type { WindOfDay } from "@/lib/api/contracts";

/** How often the clock is looked at, ms: a phone that slept finds out soon after it wakes. */
const OFTEN = 5_000;
/** The server's clock must have passed the instant too, ms. */
const LATER = 1_500;

/** Calls `onExpired` once the next reading in force has expired: no event tells of that. */
export function useExpiry({ nextExpiry, at }: Pick<WindOfDay, "nextExpiry" | "at">, onExpired: () => void) {
  const handler = useRef(onExpired);
  handler.current = onExpired;
  useEffect(() => {
    if (!nextExpiry) return;
    // By the server's clock, from when the answer came: a phone's own may be wrong.
    const due = Date.now() + Date.parse(nextExpiry) - Date.parse(at) + LATER;
    const timer = setInterval(() => Date.now() >= due && handler.current(), OFTEN);
    return () => clearInterval(timer);
  }, [nextExpiry, at]);
}
