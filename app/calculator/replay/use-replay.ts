"use client";
/** Asking the server what explains a landing, and for the zone to draw it in. */
import { useEffect, useRef, useState } from "react";
import type { Answered } from "@/app/_ui/replay/explanations";
import type { HazardSheet, Replay } from "@/lib/throw";

/** As the API names its fields. */
export interface Problem {
  detail?: string;
  title?: string;
  errors?: { field: string; message: string }[];
}

interface Asked extends Answered {
  /** What was asked, to see whether the form has moved on since. */
  body: string;
}

export type AskedReplay = { state: "idle" } | { state: "asking" } | { state: "refused"; problem: Problem };

/** The server's own deadlines are shorter; this is for a network that swallows the answer. */
const PATIENCE = 90_000;

export function useReplay() {
  const [answered, setAnswered] = useState<Asked | null>(null);
  const [asked, setAsked] = useState<AskedReplay>({ state: "idle" });
  const asking = useRef<AbortController | null>(null);
  useEffect(() => () => asking.current?.abort(), []);

  async function ask(body: { request: object }, kind: string): Promise<void> {
    asking.current?.abort();
    const controller = new AbortController();
    asking.current = controller;
    setAsked({ state: "asking" });
    const answer = await post<Replay>("/api/v1/replay", body, controller);
    if (asking.current !== controller) return;
    if ("problem" in answer) {
      setAsked({ state: "refused", problem: answer.problem });
      return;
    }
    const now = { replay: answer.value, reach: null, kind, body: JSON.stringify(body) };
    setAnswered(now);
    setAsked({ state: "idle" });
    // The server has just made this sheet: it remembers it.
    const sheet = await post<HazardSheet>("/api/v1/hazard", body.request, controller);
    if (asking.current === controller && "value" in sheet)
      setAnswered({ ...now, reach: sheet.value.exclusion.reach });
  }

  return { answered, asked, ask };
}

async function post<T>(
  path: string,
  body: object,
  controller: AbortController,
): Promise<{ value: T } | { problem: Problem }> {
  const timer = setTimeout(() => controller.abort(), PATIENCE);
  try {
    const response = await fetch(path, {
      method: "POST",
      headers: { "content-type": "application/json", accept: "application/json" },
      body: JSON.stringify(body),
      signal: controller.signal,
    });
    const answer = await response.json().catch(() => null);
    if (response.ok && answer) return { value: answer };
    return {
      problem: answer ?? { detail: `The server answered ${response.status}. Wait a moment and ask again.` },
    };
  } catch {
    return {
      problem: {
        detail: "No answer from the server. Your numbers are kept; look at the connection and ask again.",
      },
    };
  } finally {
    clearTimeout(timer);
  }
}
