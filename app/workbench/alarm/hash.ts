/** A short name for a long text, so that what was judged need not be kept whole. Not against anybody who means harm. */

/** FNV-1a over UTF-16 units, twice 32 bits from two beginnings; as base 36. */
export function shortName(text: string): string {
  let [a, b] = [0x811c9dc5, 0x01000193];
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    a = Math.imul(a ^ unit, 0x01000193);
    b = Math.imul(b ^ unit ^ (a >>> 15), 0x85ebca6b);
  }
  return (a >>> 0).toString(36) + (b >>> 0).toString(36);
}
