/**
 * A new idempotency key: 128 random bits. `crypto.randomUUID` exists only in a secure context, and a phone that
 * reached a laptop over plain http has none; `getRandomValues` is always there.
 */
export function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
