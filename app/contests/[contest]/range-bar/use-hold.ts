"use client";
/** A hold from this page: no confirmation, and sent until the server has written it down. */
import { useCallback, useRef, useState } from "react";
import { newKey } from "@/app/_ui/write/key";
import { type Sent, send } from "@/app/_ui/write/send";
import type { HoldAnswer } from "@/lib/api/contracts";

/** "calling": no answer yet. "unstored": it stands, and the server's disk is full. */
export type Calling = "idle" | "calling" | "stands" | "unstored" | "late" | { refused: string };

const AGAIN = 1000; // ms
const PATIENCE = 4000;

/** `onStands`: the server has taken the hold of this id. */
export function useHold(slug: string, onStands: (id: string) => void) {
  const [calling, setCalling] = useState<Calling>("idle");
  const [pressedAt, setPressedAt] = useState(0);
  const busy = useRef(false);
  const told = useRef(onStands);
  told.current = onStands;

  const press = useCallback(async () => {
    setPressedAt(Date.now());
    if (busy.current) return;
    busy.current = true;
    setCalling("calling");
    const key = newKey();
    const pressed = Date.now();
    let standing: boolean = false;
    for (;;) {
      const body: { pressedAgo: number; standing: boolean } = {
        pressedAgo: Math.max(0, Date.now() - pressed),
        standing,
      };
      const sent: Sent<HoldAnswer> = await send(
        "POST",
        `/api/v1/contests/${slug}/range/hold`,
        body,
        key,
        PATIENCE,
      );
      if (sent.ok) {
        const { id, done, stored } = sent.data;
        standing = done !== "late";
        if (standing) told.current(id);
        setCalling(done === "late" ? "late" : stored ? "stands" : "unstored");
        if (stored) break;
      } else if (sent.reached && sent.settled) {
        setCalling({ refused: sent.problem.detail });
        break;
      }
      await new Promise((resolve) => setTimeout(resolve, AGAIN));
    }
    busy.current = false;
  }, [slug]);

  return { calling, pressedAt, press };
}
