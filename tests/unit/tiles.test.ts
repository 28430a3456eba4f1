/** Online tiles are off until they are set, and then one host alone may send pictures. */
import { expect, test } from "vitest";

const load = async (): Promise<{ tilesOf(env: object): object | null; tileHost(url: string): string }> =>
  import("@/lib/launch/tiles.mjs" as string);

test("nothing is set by default", async () => {
  const { tilesOf } = await load();
  expect(tilesOf({})).toBeNull();
  expect(tilesOf({ TILES_URL: " " })).toBeNull();
});

test("the policy names the tiles' host and no more", async () => {
  const { tileHost, tilesOf } = await load();
  expect(tileHost("https://tiles.example/v1/{z}/{x}/{y}.png?key=1")).toBe("https://tiles.example");
  expect(tileHost("https://{s}.tiles.example:8443/{z}/{x}/{y}.png")).toBe("https://*.tiles.example:8443");
  const set = { TILES_URL: "https://tiles.example/{z}/{x}/{y}.png", TILES_ATTRIBUTION: "© Invented Survey" };
  expect(tilesOf(set)).toEqual({ url: set.TILES_URL, attribution: "© Invented Survey" });
});

test.each([
  "tiles.example/{z}/{x}/{y}.png",
  "https://tiles.example/{z}/{x}.png",
  "https://tiles.example; script-src */{z}/{x}/{y}",
  "javascript:alert(1)//{z}/{x}/{y}",
])("%s is refused", async (url) => {
  const { tilesOf } = await load();
  expect(() => tilesOf({ TILES_URL: url })).toThrow(/TILES_URL must be an address/);
});
