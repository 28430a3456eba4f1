"use client";
/** The frame with what was tapped on it, and the cross that a finger, a mouse or the arrow keys move. */
import { type KeyboardEvent, type PointerEvent, type RefObject, useEffect, useRef } from "react";
import { Button } from "@/app/_ui/button";
import type { trials } from "@/lib/throw";
import styles from "../trials.module.css";
import { POINT_WORDS, type Tapped } from "./marks";

type Pixel = trials.Pixel;

export function Picture({
  video,
  source,
  size,
  cross,
  tapped,
  onCross,
  onMark,
  onStep,
  onOpened,
  onBroken,
}: {
  video: RefObject<HTMLVideoElement | null>;
  source: string;
  /** Null until the film is open. */
  size: { width: number; height: number } | null;
  cross: Pixel;
  tapped: Tapped;
  onCross: (at: Pixel) => void;
  onMark: () => void;
  onStep: (frames: number) => void;
  onOpened: () => void;
  onBroken: () => void;
}) {
  const point = (event: PointerEvent<HTMLDivElement>) => {
    const box = video.current?.getBoundingClientRect();
    if (!size || !box) return;
    onCross([
      ((event.clientX - box.left) / box.width) * size.width,
      ((event.clientY - box.top) / box.height) * size.height,
    ]);
  };
  const press = (event: KeyboardEvent<HTMLDivElement>) => {
    const far = event.shiftKey ? 10 : 1;
    const [x, y] = cross;
    const moves: Record<string, () => void> = {
      ArrowLeft: () => onCross([x - far, y]),
      ArrowRight: () => onCross([x + far, y]),
      ArrowUp: () => onCross([x, y - far]),
      ArrowDown: () => onCross([x, y + far]),
      Enter: onMark,
      PageDown: () => onStep(1),
      PageUp: () => onStep(-1),
    };
    const move = moves[event.key];
    if (!move) return;
    event.preventDefault();
    move();
  };
  const { width, height } = size ?? { width: 16, height: 9 };
  const unit = width / 100;
  return (
    <div
      className={styles.stage}
      role="application"
      aria-label="Frame of the film. Arrow keys move the cross, with Shift ten steps; Enter marks the point, Page Down and Page Up step through the frames."
      tabIndex={0}
      onKeyDown={press}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        point(event);
      }}
      onPointerMove={(event) => event.buttons > 0 && point(event)}
    >
      <video
        ref={video}
        src={source}
        muted
        playsInline
        preload="auto"
        onLoadedMetadata={onOpened}
        onError={onBroken}
        aria-hidden="true"
        tabIndex={-1}
      />
      {size ? (
        <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true" focusable="false">
          {namedPoints(tapped).map(({ key, at: [x, y], name }) => (
            <g key={key}>
              <circle cx={x} cy={y} r={0.8 * unit} className={styles.crossEdge} strokeWidth={0.6 * unit} />
              <circle cx={x} cy={y} r={0.8 * unit} className={styles.cross} strokeWidth={0.3 * unit} />
              <text x={x + unit} y={y - unit} fontSize={3 * unit} className={styles.markName}>
                {name}
              </text>
            </g>
          ))}
          {[styles.crossEdge, styles.cross].map((look, i) => (
            <path
              key={look}
              className={look}
              strokeWidth={(i === 0 ? 0.7 : 0.25) * unit}
              d={`M${cross[0] - 5 * unit} ${cross[1]}h${4 * unit}m${2 * unit} 0h${4 * unit}M${cross[0]} ${cross[1] - 5 * unit}v${4 * unit}m0 ${2 * unit}v${4 * unit}`}
            />
          ))}
        </svg>
      ) : null}
    </div>
  );
}

function namedPoints({ pivot, from, to, frames }: Tapped) {
  const out: { key: string; at: Pixel; name: string }[] = [];
  for (const [name, at] of Object.entries({ pivot, from, to })) {
    if (at) out.push({ key: name, at, name: POINT_WORDS[name as "pivot"].short });
  }
  frames.forEach(({ tip, projectile }, i) => {
    if (tip) out.push({ key: `tip-${i}`, at: tip, name: `T${i + 1}` });
    if (projectile) out.push({ key: `projectile-${i}`, at: projectile, name: `O${i + 1}` });
  });
  return out;
}

/** Picture elements across the loupe. */
const ACROSS = 40;

/** What is under the cross, large, and buttons that move it by one picture element. */
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
