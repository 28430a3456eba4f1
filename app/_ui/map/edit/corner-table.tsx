"use client";
/** The drawing as numbers: every corner can be typed, moved in the order and taken away. The equal of the map. */
import { useEffect, useState } from "react";
import { Button } from "../../button";
import { FieldError } from "../../field";
import { positionText, readPosition } from "../../position";
import styles from "./edit.module.css";
import { type Corner, cornersOf, type DrawAction, type Drawing } from "./model";

export function CornerTable({
  drawing,
  dispatch,
}: {
  drawing: Drawing;
  dispatch: (action: DrawAction) => void;
}) {
  const corners = cornersOf(drawing);
  const noun = drawing.now.shape === "area" ? "Corner" : "Point";
  return (
    <table className={styles.corners} id="corners">
      <caption className="aloud">{noun}s of the drawing, in order; latitude and longitude in degrees</caption>
      <thead>
        <tr>
          <th scope="col">{noun}</th>
          <th scope="col">Latitude, longitude</th>
          <th scope="col">Change</th>
        </tr>
      </thead>
      <tbody>
        {corners.length === 0 && (
          <tr>
            <td colSpan={3}>Nothing drawn yet: tap the map, or add one by numbers below.</td>
          </tr>
        )}
        {corners.map((corner, index) => (
          <CornerRow
            key={index}
            corner={corner}
            index={index}
            last={index === corners.length - 1}
            noun={noun}
            picked={drawing.picked === index}
            dispatch={dispatch}
          />
        ))}
      </tbody>
    </table>
  );
}

function CornerRow({
  corner,
  index,
  last,
  noun,
  picked,
  dispatch,
}: {
  corner: Corner;
  index: number;
  last: boolean;
  noun: string;
  picked: boolean;
  dispatch: (action: DrawAction) => void;
}) {
  const shown = positionText(corner);
  const [text, setText] = useState(shown);
  const [wrong, setWrong] = useState<string | null>(null);
  // Moved on the map, undone, or another corner has taken this row.
  useEffect(() => {
    setText(shown);
    setWrong(null);
  }, [shown]);

  const settle = () => {
    if (text === shown) return;
    const read = readPosition(text);
    setWrong(read.ok ? null : read.message);
    if (read.ok) dispatch({ do: "place", index, at: read.position });
  };
  const id = `corner-${index}`;
  const name = `${noun.toLowerCase()} ${index + 1}`;
  return (
    <tr data-picked={picked ? "yes" : "no"}>
      <th scope="row">
        <Button
          look="quiet"
          aria-label={`Choose ${name}`}
          aria-pressed={picked}
          onClick={() => dispatch({ do: "pick", index: picked ? null : index })}
        >
          {index + 1}
        </Button>
      </th>
      <td>
        <input
          id={id}
          type="text"
          autoComplete="off"
          autoCapitalize="off"
          spellCheck={false}
          aria-label={`Latitude, longitude of ${name}`}
          aria-invalid={wrong ? true : undefined}
          aria-describedby={wrong ? `${id}-error` : undefined}
          value={text}
          onChange={(event) => setText(event.target.value)}
          onFocus={() => dispatch({ do: "pick", index })}
          onBlur={settle}
          onKeyDown={(event) => {
            if (event.key === "Enter") {
              event.preventDefault();
              settle();
            }
          }}
        />
        <FieldError id={id} error={wrong} />
      </td>
      <td>
        <span className={styles.rowTools}>
          <Button
            aria-label={`Move ${name} up`}
            disabled={index === 0}
            onClick={() => dispatch({ do: "shift", index, by: -1 })}
          >
            ↑
          </Button>
          <Button
            aria-label={`Move ${name} down`}
            disabled={last}
            onClick={() => dispatch({ do: "shift", index, by: 1 })}
          >
            ↓
          </Button>
          <Button aria-label={`Delete ${name}`} onClick={() => dispatch({ do: "remove", index })}>
            ✕
          </Button>
        </span>
      </td>
    </tr>
  );
}
