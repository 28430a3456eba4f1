/** A picture file drawn anew by the browser: nothing is left but what can be seen, and no side is longer than asked. */

export interface Drawn {
  /** JPEG. */
  blob: Blob;
  width: number;
  height: number;
}

const QUALITY = 0.85;

/** Null for what this browser cannot read as a picture, or has no room to draw. */
export async function drawAnew(file: Blob, side: number): Promise<Drawn | null> {
  try {
    const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
    const scale = Math.min(1, side / Math.max(picture.width, picture.height));
    const [width, height] = [Math.round(picture.width * scale), Math.round(picture.height * scale)];
    const canvas = document.createElement("canvas");
    canvas.width = width;
    canvas.height = height;
    const pen = canvas.getContext("2d");
    if (!pen) return null;
    pen.fillStyle = "#ffffff";
    pen.fillRect(0, 0, width, height);
    pen.drawImage(picture, 0, 0, width, height);
    picture.close();
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/jpeg", QUALITY));
    return blob && { blob, width, height };
  } catch {
    return null;
  }
}
