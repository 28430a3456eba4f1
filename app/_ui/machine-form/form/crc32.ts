/**
 * The check sum CRC-32/ISO-HDLC (ISO/IEC 13239; that of PNG and gzip): polynomial 04C11DB7 reflected, register begun and
 * ended with all ones. Its published check value, of the nine characters "123456789", is CBF43926.
 */

const REFLECTED = 0xedb88320;

/** Of a text's UTF-8 bytes, as eight hexadecimal digits. */
export function crc32(text: string): string {
  let register = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) {
    register ^= byte;
    for (let bit = 0; bit < 8; bit++) register = (register >>> 1) ^ (register & 1 ? REFLECTED : 0);
  }
  return ((register ^ 0xffffffff) >>> 0).toString(16).padStart(8, "0").toUpperCase();
}
