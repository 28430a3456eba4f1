"use client";
/** Where the mark lands, on a small map that needs no network; the words beside it say the same. */
import { localPlane, type PlanePoint } from "@/lib/earth";
import type { Located } from "@/lib/survey";
import type { JudgeShot, Range } from "./entry";
import styles from "./judge.module.css";

const SIZE = 200;
const EDGE = 24;

export function PlaceMap({ located, shot, range }: { located: Located; shot: JudgeShot; range: Range }) {
  const plane = localPlane(shot.firingPoint);
  const landing = plane.toPlane(located.point);
  const aim = (shot.bearing * Math.PI) / 180;
  const far = Math.max(located.mark, shot.lastMark ?? 0, 10);
  const aimed = { east: far * Math.sin(aim), north: far * Math.cos(aim) };
  const shown = [{ east: 0, north: 0 }, landing, aimed];
  const [minEast, maxEast] = ends(shown.map(({ east }) => east));
  const [minNorth, maxNorth] = ends(shown.map(({ north }) => north));
  const scale = (SIZE - 2 * EDGE) / Math.max(maxEast - minEast, maxNorth - minNorth);
  const at = ({ east, north }: PlanePoint) => ({
    x: SIZE / 2 + (east - (minEast + maxEast) / 2) * scale,
    y: SIZE / 2 - (north - (minNorth + maxNorth) / 2) * scale,
  });
  const [origin, end, spot] = [at({ east: 0, north: 0 }), at(aimed), at(landing)];
  const pegs = range.pegs.map((peg) => ({ id: peg.id, ...at(plane.toPlane(peg)) }));
  return (
    <svg
      className={styles.map}
      viewBox={`0 0 ${SIZE} ${SIZE}`}
      role="img"
      aria-label="The landing point as seen from the firing point, north up"
    >
      <path className={styles.aim} d={`M${origin.x} ${origin.y}L${end.x} ${end.y}`} />
      {pegs.map(({ id, x, y }) => (
        <path key={id} className={styles.peg} d={`M${x} ${y - 5}l5 9h-10z`} />
      ))}
      <path className={styles.throw} d={`M${origin.x} ${origin.y}L${spot.x} ${spot.y}`} />
      <rect className={styles.from} x={origin.x - 5} y={origin.y - 5} width="10" height="10" />
      <circle className={styles.doubt} cx={spot.x} cy={spot.y} r={Math.max(2, located.uncertainty * scale)} />
      <path className={styles.spot} d={`M${spot.x - 7} ${spot.y}h14M${spot.x} ${spot.y - 7}v14`} />
      <text x="8" y="16">
        N ↑
      </text>
    </svg>
  );
}

const ends = (values: readonly number[]): [number, number] => [Math.min(...values), Math.max(...values)];
