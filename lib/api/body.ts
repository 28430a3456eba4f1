/** Reading a body of bounded size: JSON, or a file. */
import { Refusal } from "../contest/errors";

/** Throws 415 for another media type, 413 for too many bytes (without reading on), 400 for what is not JSON. */
export async function readJson(request: Request, limit: number): Promise<unknown> {
  const type = request.headers.get("content-type")?.split(";")[0]?.trim().toLowerCase();
  if (type !== "application/json")
    throw new Refusal(415, "media-type", "Send the body as JSON, with Content-Type: application/json.");
  const bytes = await readAll(request, limit);
  try {
    return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    throw new Refusal(
      400,
      "not-json",
      "The body is not valid JSON in UTF-8. Check commas, quotes and brackets.",
    );
  }
}

/** The body as it came, for files. Throws 415 and 413 likewise. */
export async function readBytes(request: Request, limit: number): Promise<Uint8Array> {
  const type = request.headers.get("content-type")?.split(";")[0]?.trim().toLowerCase();
  if (type !== "application/octet-stream")
    throw new Refusal(
      415,
      "media-type",
      "Send the file as it is, with Content-Type: application/octet-stream.",
    );
  return readAll(request, limit);
}

async function readAll(request: Request, limit: number): Promise<Uint8Array> {
  const tooLarge = new Refusal(
    413,
    "too-large",
    `The body is too large: at most ${Math.round(limit / 1024)} KiB.`,
  );
  if (Number(request.headers.get("content-length") ?? 0) > limit) throw tooLarge;
  const chunks: Uint8Array[] = [];
  let size = 0;
  const reader = request.body?.getReader();
  while (reader) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.byteLength;
    if (size > limit) {
      await reader.cancel();
      throw tooLarge;
    }
    chunks.push(value);
  }
  return Buffer.concat(chunks);
}
