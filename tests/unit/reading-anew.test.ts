/** Reading what has changed without doing so for everybody and every change, and without missing the last one. */
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { nowAndThen } from "@/app/_ui/live/now-and-then";
import { SharedReading } from "@/lib/contest/shared-reading";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

it("a page reads at once, then once for all that it heard during the pause, and no more when it is quiet", async () => {
  const read = vi.fn(async () => {});
  const hear = nowAndThen(read, 2000);
  hear();
  expect(read).toHaveBeenCalledTimes(1);
  for (let change = 0; change < 40; change++) {
    hear();
    await vi.advanceTimersByTimeAsync(50);
  }
  expect(read).toHaveBeenCalledTimes(2);
  await vi.advanceTimersByTimeAsync(10_000);
  expect(read).toHaveBeenCalledTimes(2);
  hear();
  expect(read).toHaveBeenCalledTimes(3);
});

it("a reading that is slow or fails does not keep the page from the next", async () => {
  const read = vi.fn(() => new Promise<void>((_, fail) => setTimeout(fail, 5000)));
  const hear = nowAndThen(read, 2000);
  hear();
  await vi.advanceTimersByTimeAsync(100);
  hear();
  await vi.advanceTimersByTimeAsync(4000);
  expect(read).toHaveBeenCalledTimes(1);
  await vi.advanceTimersByTimeAsync(1000);
  expect(read).toHaveBeenCalledTimes(2);
});

it("who asks while the server reads shares the next reading, which sees what was there when they asked", async () => {
  let state = 0;
  const work = vi.fn(async () => {
    const seen = state;
    await new Promise((resolve) => setTimeout(resolve, 100));
    return seen;
  });
  const shared = new SharedReading<number>();
  const first = shared.read("round 1", work);
  state = 1;
  const later = [1, 2, 3].map(() => shared.read("round 1", work));
  const other = shared.read("round 2", work);
  await vi.advanceTimersByTimeAsync(200);
  expect(await Promise.all([first, ...later, other])).toEqual([0, 1, 1, 1, 1]);
  expect(work).toHaveBeenCalledTimes(3);
});

it("a reading that fails fails for those who share it, and the next one is made anew", async () => {
  const shared = new SharedReading<string>();
  const failing = shared.read("round", () => Promise.reject(new Error("The disk is full.")));
  const next = shared.read("round", async () => "there");
  await expect(failing).rejects.toThrow("full");
  expect(await next).toBe("there");
});
