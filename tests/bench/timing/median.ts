import { performance } from "node:perf_hooks";

/** Median of `count` runs after a warm-up, ms. */
export function median(work: () => unknown, count = 15, warming = 5): number {
  for (let i = 0; i < warming; i++) work();
  const times = Array.from({ length: count }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[count >> 1];
}
