"use client";
/** What lies under the cross, large, and buttons that move it by one picture element. */
import { type RefObject, useEffect, useRef } from "react";
import { Button } from "@/app/_ui/button";
import type { trials } from "@/lib/throw";
import styles from "../trials.module.css";

type Pixel = trials.Pixel;

/** Picture elements across the loupe. */
const ACROSS = 40;

export function Loupe({
  video,
  cross,
  shown,
  onCross,
}: {
  video: RefObject<HTMLVideoElement | null>;
  cross: Pixel;
  /** s: drawn anew with every frame. */
  shown: number;
  onCross: (at: Pixel) => void;
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [x, y] = cross;
  // biome-ignore lint/correctness/useExhaustiveDependencies: another frame is another picture.
  useEffect(() => {
    const brush = canvas.current?.getContext("2d");
    const film = video.current;
    if (!brush || !film || film.readyState < 2) return;
    const { width, height } = brush.canvas;
    const high = (ACROSS * height) / width;
    brush.imageSmoothingEnabled = false;
    brush.fillStyle = "#000";
    brush.fillRect(0, 0, width, height);
    brush.drawImage(film, x - ACROSS / 2, y - high / 2, ACROSS, high, 0, 0, width, height);
    for (const [colour, wide] of [
      ["#000", 3],
      ["#fff", 1],
    ] as const) {
      brush.strokeStyle = colour;
      brush.lineWidth = wide;
      brush.strokeRect(width / 2 - 6, height / 2 - 6, 12, 12);
    }
  }, [video, x, y, shown]);
  const nudge = (label: string, sign: string, dx: number, dy: number) => (
    <Button aria-label={`Cross ${label}`} onClick={() => onCross([x + dx, y + dy])}>
      {sign}
    </Button>
  );
  return (
    <div>
      <canvas
        ref={canvas}
        width={272}
        height={204}
        className={styles.loupe}
        role="img"
        aria-label="What lies under the cross, enlarged"
      />
      <div className={styles.nudges}>
        <span />
        {nudge("up", "↑", 0, -1)}
        <span />
        {nudge("left", "←", -1, 0)}
        {nudge("down", "↓", 0, 1)}
        {nudge("right", "→", 1, 0)}
      </div>
    </div>
  );
}
