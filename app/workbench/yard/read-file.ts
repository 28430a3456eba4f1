/** A site file read on this device, beside what is in the yard already. Fetched when a file is chosen. */
import { isNowhere } from "@/app/_ui/position";
import type { ImportPreview } from "@/lib/api/contracts";
import { alreadyThere, previewOf } from "@/lib/contest/import-preview";
import type { GeoPoint } from "@/lib/earth";
import { FileRefusal, LIMITS, readSiteFile, type SiteFile } from "@/lib/exchange";
import { linesOf } from "@/lib/zones/lines";
import { siteOf } from "./site";
import { newYard, type Yard } from "./yard";

type Previewed = { ok: true; into: Yard; preview: ImportPreview } | { ok: false; message: string };

/** `yard`: null where the file is to begin one, around its first place. */
export async function previewOfFile(file: File, yard: Yard | null, swap: boolean): Promise<Previewed> {
  try {
    // What is too large is not read into memory; the reader says so of any bytes beyond its limit.
    const bytes = new Uint8Array(
      file.size > LIMITS.file ? new ArrayBuffer(LIMITS.file + 1) : await file.arrayBuffer(),
    );
    const read = (site: GeoPoint) => readSiteFile(bytes, { fileName: file.name, site, swap });
    const into = yard ?? begunAround(read({ latitude: 0, longitude: 0 }));
    const { format, notes, swapHelps, items } = read(into);
    const there = alreadyThere(siteOf(into));
    const preview = { format, notes, swapHelps, items: items.map((item, at) => previewOf(item, at, there)) };
    return { ok: true, into, preview };
  } catch (error) {
    if (error instanceof FileRefusal) return { ok: false, message: error.message };
    return { ok: false, message: "The file could not be read on this device. Choose it again." };
  }
}

/** Not around 0°, 0°: a file of receivers begins there while they had no position yet. */
function begunAround({ items }: SiteFile): Yard {
  let nowhere = false;
  for (const { geometry } of items) {
    const [longitude, latitude] = geometry ? (linesOf(geometry)[0]?.[0] ?? []) : [];
    if (longitude === undefined || latitude === undefined) continue;
    if (!isNowhere({ latitude, longitude })) return newYard({ latitude, longitude });
    nowhere = true;
  }
  throw new FileRefusal(
    nowhere
      ? "Its places lie at 0°, 0°, in the sea off Africa: they had no position when they were saved. Take them anew, or begin the yard with a position."
      : "No place of this file can be used, so no yard can begin around it.",
  );
}
