"use client";
/** The frame with what was tapped on it, and the cross that a finger, a mouse or the arrow keys move. */
import type { KeyboardEvent, PointerEvent, RefObject } from "react";
import type { trials } from "@/lib/throw";
import styles from "../trials.module.css";
import { POINT_WORDS, STILL_POINTS, type Tapped } from "./marks";

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
      // A picture that stands upright leaves room on the screen to scroll by.
      style={{ maxWidth: `min(60rem, ${((80 * width) / height).toFixed(1)}vh)` }}
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

function namedPoints(tapped: Tapped) {
  const out: { key: string; at: Pixel; name: string }[] = [];
  for (const name of STILL_POINTS) {
    const at = tapped[name];
    if (at) out.push({ key: name, at, name: POINT_WORDS[name].short });
  }
  tapped.frames.forEach(({ tip, projectile }, i) => {
    if (tip) out.push({ key: `tip-${i}`, at: tip, name: `T${i + 1}` });
    if (projectile) out.push({ key: `projectile-${i}`, at: projectile, name: `O${i + 1}` });
  });
  return out;
}
