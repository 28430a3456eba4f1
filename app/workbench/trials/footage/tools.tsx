"use client";
/** Under the picture: which frame, what the cross is on, and what is seen of the loop. */
import { type RefObject, useState } from "react";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import type { trials } from "@/lib/throw";
import styles from "../trials.module.css";
import type { Shown } from "./frames";
import { Loupe } from "./loupe";
import {
  FRAME_STATES,
  isMarked,
  POINT_WORDS,
  POINTS,
  type PointName,
  sameFrame,
  stateOf,
  type Tapped,
} from "./marks";

export function FrameSteps({
  shown,
  duration,
  plays,
  marks,
  onGo,
  onStep,
}: {
  shown: Shown;
  /** s */
  duration: number;
  plays: number;
  marks: Tapped;
  /** Resolves when the film stands there. */
  onGo: (time: number) => Promise<void>;
  onStep: (frames: number) => void;
}) {
  // Where the slider was put, until the film is there: else it would jump back, and take the film along.
  const [put, setPut] = useState<number | null>(null);
  const slide = async (time: number) => {
    setPut(time);
    // To the middle of a frame: its edge may be another one's.
    await onGo(time + frame / 2);
    setPut(null);
  };
  const frame = Math.round(1e6 / plays) / 1e6;
  return (
    <>
      <input
        type="range"
        className={styles.slider}
        aria-label="Time in the film"
        aria-valuetext={`${shown.time.toFixed(3)} s`}
        min={0}
        max={duration}
        step={frame}
        value={put ?? shown.time}
        onChange={(event) => slide(Number(event.target.value))}
      />
      <div className={styles.steps}>
        {[-10, -1, 1, 10].map((by) => (
          <Button key={by} onClick={() => onStep(by)}>
            {by < 0 ? "−" : "+"}
            {Math.abs(by)}
            <span className="aloud"> {Math.abs(by) === 1 ? "frame" : "frames"}</span>
          </Button>
        ))}
        <span data-told="frame">
          Frame at {shown.time.toFixed(3)} s{shown.timed ? "" : " (counted)"}
          {FRAME_STATES[stateOf(marks, shown.time) ?? "unsaid"]}
        </span>
      </div>
    </>
  );
}

export function PointTools({
  point,
  marks,
  shown,
  cross,
  video,
  onPoint,
  onMark,
  onTakeOff,
  onMarks,
  onCross,
}: {
  point: PointName;
  marks: Tapped;
  shown: Shown;
  cross: trials.Pixel;
  video: RefObject<HTMLVideoElement | null>;
  onPoint: (point: PointName) => void;
  onMark: () => void;
  /** Null where the point is not marked. */
  onTakeOff: (() => void) | null;
  onMarks: (marks: Tapped) => void;
  onCross: (at: trials.Pixel) => void;
}) {
  const isHeld = sameFrame(marks.heldUntil, shown.time);
  const isFirstFree = sameFrame(marks.freeFrom, shown.time);
  return (
    <div className={styles.tools}>
      <div>
        <p className="button-row">
          <Button
            aria-pressed={isHeld}
            onClick={() => onMarks({ ...marks, heldUntil: isHeld ? null : shown.time })}
          >
            The loop surely holds up to this frame
          </Button>
          <Button
            aria-pressed={isFirstFree}
            onClick={() => onMarks({ ...marks, freeFrom: isFirstFree ? null : shown.time })}
          >
            The loop has surely slipped from this frame on
          </Button>
        </p>
        <ChoiceTiles
          id="film-point"
          legend="What the cross is on"
          choices={POINTS.map((value) => ({
            value,
            label: POINT_WORDS[value].label,
            ...(isMarked(marks, value, shown.time) ? { note: "marked" } : {}),
          }))}
          value={point}
          onChange={onPoint}
        />
        <p className="button-row">
          <Button look="main" onClick={onMark}>
            Mark: {POINT_WORDS[point].label.toLowerCase()}
          </Button>
          {onTakeOff ? <Button onClick={onTakeOff}>Take it off</Button> : null}
        </p>
      </div>
      <Loupe video={video} cross={cross} shown={shown.time} onCross={onCross} />
    </div>
  );
}
