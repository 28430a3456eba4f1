/** The picture underneath: which bytes are taken, how it is pinned, how it is served. */
import { deflateSync } from "node:zlib";
import { beforeAll, expect, test } from "vitest";
import { type Answer, at, expecting, type Fair, newFair, rowCounts, send } from "./fair";

let fair: Fair;
beforeAll(async () => {
  fair = await newFair(2);
});

const base64 = (bytes: Uint8Array) => Buffer.from(bytes).toString("base64");

/** A PNG of one grey, with further chunks before its end. Check sums are not looked at. */
function png(width: number, height: number, extra: [string, string][] = []): Buffer {
  const chunk = (kind: string, content: Buffer) => {
    const head = Buffer.alloc(4);
    head.writeUInt32BE(content.length);
    return Buffer.concat([head, Buffer.from(kind, "latin1"), content, Buffer.alloc(4)]);
  };
  const size = Buffer.alloc(13);
  size.writeUInt32BE(width, 0);
  size.writeUInt32BE(height, 4);
  size[8] = 8;
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk("IHDR", size),
    ...extra.map(([kind, text]) => chunk(kind, Buffer.from(text))),
    chunk("IDAT", deflateSync(Buffer.alloc(64))),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

/** As much of a JPEG as says its size. */
function jpeg(width: number, height: number, { exif = false } = {}): Buffer {
  const app1 = Buffer.from("ffe1000845786966000000".slice(0, 20), "hex");
  const frame = Buffer.from("ffc0001108000000000301220002110103110100", "hex");
  frame.writeUInt16BE(height, 5);
  frame.writeUInt16BE(width, 7);
  return Buffer.concat([Buffer.from("ffd8", "hex"), ...(exif ? [app1] : []), frame, Buffer.alloc(30)]);
}

function webp(width: number, height: number, flags = 0): Buffer {
  const bytes = Buffer.alloc(64);
  bytes.write("RIFF", 0, "latin1");
  bytes.write("WEBPVP8X", 8, "latin1");
  bytes[20] = flags;
  bytes.writeUIntLE(width - 1, 24, 3);
  bytes.writeUIntLE(height - 1, 27, 3);
  return bytes;
}

const pin = (x: number, y: number, bearing: number, distance: number) => {
  const [longitude, latitude] = at(bearing, distance);
  return { x, y, latitude, longitude, label: `stake ${x}` };
};
/** North up, 1 m a pixel: the corners of a square about the middle. */
const pins = [pin(0, 0, 315, 141.4), pin(200, 0, 45, 141.4), pin(200, 200, 135, 141.4)];
const picture = (content: Uint8Array, more: object = {}) => ({
  name: "Drone",
  content: base64(content),
  ...more,
});

test("a pinned picture is kept, shown in the overview without its content, and served for good", async () => {
  const bytes = png(200, 200);
  const added = await fair.lay("POST", "/aerial-pictures", picture(bytes, { pins, opacity: 0.5 }));
  expect(added).toMatchObject({
    mediaType: "image/png",
    width: 200,
    height: 200,
    opacity: 0.5,
    model: null,
    pins,
  });
  expect((await expecting(200, "GET", fair.base)).aerialPictures).toEqual([added]);

  const address = `${fair.base}/aerial-pictures/${added.id}`;
  const response = await send("GET", address);
  expect(Buffer.from(await response.arrayBuffer()).equals(bytes)).toBe(true);
  expect(response.headers.get("content-type")).toBe("image/png");
  expect(response.headers.get("cache-control")).toContain("immutable");
  const tag = response.headers.get("etag") ?? "";
  expect(tag).toBe(`"${added.sha256}"`);
  const again = await send("GET", address, { headers: { "if-none-match": tag } });
  expect([again.status, await again.text()]).toEqual([304, ""]);

  await fair.lay("PATCH", `/aerial-pictures/${added.id}`, { retired: true });
  expect((await send("GET", address)).status).toBe(404);
  const back = await fair.lay("PATCH", `/aerial-pictures/${added.id}`, { retired: false, shown: false });
  expect(back).toMatchObject({ pins, shown: false, retired: false });
  expect((await send("GET", address)).status).toBe(200);
});

test("names and labels stay out of the scorebook; the pins and the hash are in it", async () => {
  const added = await fair.lay("POST", "/aerial-pictures", picture(jpeg(640, 480), { pins }));
  await fair.lay("PATCH", `/aerial-pictures/${added.id}`, { pins: pins.slice(0, 2), name: "By kite" });
  const { entries } = await expecting(200, "GET", `${fair.base}/scorebook`);
  const bodies = entries
    .filter((each: Answer) => each.subjectId === added.id)
    .map((each: Answer) => each.body);
  expect(bodies).toHaveLength(2);
  expect(bodies.join()).not.toMatch(/Drone|kite|stake/);
  expect(JSON.parse(bodies[1])).toMatchObject({
    sha256: added.sha256,
    pins: pins.map(({ label: _, ...rest }) => rest),
  });
});

test.each<[string, string, Uint8Array, RegExp]>([
  [
    "content",
    "an SVG drawing",
    Buffer.from(`<svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>`),
    /no JPEG/,
  ],
  ["content", "an animation of another kind", Buffer.from(`GIF89a${"\0".repeat(60)}`, "latin1"), /no JPEG/],
  ["content", "a PNG that is cut off", png(100, 100).subarray(0, 60), /cut off/],
  [
    "content",
    "a JPEG without a frame",
    Buffer.from(`ffd8${"ffe00010".padEnd(36, "0").repeat(3)}`, "hex"),
    /cut off/,
  ],
  ["content", "too many pixels", png(4097, 100), /4097 × 100/],
  ["content", "hardly any pixels", jpeg(8, 8), /at least 16/],
  ["content", "a JPEG with Exif", jpeg(100, 100, { exif: true }), /Exif/],
  ["content", "a PNG with Exif", png(100, 100, [["eXIf", "x"]]), /Exif/],
  ["content", "a WebP with XMP", webp(100, 100, 0b0100), /XMP/],
])("%s: %s is refused and leaves no trace", async (field, _, bytes, words) => {
  const before = await rowCounts(fair.db);
  const problem = await fair.as("organiser")(422, "POST", "/aerial-pictures", picture(bytes));
  expect(problem.errors[0]).toMatchObject({ field, message: expect.stringMatching(words) });
  expect(await rowCounts(fair.db)).toEqual(before);
});

test("a WebP is taken, and pins that cannot be meant are refused with their field", async () => {
  const organiser = fair.as("organiser");
  const { id } = await organiser(201, "POST", "/aerial-pictures", picture(webp(300, 200)));
  const pinned = (changed: object[], more = {}) =>
    organiser(422, "PATCH", `/aerial-pictures/${id}`, { pins: changed, ...more });
  expect((await pinned(pins.slice(0, 1))).errors[0].message).toMatch(/at least two/);
  const swapped = [pins[1], pins[0], pins[2]].map((each, index) => ({
    ...pins[index],
    ...each,
    x: pins[index]?.x,
    y: pins[index]?.y,
  }));
  expect((await pinned(swapped)).errors[0].message).toMatch(/mirrored/);
  expect((await pinned(pins.slice(0, 2), { model: "affine" })).errors[0].message).toMatch(/three pins/);
  const far = [pins[0], { ...pins[1], latitude: -40 }];
  expect((await pinned(far as object[])).errors[0].field).toBe("pins.1.latitude");
});

test("a body larger than a picture may be is refused before it is read through", async () => {
  const text = JSON.stringify({ name: "x", content: "A".repeat(18 * 1024 * 1024) });
  const response = await send("POST", `${fair.base}/aerial-pictures`, { as: fair.tokens.organiser, text });
  expect(response.status).toBe(413);
});

test("a picture of several megabytes comes back byte for byte", async () => {
  const big = Buffer.concat([jpeg(4096, 4096), Buffer.alloc(9_000_000, 0xa5)]);
  const { id } = await fair.lay("POST", "/aerial-pictures", picture(big));
  const response = await send("GET", `${fair.base}/aerial-pictures/${id}`);
  expect(Buffer.from(await response.arrayBuffer()).equals(big)).toBe(true);
});
