"use client";
/**
 * The swing as a picture: the arm at several instants, the projectile's path, the instants that make the worst
 * throws, and a slider for the instant drawn in full. Nothing moves unless it is asked to.
 */
import { useEffect, useMemo, useState } from "react";
import { Button } from "@/app/_ui/button";
import { instantText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Preview, SwingFrame, SwingPicture } from "@/lib/throw";
import type { Point } from "../drawing/geometry";
import { Ground, ScaleBar } from "../drawing/machine-picture";
import { project } from "../drawing/projection";
import { useWidth } from "../use-width";
import { SwingTable } from "./swing-table";

/** Played this many times slower than it happens. */
const SLOWED = 4;

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
  return (preview.swing?.flights ?? []).flatMap((flight) => {
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
  const height = Math.round(width * (width < 480 ? 1 : 0.66));
  const extent: Point[] = marks.map((mark) => mark.at);
  for (const each of frames) extent.push(each.tip, each.projectile, each.counterweight, each.shortEnd);
  const projection = project({ shapes: [], pointers: [], extent }, width, height, 30);
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
        The throw as meant, held to the end of its swing; {frame.loose ? "the sling is slack here. " : ""}a
        dotted path is where the sling is slack. M, F and B: where the projectile is let go as meant, in the
        worst throw forwards, and in the worst backwards. A worst throw may be let go after the sling went
        slack or the carriage ran on, off this path.
      </figcaption>
      <SwingTable frames={frames} marks={marks} system={system} />
    </figure>
  );
}

export function nearest(frames: readonly SwingFrame[], time: number): number {
  let best = 0;
  for (let index = 1; index < frames.length; index++) {
    const [a, b] = [frames[index] as SwingFrame, frames[best] as SwingFrame];
    if (Math.abs(a.time - time) < Math.abs(b.time - time)) best = index;
  }
  return best;
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
  const ghosts = frames.filter((_, index) => index % Math.max(1, Math.round(frames.length / 9)) === 0);
  // The path in runs of taut and slack; a run starts where the last one ended.
  const runs: { loose: boolean; points: string[] }[] = [];
  for (const each of frames) {
    const run = runs.at(-1);
    if (run && run.loose === each.loose) run.points.push(pixel(each.projectile));
    else {
      const joint = run?.points.at(-1);
      runs.push({ loose: each.loose, points: [...(joint ? [joint] : []), pixel(each.projectile)] });
    }
  }
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
        <polyline
          key={run.points[0]}
          className={run.loose ? "swing-path swing-path-loose" : "swing-path"}
          points={run.points.join(" ")}
        />
      ))}
      <path className="part part-hanger" d={`M${pixel(frame.shortEnd)}L${pixel(frame.counterweight)}`} />
      <path
        className={frame.loose ? "part part-sling part-slack" : "part part-sling"}
        d={`M${pixel(frame.tip)}L${pixel(frame.projectile)}`}
      />
      <path className="part part-arm" d={`M${pixel(frame.tip)}L${pixel(frame.shortEnd)}`} />
      <Disc at={toPixels(frame.fulcrum)} look="joint" radius={5} />
      <Disc at={toPixels(frame.counterweight)} look="counterweight" radius={11} />
      <Disc at={toPixels(frame.projectile)} look="projectile" radius={6} />
      {marks.map((mark) => (
        <Mark key={mark.letter} mark={mark} at={toPixels(mark.at)} />
      ))}
      <ScaleBar projection={projection} system={system} y={height - 8} />
    </svg>
  );
}

function Disc({ at: [x, y], look, radius }: { at: Point; look: string; radius: number }) {
  return <circle className={`part part-${look}`} cx={x} cy={y} r={radius} />;
}

/** A letter where the projectile comes free, and an arrow the way it goes. */
function Mark({ mark, at: [x, y] }: { mark: ReleaseMark; at: Point }) {
  const angle = (-mark.angle * Math.PI) / 180;
  const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
  const head = [x + dx * 50, y + dy * 50] as const;
  const side = (turn: number) =>
    `${(head[0] - Math.cos(angle + turn) * 10).toFixed(1)} ${(head[1] - Math.sin(angle + turn) * 10).toFixed(1)}`;
  return (
    <g className="release-mark">
      <path d={`M${x} ${y}L${head[0]} ${head[1]}M${side(0.45)}L${head[0]} ${head[1]}L${side(-0.45)}`} />
      <circle cx={x} cy={y} r={10} />
      <text x={x} y={y} dy="0.36em">
        {mark.letter}
      </text>
    </g>
  );
}
