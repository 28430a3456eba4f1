"use client";
/** The buttons below the map while something is drawn; each is a thumb wide. */
import { Button } from "../../button";
import styles from "./edit.module.css";
import { cornersOf, type DrawAction, type Drawing } from "./model";

export function EditTools({
  drawing,
  dispatch,
  snapping,
  onSnapping,
  said,
}: {
  drawing: Drawing;
  dispatch: (action: DrawAction) => void;
  snapping: boolean;
  onSnapping: (snapping: boolean) => void;
  /** What the last tap or drag caught, in words. */
  said: string;
}) {
  const { adding, picked, past, future, now } = drawing;
  const corners = cornersOf(drawing);
  const noun = now.shape === "area" ? "corner" : "point";
  return (
    <>
      <p className={styles.said} role="status">
        {said || hint(drawing, noun)}
      </p>
      <div className={styles.tools} role="group" aria-label="Drawing">
        <Button onClick={() => dispatch({ do: "undo" })} disabled={past.length === 0}>
          Undo
        </Button>
        <Button onClick={() => dispatch({ do: "redo" })} disabled={future.length === 0}>
          Redo
        </Button>
        {now.shape !== "point" && (
          <Button onClick={() => dispatch({ do: "adding", adding: !adding })} aria-pressed={adding}>
            {adding ? "Finish drawing" : `Add ${noun}s by tapping`}
          </Button>
        )}
        <Button
          onClick={() => picked !== null && dispatch({ do: "remove", index: picked })}
          disabled={picked === null || !corners[picked]}
        >
          {picked !== null && now.shape !== "point" ? `Delete ${noun} ${picked + 1}` : `Delete ${noun}`}
        </Button>
        {now.rings.length > 1 && (
          <label>
            Ring{" "}
            <select
              value={drawing.ring}
              onChange={(event) => dispatch({ do: "ring", ring: Number(event.target.value) })}
            >
              {now.rings.map((_, index) => (
                <option key={index} value={index}>
                  {index === 0 ? "Outline" : `Hole ${index}`}
                </option>
              ))}
            </select>
          </label>
        )}
        <label className="check" htmlFor="snapping">
          <input
            id="snapping"
            type="checkbox"
            checked={snapping}
            onChange={(event) => onSnapping(event.target.checked)}
          />
          <span>Snap to what is there</span>
        </label>
      </div>
    </>
  );
}

function hint({ adding, now }: Drawing, noun: string): string {
  if (now.shape === "point") return "Tap the map where it is, or drag it there.";
  if (adding) return `Tap the map ${noun} by ${noun}. Drag a ${noun} to move it; tap a + to add one between.`;
  return `Drag a ${noun} to move it, tap it to choose it, tap a + to add one between.`;
}
