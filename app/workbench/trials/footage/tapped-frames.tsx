"use client";
/** The frames that were tapped, to look at again or to take out. */
import { Button } from "@/app/_ui/button";
import { Table } from "@/app/_ui/table";
import type { trials } from "@/lib/throw";
import styles from "../trials.module.css";
import { FRAME_STATES, stateOf, type Tapped, withoutFrame } from "./marks";

export function TappedFrames({
  marks,
  onMarks,
  onGo,
}: {
  marks: Tapped;
  onMarks: (marks: Tapped) => void;
  onGo: (time: number) => void;
}) {
  return (
    <details className={styles.more}>
      <summary>Tapped frames: {marks.frames.length}</summary>
      <Table
        caption="Tapped frames"
        hideCaption
        stacks
        rows={marks.frames}
        rowKey={({ time }) => time}
        empty="None yet."
        columns={[
          {
            key: "time",
            head: "Frame at",
            rowHead: true,
            cell: ({ time, timed }) =>
              `${time.toFixed(3)} s${timed ? "" : " (counted)"}${FRAME_STATES[stateOf(marks, time) ?? "unsaid"]}`,
          },
          { key: "tip", head: "Tip", cell: ({ tip }) => pixelText(tip) },
          { key: "projectile", head: "Projectile", cell: ({ projectile }) => pixelText(projectile) },
          {
            key: "do",
            head: <span className="aloud">Look at or remove</span>,
            cell: ({ time }) => (
              <p className="button-row">
                <Button onClick={() => onGo(time + 2e-4)}>
                  Show<span className="aloud"> the frame at {time.toFixed(3)} s</span>
                </Button>
                <Button onClick={() => onMarks(withoutFrame(marks, time))}>
                  Remove<span className="aloud"> the frame at {time.toFixed(3)} s</span>
                </Button>
              </p>
            ),
          },
        ]}
      />
    </details>
  );
}

const pixelText = (at: trials.Pixel | null) => (at ? `${at[0].toFixed(0)}, ${at[1].toFixed(0)}` : "–");
