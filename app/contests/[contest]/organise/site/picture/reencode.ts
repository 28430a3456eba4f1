/**
 * A photo or scan as it goes up: drawn anew in the browser, so that nothing of the file is left but what can be seen
 * (no position, no names, no serial numbers), and small enough for a phone.
 */
import { drawAnew } from "@/app/_ui/draw-anew";
import { PICTURE_BYTES, PICTURE_SIDE, PICTURE_TYPES } from "@/lib/api/contracts";

export type Reencoded =
  | { ok: true; blob: Blob; width: number; height: number; base64: string }
  | { ok: false; message: string };

export async function reencode(file: File): Promise<Reencoded> {
  const refused = (message: string): Reencoded => ({ ok: false, message });
  if (!(PICTURE_TYPES as readonly string[]).includes(file.type))
    return refused("Picture: choose a JPEG, PNG or WebP file. Save or scan others as one of these.");
  if (file.size > PICTURE_BYTES)
    return refused("Picture: the file is larger than 12 MB. Make it smaller first.");
  const drawn = await drawAnew(file, PICTURE_SIDE);
  if (!drawn)
    return refused(
      "Picture: this file cannot be read as a picture. Open it on this device and save it again, or try a smaller one.",
    );
  return { ok: true, ...drawn, base64: await base64Of(drawn.blob) };
}

function base64Of(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).split(",")[1] ?? "");
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(blob);
  });
}
