/** What a browser says it runs on, in two words: enough to tell one phone of a badge from another, and no person. */

/** The first that matches: many name others too. */
const SYSTEMS = [
  [/Android/, "Android"],
  [/iPhone|iPad|iPod/, "iOS"],
  [/Windows/, "Windows"],
  [/CrOS/, "ChromeOS"],
  [/Macintosh|Mac OS X/, "macOS"],
  [/Linux|X11/, "Linux"],
] as const;
const BROWSERS = [
  [/Edg(e|A|iOS)?\//, "Edge"],
  [/Firefox\/|FxiOS\//, "Firefox"],
  [/CriOS\/|Chrom(e|ium)\//, "Chrome"],
  [/Safari\//, "Safari"],
] as const;

export function deviceOf(userAgent: string | null): string {
  const named = (list: readonly (readonly [RegExp, string])[]) =>
    list.find(([pattern]) => pattern.test(userAgent ?? ""))?.[1];
  const found = [named(SYSTEMS), named(BROWSERS)].filter((word) => word !== undefined);
  return found.length > 0 ? found.join(", ") : "unknown device";
}
