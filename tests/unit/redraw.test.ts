/** A photograph is drawn anew: what its file said of itself is gone, and what would fill the memory is refused. */
import sharp from "sharp";
import { expect, test } from "vitest";
import { readPictureBytes } from "@/lib/contest/picture-bytes";
import { redraw } from "@/lib/contest/redraw";

const picture = (width: number, height: number) =>
  sharp({ create: { width, height, channels: 3, background: "#c84" } });

/** A JPEG segment. */
const segment = (marker: number, content: Buffer): Buffer => {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(content.length + 2, 2);
  return Buffer.concat([head, content]);
};

/** Exif as a phone writes it (CIPA DC-008): held sideways, with a place, and a small picture of the same in IFD1. */
function exif(thumbnail: Buffer): Buffer {
  const entry = (tag: number, type: number, count: number, value: number) => {
    const bytes = Buffer.alloc(12);
    bytes.writeUInt16BE(tag, 0);
    bytes.writeUInt16BE(type, 2);
    bytes.writeUInt32BE(count, 4);
    if (type === 3) bytes.writeUInt16BE(value, 8);
    else bytes.writeUInt32BE(value, 8);
    return bytes;
  };
  const directory = (entries: Buffer[], next: number) => {
    const count = Buffer.alloc(2);
    count.writeUInt16BE(entries.length);
    const after = Buffer.alloc(4);
    after.writeUInt32BE(next);
    return Buffer.concat([count, ...entries, after]);
  };
  const [gps, ifd1] = [8 + 30, 8 + 30 + 30];
  const latitude = ifd1 + 30;
  const rationals = Buffer.alloc(24);
  for (const [index, number] of [44, 1, 12, 1, 3456, 100].entries())
    rationals.writeUInt32BE(number, 4 * index);
  const tiff = Buffer.concat([
    Buffer.from([0x4d, 0x4d, 0, 42, 0, 0, 0, 8]),
    directory([entry(0x0112, 3, 1, 6), entry(0x8825, 4, 1, gps)], ifd1),
    directory([entry(0x0001, 2, 2, 0x4e000000), entry(0x0002, 5, 3, latitude)], 0),
    directory([entry(0x0201, 4, 1, latitude + 24), entry(0x0202, 4, 1, thumbnail.length)], 0),
    rationals,
    thumbnail,
  ]);
  return segment(0xe1, Buffer.concat([Buffer.from("Exif\0\0"), tiff]));
}

/** The markers of a JPEG up to its picture. */
function markersOf(bytes: Uint8Array): number[] {
  const markers: number[] = [];
  for (
    let at = 2;
    bytes[at + 1] !== 0xda;
    at += 2 + (bytes[at + 2] as number) * 256 + (bytes[at + 3] as number)
  )
    markers.push(bytes[at + 1] as number);
  return markers;
}

test("place, names, colour profile and small picture of a phone's file are gone, and it stands upright", async () => {
  const plain = await picture(600, 400).withIccProfile("p3").jpeg().toBuffer();
  const thumbnail = await picture(16, 12).jpeg({ quality: 33 }).toBuffer();
  const xmp = segment(0xe1, Buffer.from("http://ns.adobe.com/xap/1.0/\0<x>taken by Somebody</x>"));
  const iptc = segment(0xed, Buffer.from("Photoshop 3.0\0Somebody"));
  const words = segment(0xfe, Buffer.from("at home"));
  // A film of the same moment behind the picture, as some phones keep it.
  const behind = Buffer.from("ftypmp42 Somebody again");
  const file = Buffer.concat([
    plain.subarray(0, 2),
    exif(thumbnail),
    xmp,
    iptc,
    words,
    plain.subarray(2),
    behind,
  ]);
  const told = await sharp(file).metadata();
  expect([told.orientation, told.icc && "icc", told.xmp && "xmp"]).toEqual([6, "icc", "xmp"]);
  expect(told.exif?.includes(thumbnail)).toBe(true);

  const { content, width, height } = await redraw(file);
  expect([width, height]).toEqual([400, 600]);
  const kept = Buffer.from(content);
  for (const trace of ["Exif", "xap", "ICC_PROFILE", "Photoshop", "Somebody", "at home"])
    expect(kept.includes(trace), trace).toBe(false);
  expect(kept.includes(thumbnail.subarray(-60))).toBe(false);
  // JFIF, tables, frame: nothing that could say anything.
  expect(markersOf(content).filter((marker) => ![0xe0, 0xdb, 0xc0, 0xc2, 0xc4].includes(marker))).toEqual([]);
  const after = await sharp(content).metadata();
  expect([after.exif, after.xmp, after.iptc, after.icc, after.orientation]).toEqual(Array(5).fill(undefined));
  expect(readPictureBytes(content)).toMatchObject({ mediaType: "image/jpeg", describesItself: false });
});

test("PNG and WebP come as JPEG, large ones smaller, see-through ones on white", async () => {
  const png = await sharp({ create: { width: 3000, height: 1000, channels: 4, background: "#0000" } })
    .withExif({ IFD0: { Artist: "Somebody" } })
    .png()
    .toBuffer();
  const { content, width, height } = await redraw(png);
  expect([width, height]).toEqual([2048, 683]);
  expect((await sharp(content).stats()).channels[0]?.min).toBe(255);
  const webp = await redraw(await picture(200, 100).withXmp("<x>Somebody</x>").webp().toBuffer());
  expect(readPictureBytes(webp.content)).toMatchObject({ mediaType: "image/jpeg", width: 200 });
  expect(Buffer.from(webp.content).includes("Somebody")).toBe(false);
});

test("what is no photograph, damaged, or unfolds to too much is refused with what to do", async () => {
  const jpeg = await picture(300, 200).jpeg().toBuffer();
  const bomb = Buffer.from(await picture(64, 64).png().toBuffer());
  bomb.writeUInt32BE(60_000, 16);
  bomb.writeUInt32BE(60_000, 20);
  const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from("ftypheic"), Buffer.alloc(200)]);
  const refusals: [Uint8Array, RegExp][] = [
    [bomb, /60000 × 60000 pixels: at most 50 million/],
    [jpeg.subarray(0, jpeg.length / 2), /damaged or cut off/],
    [jpeg.subarray(0, 20), /no JPEG, PNG or WebP/],
    [heic, /HEIC.*as JPEG/],
    [Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="99" height="99"/>'), /no JPEG/],
    [await picture(20, 20).png().toBuffer(), /only 20 × 20 pixels/],
    [Buffer.concat([jpeg, Buffer.alloc(12 * 1024 * 1024)]), /larger than 12 MB/],
  ];
  for (const [bytes, words] of refusals) await expect(redraw(bytes), String(words)).rejects.toThrow(words);
});
