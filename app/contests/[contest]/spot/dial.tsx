"use client";
/** A bearing turned with a thumb, with what can be seen from the post around it; arrow keys turn it too. */
import type { KeyboardEvent, PointerEvent } from "react";
import { compassPoint } from "@/app/_ui/compass";
import { bearingText } from "@/app/_ui/words";
import { normalBearing, planeBearing, turnOf } from "@/lib/earth/bearing";
import styles from "./spot.module.css";

const MIDDLE = 160;
const RIM = 132;
const RADIANS = Math.PI / 180;
/** Names nearer than this would lie over one another, degrees. */
const SIDE_BY_SIDE = 25;

/** Where a bearing lies on the dial, so far from its middle. */
const at = (bearing: number, radius: number) => ({
  x: MIDDLE + radius * Math.sin(bearing * RADIANS),
  y: MIDDLE - radius * Math.cos(bearing * RADIANS),
});

const STEPS: Record<string, number> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 10,
  PageDown: -10,
};

export interface Landmark {
  name: string;
  /** As the dial counts, degrees. */
  bearing: number;
}

/** Names of what lies side by side stand below one another, towards the middle. */
function apart(landmarks: readonly Landmark[]): (Landmark & { depth: number })[] {
  const placed: (Landmark & { depth: number })[] = [];
  for (const landmark of [...landmarks].sort((a, b) => a.bearing - b.bearing)) {
    const near = placed.filter(({ bearing }) => Math.abs(turnOf(bearing, landmark.bearing)) < SIDE_BY_SIDE);
    const depth = [0, 1, 2, 3].find((free) => near.every((other) => other.depth !== free)) ?? 0;
    placed.push({ ...landmark, depth });
  }
  return placed;
}

export function Dial({
  value,
  start,
  landmarks,
  onTurn,
}: {
  /** Degrees; null until it is turned. */
  value: number | null;
  /** Where a key turns it from. */
  start: number;
  landmarks: readonly Landmark[];
  onTurn: (bearing: number) => void;
}) {
  const touch = (event: PointerEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const east = event.clientX - box.left - box.width / 2;
    const north = box.top + box.height / 2 - event.clientY;
    if (Math.hypot(east, north) > 8) onTurn(normalBearing(Math.round(planeBearing({ east, north }))));
  };
  const press = (event: KeyboardEvent) => {
    const step = STEPS[event.key];
    if (step === undefined) return;
    event.preventDefault();
    onTurn(normalBearing(Math.round(value ?? start) + step));
  };
  const hand = at(value ?? start, RIM);
  return (
    <div
      className={styles.dial}
      role="slider"
      tabIndex={0}
      aria-label="Bearing of the splash"
      aria-valuemin={0}
      aria-valuemax={359}
      aria-valuenow={Math.round(value ?? start)}
      aria-valuetext={value === null ? "not turned yet" : `${bearingText(value)}, ${compassPoint(value)}`}
      onKeyDown={press}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        touch(event);
      }}
      onPointerMove={(event) => event.currentTarget.hasPointerCapture(event.pointerId) && touch(event)}
    >
      <svg viewBox="0 0 320 320" aria-hidden="true" focusable="false">
        <circle className={styles.rim} cx={MIDDLE} cy={MIDDLE} r={RIM} />
        {Array.from({ length: 36 }, (_, index) => {
          const [from, to] = [at(index * 10, RIM), at(index * 10, RIM + (index % 9 === 0 ? 14 : 7))];
          return <path key={index} className={styles.tick} d={`M${from.x} ${from.y}L${to.x} ${to.y}`} />;
        })}
        {["N", "E", "S", "W"].map((letter, index) => {
          const { x, y } = at(index * 90, RIM + 21);
          return (
            <text key={letter} className={styles.letter} x={x} y={y + 5}>
              {letter}
            </text>
          );
        })}
        {apart(landmarks).map(({ name, bearing, depth }) => {
          const [sign, word] = [at(bearing, RIM - 12), at(bearing, RIM - 26 - 18 * depth)];
          const anchor = word.x > MIDDLE + 30 ? "end" : word.x < MIDDLE - 30 ? "start" : "middle";
          return (
            <g key={name}>
              <circle className={styles.landmark} cx={sign.x} cy={sign.y} r="5" />
              <text className={styles.landmarkName} x={word.x} y={word.y + 4} textAnchor={anchor}>
                {name}
              </text>
            </g>
          );
        })}
        <g className={value === null ? styles.idleHand : styles.hand}>
          <path d={`M${MIDDLE} ${MIDDLE}L${hand.x} ${hand.y}`} />
          <circle cx={hand.x} cy={hand.y} r="17" />
        </g>
      </svg>
    </div>
  );
}
