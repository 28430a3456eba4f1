/** Asking the server as a team: by the token of its link. */
import type { Problem } from "@/lib/api/contracts";

export type Asked<T> =
  | { ok: true; data: T }
  | { ok: false; reached: boolean; status: number; detail: string };

const PATIENCE = 15_000;

export const bearing = (token: string) => ({ Authorization: `Bearer ${token}` });

export async function askAs<T>(url: string, token: string): Promise<Asked<T>> {
  const unreached = {
    ok: false,
    reached: false,
    status: 0,
    detail: "The server did not answer: check the network and try again.",
  } as const;
  try {
    const response = await fetch(url, {
      headers: bearing(token),
      cache: "no-store",
      signal: AbortSignal.timeout(PATIENCE),
    });
    const answer = await response.json();
    if (response.ok) return { ok: true, data: answer as T };
    return { ok: false, reached: true, status: response.status, detail: (answer as Problem).detail };
  } catch {
    return unreached;
  }
}
