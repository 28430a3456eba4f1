"use client";
/** Asking the server for the official sheet, and keeping its last answer through a reload. */
import { useEffect, useRef, useState } from "react";
import { keep, kept } from "@/app/_ui/browser-memory";
import type { FieldErrors } from "@/app/_ui/machine-form/form/request";
import { problemErrors, type Reading } from "@/app/_ui/machine-form/form/request";
import type { FormState } from "@/app/_ui/machine-form/form/state";
import { readEvents } from "@/app/_ui/read-events";
import type { HazardRequest, HazardSheet } from "@/lib/throw";

export interface Official {
  sheet: HazardSheet;
  request: HazardRequest;
  /** The body that was sent, to see whether the form has moved on since. */
  body: string;
}

export type Asked =
  | { state: "idle" }
  /** How far the server has come, 0 to 1; null until it has begun. */
  | { state: "asking"; done: number | null }
  | { state: "refused"; errors: FieldErrors };

const SHEET_KEY = "fairthrow-calculator-sheet";
/** The server's own deadline is shorter; this is for a network that swallows the answer. */
const PATIENCE = 90_000;

export function useOfficial() {
  const [official, setOfficial] = useState<Official | null>(null);
  const [asked, setAsked] = useState<Asked>({ state: "idle" });
  const asking = useRef<AbortController | null>(null);

  useEffect(() => {
    try {
      const before = JSON.parse(kept(SHEET_KEY) ?? "null");
      if (before?.sheet?.exclusion?.reach?.length === 360 && before.request?.machine) setOfficial(before);
    } catch {
      keep(SHEET_KEY, null);
    }
    return () => asking.current?.abort();
  }, []);

  async function ask(form: FormState, reading: Reading): Promise<boolean> {
    if (!reading.ok) {
      setAsked({ state: "refused", errors: reading.errors });
      return false;
    }
    asking.current?.abort();
    const controller = new AbortController();
    asking.current = controller;
    setAsked({ state: "asking", done: null });
    const answer = await send(reading.body, controller, (done) => {
      if (asking.current === controller) setAsked({ state: "asking", done });
    });
    if (asking.current !== controller) return false;
    if ("problem" in answer) {
      setAsked({ state: "refused", errors: problemErrors(form, answer.problem) });
      return false;
    }
    const next = { sheet: answer.sheet, request: reading.request, body: JSON.stringify(reading.body) };
    setOfficial(next);
    keep(SHEET_KEY, JSON.stringify(next));
    setAsked({ state: "idle" });
    return true;
  }

  return { official, asked, ask };
}

type Answer = { sheet: HazardSheet } | { problem: Parameters<typeof problemErrors>[1] };

async function send(
  body: object,
  controller: AbortController,
  onProgress: (done: number) => void,
): Promise<Answer> {
  const timer = setTimeout(() => controller.abort(), PATIENCE);
  try {
    const response = await fetch("/api/v1/hazard", {
      method: "POST",
      headers: { "content-type": "application/json", accept: "text/event-stream, application/json;q=0.9" },
      body: JSON.stringify(body),
      signal: controller.signal,
    });
    if (response.ok && response.body && response.headers.get("content-type")?.includes("text/event-stream")) {
      return await followed(response.body, onProgress);
    }
    // A refusal, or something between that does not pass events on.
    const answer = await response.json().catch(() => null);
    if (response.ok && answer) return { sheet: answer };
    const detail = `The server answered ${response.status}. Wait a moment and ask again.`;
    return { problem: answer ?? { detail } };
  } catch {
    return {
      problem: {
        detail:
          "No answer from the server. Your numbers are kept; look at the connection and ask again. The quick answer above works without it.",
      },
    };
  } finally {
    clearTimeout(timer);
  }
}

/** The server's events up to its answer. */
async function followed(
  body: ReadableStream<Uint8Array>,
  onProgress: (done: number) => void,
): Promise<Answer> {
  for await (const { event, data } of readEvents(body)) {
    if (event === "progress") onProgress(JSON.parse(data).done);
    if (event === "answer") return { sheet: JSON.parse(data) };
    if (event === "problem") return { problem: JSON.parse(data) };
  }
  return { problem: { detail: "The server's answer broke off. Your numbers are kept: ask again." } };
}
