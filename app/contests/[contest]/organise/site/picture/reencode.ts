/**
 * A photo or scan as it goes up: drawn anew in the browser, so that nothing of the file is left but what can be seen
 * (no position, no names, no serial numbers), and small enough for a phone.
 */
import { PICTURE_BYTES, PICTURE_SIDE, PICTURE_TYPES } from "@/lib/api/contracts";

export type Reencoded =
  | { ok: true; blob: Blob; width: number; height: number; base64: string }
  | { ok: false; message: string };

const QUALITY = 0.85;

export async function reencode(file: File): Promise<Reencoded> {
  const refused = (message: string): Reencoded => ({ ok: false, message });
  if (!(PICTURE_TYPES as readonly string[]).includes(file.type))
    return refused("Picture: choose a JPEG, PNG or WebP file. Save or scan others as one of these.");
  if (file.size > PICTURE_BYTES)
    return refused("Picture: the file is larger than 12 MB. Make it smaller first.");
  try {
    const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
    const scale = Math.min(1, PICTURE_SIDE / Math.max(picture.width, picture.height));
    const [width, height] = [Math.round(picture.width * scale), Math.round(picture.height * scale)];
    const canvas = document.createElement("canvas");
    canvas.width = width;
    canvas.height = height;
    const pen = canvas.getContext("2d");
    if (!pen) return refused("Picture: this browser could not draw it. Try a smaller one.");
    pen.fillStyle = "#ffffff";
    pen.fillRect(0, 0, width, height);
    pen.drawImage(picture, 0, 0, width, height);
    picture.close();
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/jpeg", QUALITY));
    if (!blob) return refused("Picture: this browser could not write it. Try a smaller one.");
    return { ok: true, blob, width, height, base64: await base64Of(blob) };
  } catch {
    return refused(
      "Picture: this file cannot be read as a picture. Open it on this device and save it again.",
    );
  }
}

function base64Of(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).split(",")[1] ?? "");
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(blob);
  });
}
