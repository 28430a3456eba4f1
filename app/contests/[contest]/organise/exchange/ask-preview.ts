/** Sending a file for its preview. */
import type { ImportPreview, Problem } from "@/lib/api/contracts";

export type Previewed = { ok: true; preview: ImportPreview } | { ok: false; message: string };

const UNREACHED =
  "The server did not answer, or the file could not be read. Check the network and choose the file again.";

export async function askPreview(slug: string, file: File, swap: boolean): Promise<Previewed> {
  const query = new URLSearchParams({ name: file.name.slice(-300), swap: swap ? "1" : "0" });
  try {
    const response = await fetch(`/api/v1/contests/${slug}/import-preview?${query}`, {
      method: "POST",
      headers: { "Content-Type": "application/octet-stream" },
      body: await file.arrayBuffer(),
      cache: "no-store",
    });
    const answer: unknown = await response.json();
    if (response.ok) return { ok: true, preview: answer as ImportPreview };
    return { ok: false, message: (answer as Problem).detail };
  } catch {
    return { ok: false, message: UNREACHED };
  }
}
