/**
 * Online map tiles, off by default: TILES_URL is where they come from, TILES_ATTRIBUTION the words that their maker
 * asks for. Plain JavaScript: next.config.js reads it before anything is built.
 */

/**
 * The setting, or null when there is none.
 * @param {Record<string, string | undefined>} env
 * @returns {{ url: string, attribution: string } | null}
 */
export function tilesOf(env) {
  const url = env.TILES_URL?.trim();
  if (!url) return null;
  tileHost(url);
  return { url, attribution: env.TILES_ATTRIBUTION?.trim() ?? "" };
}

/**
 * The one host that the content security policy lets pictures come from.
 * @param {string} url
 */
export function tileHost(url) {
  const host = /^(https?:\/\/(?:\{s\}\.)?[a-z0-9.-]+(?::\d+)?)\//i.exec(url)?.[1];
  const whole = ["{z}", "{x}", "{y}"].every((part) => url.includes(part));
  if (!host || !whole)
    throw new Error(
      `TILES_URL must be an address with {z}, {x} and {y}, such as https://tiles.example/{z}/{x}/{y}.png; it is ${url}`,
    );
  return host.replace("{s}", "*");
}
