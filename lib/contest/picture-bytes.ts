/**
 * What a picture's bytes say of it before anything is stored: its kind by its first bytes, its size in pixels, and
 * whether it carries data that may tell where and by whom it was taken. Nothing is decoded.
 */

export interface PictureBytes {
  mediaType: "image/jpeg" | "image/png" | "image/webp";
  width: number;
  height: number;
  /** Exif or XMP: may hold positions, names, serial numbers. */
  describesItself: boolean;
}

/** Null for whatever is no whole JPEG, PNG or WebP: SVG, which may carry script, is none of them. */
export function readPictureBytes(bytes: Uint8Array): PictureBytes | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    return jpeg(view) ?? png(view) ?? webp(view);
  } catch (error) {
    // Cut off in the middle of its head.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

const word = (view: DataView, at: number): string =>
  String.fromCharCode(...Array.from({ length: 4 }, (_, index) => view.getUint8(at + index)));

/** ISO/IEC 10918-1 annex B: segments up to the frame's header. Exif and XMP come in APP1. */
function jpeg(view: DataView): PictureBytes | null {
  if (view.getUint16(0) !== 0xffd8) return null;
  let describesItself = false;
  let at = 2;
  for (;;) {
    if (view.getUint8(at) !== 0xff) return null;
    const marker = view.getUint8(at + 1);
    if (marker === 0xff) {
      at += 1; // fill byte
      continue;
    }
    if (marker === 0xe1) describesItself = true;
    const isFrame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
    if (isFrame) {
      const [height, width] = [view.getUint16(at + 5), view.getUint16(at + 7)];
      return { mediaType: "image/jpeg", width, height, describesItself };
    }
    // The scan, or the end, before any frame.
    if (marker === 0xda || marker === 0xd9) return null;
    at += 2 + view.getUint16(at + 2);
  }
}

/** ISO/IEC 15948: IHDR first; Exif in eXIf, XMP and what people write in the text chunks. */
function png(view: DataView): PictureBytes | null {
  if (view.getUint32(0) !== 0x89504e47 || view.getUint32(4) !== 0x0d0a1a0a) return null;
  if (word(view, 12) !== "IHDR") return null;
  const [width, height] = [view.getUint32(16), view.getUint32(20)];
  let describesItself = false;
  for (let at = 8; at < view.byteLength; at += 12 + view.getUint32(at)) {
    const kind = word(view, at + 4);
    if (["eXIf", "iTXt", "tEXt", "zTXt"].includes(kind)) describesItself = true;
    if (kind === "IEND") return { mediaType: "image/png", width, height, describesItself };
  }
  return null;
}

/** RFC 9649: a simple file has its size in the first chunk, an extended one in VP8X, with flags for Exif and XMP. */
function webp(view: DataView): PictureBytes | null {
  if (word(view, 0) !== "RIFF" || word(view, 8) !== "WEBP") return null;
  const mediaType = "image/webp";
  const kind = word(view, 12);
  if (kind === "VP8 " && view.getUint8(23) === 0x9d && view.getUint16(24) === 0x012a) {
    const [width, height] = [view.getUint16(26, true) & 0x3fff, view.getUint16(28, true) & 0x3fff];
    return { mediaType, width, height, describesItself: false };
  }
  if (kind === "VP8L" && view.getUint8(20) === 0x2f) {
    const bits = view.getUint32(21, true);
    return {
      mediaType,
      width: (bits & 0x3fff) + 1,
      height: ((bits >>> 14) & 0x3fff) + 1,
      describesItself: false,
    };
  }
  if (kind === "VP8X") {
    const three = (at: number) => view.getUint16(at, true) + view.getUint8(at + 2) * 65536;
    const describesItself = (view.getUint8(20) & 0b1100) !== 0;
    return { mediaType, width: three(24) + 1, height: three(27) + 1, describesItself };
  }
  return null;
}
