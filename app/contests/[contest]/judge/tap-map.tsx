"use client";
/** The field around the firing point, drawn without a network: a tap says roughly where it landed. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { useUnits } from "@/app/_ui/units";
import { type GeoPoint, localPlane } from "@/lib/earth";
import { formatQuantity } from "@/lib/units";
import type { Range, Stand } from "./entry";
import styles from "./judge.module.css";

const SIZE = 300;
/** m across at first; the firing point a fifth from the edge, the throw upwards. */
const ACROSS = 200;

export function TapMap({
  shot,
  range,
  post,
  onTap,
}: {
  shot: Stand;
  range: Pick<Range, "pegs">;
  /** Id of the peg that it is seen from, with a line to the tap. */
  post?: string;
  /** How large a pixel of the screen is on the ground, m. */
  onTap: (spot: GeoPoint, metresPerPixel: number) => void;
}) {
  const system = useUnits();
  const [across, setAcross] = useState(Math.max(ACROSS, 1.5 * (shot.lastMark ?? 0)));
  const [spot, setSpot] = useState<{ x: number; y: number } | null>(null);
  const plane = localPlane(shot.firingPoint);
  const [sin, cos] = [Math.sin((shot.bearing * Math.PI) / 180), Math.cos((shot.bearing * Math.PI) / 180)];
  const metres = across / SIZE;
  const origin = { x: SIZE / 2, y: SIZE * 0.8 };
  const pegs = range.pegs.map((peg) => {
    const { east, north } = plane.toPlane(peg);
    const [aside, ahead] = [east * cos - north * sin, east * sin + north * cos];
    return { id: peg.id, name: peg.name, x: origin.x + aside / metres, y: origin.y - ahead / metres };
  });
  const seenFrom = pegs.find(({ id }) => id === post);
  const tap = (x: number, y: number, pixel: number) => {
    const [aside, ahead] = [(x - origin.x) * metres, (origin.y - y) * metres];
    setSpot({ x, y });
    onTap(plane.toPoint({ east: ahead * sin + aside * cos, north: ahead * cos - aside * sin }), pixel);
  };
  const width = formatQuantity(across, "distance", system, { digits: 0 });
  return (
    <>
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the position can be typed below, which is the way by keyboard. */}
      <svg
        className={styles.map}
        viewBox={`0 0 ${SIZE} ${SIZE}`}
        role="img"
        aria-label={`The field ahead of firing point ${shot.firingPointNumber}, ${width} across, the throw upwards. Tap where it landed.`}
        onClick={(event) => {
          const box = event.currentTarget.getBoundingClientRect();
          const scale = SIZE / box.width;
          tap((event.clientX - box.left) * scale, (event.clientY - box.top) * scale, metres * scale);
        }}
      >
        <path className={styles.aim} d={`M${origin.x} ${origin.y}V0`} />
        {spot && seenFrom && (
          <path className={styles.throw} d={`M${seenFrom.x} ${seenFrom.y}L${spot.x} ${spot.y}`} />
        )}
        {pegs.map(({ id, name, x, y }) => (
          <g key={id}>
            <path className={styles.peg} d={`M${x} ${y - 6}l6 10h-12z`} />
            <text x={x + 8} y={y + 4}>
              {name}
            </text>
          </g>
        ))}
        <rect className={styles.from} x={origin.x - 6} y={origin.y - 6} width="12" height="12" />
        {spot && (
          <path className={styles.spot} d={`M${spot.x - 9} ${spot.y}h18M${spot.x} ${spot.y - 9}v18`} />
        )}
      </svg>
      <p className="button-row">
        <span>{width} across</span>
        <Button onClick={() => setAcross(across / 1.5)}>Nearer</Button>
        <Button onClick={() => setAcross(across * 1.5)}>Farther</Button>
      </p>
    </>
  );
}
