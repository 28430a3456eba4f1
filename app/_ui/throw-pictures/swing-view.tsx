"use client";
/**
 * The swing as a picture: the arm at several instants, the projectile's path, the instants that make the worst
 * throws, and a slider for the instant drawn in full. Nothing moves unless it is asked to.
 */
import { useEffect, useMemo, useState } from "react";
import { Button } from "@/app/_ui/button";
import { instantText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Point, Preview, SwingFrame, SwingPicture } from "@/lib/throw";
import { Ground, ScaleBar } from "../machine-form/drawing/machine-picture";
import { project } from "../machine-form/drawing/projection";
import { nearest, type ReleaseMark, releaseMarks } from "./release-marks";
import { SwingTable } from "./swing-table";
import { useWidth } from "./use-width";

/** Played this many times slower than it happens. */
const SLOWED = 4;

export function SwingView({
  preview,
  swing,
  system,
}: {
  preview: Preview;
  swing: SwingPicture;
  system: UnitSystem;
}) {
  const [box, width] = useWidth<HTMLDivElement>(640);
  const [index, setIndex] = useState(0);
  const [playing, setPlaying] = useState(false);
  const marks = useMemo(() => releaseMarks(preview), [preview]);
  const { frames } = swing;
  const last = frames.length - 1;
  const shown = Math.min(index, last);

  useEffect(() => {
    if (!playing || last < 1) return;
    const duration = ((frames[last] as SwingFrame).time - (frames[0] as SwingFrame).time) * SLOWED * 1000;
    let begun: number | null = null;
    let handle = 0;
    const step = (now: number) => {
      begun ??= now;
      const done = (now - begun) / duration;
      setIndex(Math.min(last, Math.round(done * last)));
      if (done < 1) handle = requestAnimationFrame(step);
      else setPlaying(false);
    };
    handle = requestAnimationFrame(step);
    return () => cancelAnimationFrame(handle);
  }, [playing, frames, last]);

  const frame = frames[shown];
  if (!frame) return null;
  const height = Math.round(Math.min(620, width * (width < 480 ? 1 : 0.8)));
  const extent: Point[] = marks.map((mark) => mark.at);
  for (const each of frames) extent.push(each.tip, each.projectile, each.counterweight, each.shortEnd);
  const projection = project({ extent }, width, height, 30);
  const jump = (mark: ReleaseMark) => {
    setPlaying(false);
    setIndex(nearest(frames, mark.time));
  };

  return (
    <figure className="swing">
      <div ref={box}>
        <SwingDrawing {...{ frames, frame, marks, projection, system }} />
      </div>
      <div className="swing-controls no-print">
        <label htmlFor="swing-instant">Instant: {instantText(frame.time)} after the trigger</label>
        <input
          id="swing-instant"
          type="range"
          min={0}
          max={last}
          value={shown}
          aria-valuetext={`${instantText(frame.time)}${frame.loose ? ", sling slack" : ""}`}
          onChange={(event) => {
            setPlaying(false);
            setIndex(Number(event.target.value));
          }}
        />
        <div className="button-row">
          <Button
            className="swing-play"
            onClick={() => {
              if (!playing && shown === last) setIndex(0);
              setPlaying(!playing);
            }}
          >
            {playing ? "Pause" : `Play, ${SLOWED} times slower`}
          </Button>
          {marks.map((mark) => (
            <Button key={mark.letter} onClick={() => jump(mark)}>
              {mark.letter} · {mark.label}
            </Button>
          ))}
        </div>
      </div>
      <figcaption>
        {frame.loose ? "The sling is slack at this instant. " : ""}The projectile's path: thick up to the
        release as meant, thin if the loop fails to slip, dotted where the sling is slack. M, F and B: let go
        as meant, in the worst throw forwards, and in the worst backwards; an end stop that fails may take a
        worst throw off this path.
      </figcaption>
      <SwingTable frames={frames} marks={marks} system={system} />
    </figure>
  );
}

function SwingDrawing({
  frames,
  frame,
  marks,
  projection,
  system,
}: {
  frames: readonly SwingFrame[];
  frame: SwingFrame;
  marks: readonly ReleaseMark[];
  projection: ReturnType<typeof project>;
  system: UnitSystem;
}) {
  const { width, height, toPixels } = projection;
  const pixel = (point: Point) =>
    toPixels(point)
      .map((v) => v.toFixed(1))
      .join(",");
  const ghosts = spacedArms(frames, 46 / projection.scale);
  const released = marks.find((mark) => mark.letter === "M")?.time ?? Number.POSITIVE_INFINITY;
  const runs = pathRuns(frames, released);
  return (
    <svg
      className="machine-picture"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={`The swing from the side, downrange to the right, at ${instantText(frame.time)}. The table of instants says the same.`}
    >
      <Ground width={width} y={toPixels([0, 0])[1]} />
      {ghosts.map((each) => (
        <path key={each.time} className="swing-ghost" d={`M${pixel(each.tip)}L${pixel(each.shortEnd)}`} />
      ))}
      {runs.map((run) => (
        <path
          key={run.from}
          className={`swing-path${run.loose ? " swing-path-loose" : ""}${run.held ? " swing-path-held" : ""}`}
          d={smoothPath(run.points.map(toPixels))}
        />
      ))}
      <path className="part part-rope" d={`M${pixel(frame.shortEnd)}L${pixel(frame.counterweight)}`} />
      <path
        className={frame.loose ? "part part-rope part-slack" : "part part-rope"}
        d={`M${pixel(frame.tip)}L${pixel(frame.projectile)}`}
      />
      <path className="part part-beam" d={`M${pixel(frame.tip)}L${pixel(frame.shortEnd)}`} />
      <Disc at={toPixels(frame.fulcrum)} look="joint" radius={5} />
      <Disc at={toPixels(frame.counterweight)} look="weight" radius={11} />
      <Disc at={toPixels(frame.projectile)} look="projectile" radius={6} />
      {[...marks].reverse().map((mark) => (
        <Mark key={mark.letter} mark={mark} at={toPixels(mark.at)} />
      ))}
      <ScaleBar projection={projection} system={system} y={height - 8} />
    </svg>
  );
}

/** Frames of the first turn of the arm whose tips lie this far apart, m: evenly in time they would crowd. */
function spacedArms(frames: readonly SwingFrame[], apart: number): SwingFrame[] {
  const chosen: SwingFrame[] = [];
  for (const frame of frames) {
    const near = ({ tip }: SwingFrame) => Math.hypot(tip[0] - frame.tip[0], tip[1] - frame.tip[1]) < apart;
    if (!chosen.some(near)) chosen.push(frame);
  }
  return chosen;
}

function Disc({ at: [x, y], look, radius }: { at: Point; look: string; radius: number }) {
  return <circle className={`part part-${look}`} cx={x} cy={y} r={radius} />;
}

/** A letter where the projectile comes free, and an arrow the way it goes. */
function Mark({ mark, at: [x, y] }: { mark: ReleaseMark; at: Point }) {
  const angle = (-mark.angle * Math.PI) / 180;
  const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
  // Throws let go at nearly the same instant: arrows of unlike length keep their letters apart.
  const length = mark.letter === "F" ? 72 : 44;
  const head = [x + dx * length, y + dy * length] as const;
  const disc = [x + dx * (length + 12), y + dy * (length + 12)] as const;
  const side = (turn: number) =>
    `${(head[0] - Math.cos(angle + turn) * 10).toFixed(1)} ${(head[1] - Math.sin(angle + turn) * 10).toFixed(1)}`;
  return (
    <g className="release-mark">
      <path d={`M${x} ${y}L${head[0]} ${head[1]}M${side(0.45)}L${head[0]} ${head[1]}L${side(-0.45)}`} />
      <circle className="release-dot" cx={x} cy={y} r={4} />
      <circle cx={disc[0]} cy={disc[1]} r={10} />
      <text x={disc[0]} y={disc[1]} dy="0.36em">
        {mark.letter}
      </text>
    </g>
  );
}

interface PathRun {
  from: number;
  loose: boolean;
  /** After the release as meant: where the projectile goes if it is held on. */
  held: boolean;
  points: Point[];
}

/** The projectile's path in runs of one look; a run starts where the last one ended. */
function pathRuns(frames: readonly SwingFrame[], released: number): PathRun[] {
  const runs: PathRun[] = [];
  for (const { time, loose, projectile } of frames) {
    const held = time > released;
    const run = runs.at(-1);
    if (run && run.loose === loose && run.held === held) run.points.push(projectile);
    else {
      const joint = run?.points.at(-1);
      runs.push({ from: time, loose, held, points: joint ? [joint, projectile] : [projectile] });
    }
  }
  return runs;
}

/** A smooth curve through the points (Catmull–Rom as cubic Béziers): the swing is smooth between frames. */
function smoothPath(points: readonly Point[]): string {
  const at = (index: number) => points[Math.min(points.length - 1, Math.max(0, index))] as Point;
  let path = `M${at(0)[0].toFixed(1)} ${at(0)[1].toFixed(1)}`;
  for (let index = 0; index + 1 < points.length; index++) {
    const [before, a, b, after] = [at(index - 1), at(index), at(index + 1), at(index + 2)];
    const control = (from: Point, p: Point, q: Point, way: 1 | -1) =>
      `${(from[0] + (way * (q[0] - p[0])) / 6).toFixed(1)} ${(from[1] + (way * (q[1] - p[1])) / 6).toFixed(1)}`;
    path += `C${control(a, before, b, 1)} ${control(b, a, after, -1)} ${b[0].toFixed(1)} ${b[1].toFixed(1)}`;
  }
  return path;
}
