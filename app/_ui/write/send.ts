/** The one way from a page to /api/v1: a key with every write, and an answer that never throws. */
import { hearClock } from "@/app/_ui/offline/clock";
import type { Problem } from "@/lib/api/contracts";

export type Method = "POST" | "PUT" | "PATCH" | "DELETE";

export type Sent<T> =
  | { ok: true; data: T }
  /** Answered, and refused. `settled` is false where it may have been carried out all the same. */
  | { ok: false; reached: true; settled: boolean; problem: Problem }
  /** No answer: whether it arrived is not known, so the same key must go with the next try. */
  | { ok: false; reached: false };

const PATIENCE = 15_000;

export async function send<T>(
  method: Method,
  url: string,
  body: unknown,
  key: string,
  wait = PATIENCE,
  /** Of a team without a badge: its way to its own entry. */
  bearer?: string,
): Promise<Sent<T>> {
  const patience = new AbortController();
  const timer = setTimeout(() => patience.abort(), wait);
  const asked = Date.now();
  try {
    const response = await fetch(url, {
      method,
      headers: {
        "Content-Type": body instanceof Blob ? "application/octet-stream" : "application/json",
        "Idempotency-Key": key,
        ...(bearer && { Authorization: `Bearer ${bearer}` }),
      },
      body: body instanceof Blob ? body : JSON.stringify(body ?? {}),
      signal: patience.signal,
      cache: "no-store",
    });
    hearClock(response.headers.get("date"), asked, Date.now());
    const text = await response.text();
    const answer: unknown = text === "" ? null : JSON.parse(text);
    if (response.ok) return { ok: true, data: answer as T };
    return {
      ok: false,
      reached: true,
      settled: response.status < 500 && response.status !== 401 && response.status !== 429,
      problem: asProblem(answer, response.status),
    };
  } catch {
    // The network, the patience, or an answer that some box in between made up.
    return { ok: false, reached: false };
  } finally {
    clearTimeout(timer);
  }
}

function asProblem(answer: unknown, status: number): Problem {
  if (answer && typeof answer === "object" && "detail" in answer) return answer as Problem;
  return {
    type: "about:blank",
    title: "Not done",
    status,
    detail: "The server could not do this. Try again; what you typed is still here.",
    code: "unexpected",
  };
}
