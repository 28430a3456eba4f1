/** The instants of the swing that a picture or a table of it names. */
import type { Point, Preview, SwingFrame } from "@/lib/throw";

export interface ReleaseMark {
  letter: "M" | "F" | "B";
  label: string;
  time: number;
  at: Point;
  /** Degrees above the horizontal, downrange 0. */
  angle: number;
}

/** Where and when the throws as meant and at their worst are let go. */
export function releaseMarks(preview: Preview): ReleaseMark[] {
  const labels = { nominal: "as meant", forward: "worst forwards", backward: "worst backwards" } as const;
  const letters = { nominal: "M", forward: "F", backward: "B" } as const;
  const throws = { nominal: preview.nominal, ...preview.worst };
  return preview.flights.flatMap((flight) => {
    const thrown = throws[flight.of];
    const [x, y] = flight.path;
    if (!thrown || thrown.releaseTime === null || thrown.launchAngle === null) return [];
    if (x === undefined || y === undefined) return [];
    return [
      {
        letter: letters[flight.of],
        label: labels[flight.of],
        time: thrown.releaseTime,
        at: [x, y] as const,
        angle: thrown.launchAngle,
      },
    ];
  });
}

/** Index of the frame closest to an instant. */
export function nearest(frames: readonly SwingFrame[], time: number): number {
  let best = 0;
  for (let index = 1; index < frames.length; index++) {
    const [a, b] = [frames[index] as SwingFrame, frames[best] as SwingFrame];
    if (Math.abs(a.time - time) < Math.abs(b.time - time)) best = index;
  }
  return best;
}
