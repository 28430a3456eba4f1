"use client";
/** Every place of a file with what is wrong or odd about it, those that need a person first; a card each on a phone. */
import { useMemo, useState } from "react";
import type { PreviewItem } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { Button } from "../button";
import { useUnits } from "../units";
import { type Choice, FATE_WORDS, hindrance, ordered, type SeaLevel, waysOf } from "./choices";
import styles from "./site-import.module.css";

/** Rows at a time: a file may hold thousands. */
const PAGE = 100;

export function PreviewTable({
  items,
  choices,
  sea,
  onChange,
}: {
  items: readonly PreviewItem[];
  choices: readonly Choice[];
  sea: SeaLevel;
  onChange: (index: number, part: Partial<Choice>) => void;
}) {
  const system = useUnits();
  const order = useMemo(() => ordered(items), [items]);
  const [most, setMost] = useState(PAGE);
  const shown = order.slice(0, most);
  return (
    <>
      <table className={`table ${styles.items}`} id="import-table">
        <caption>Places in the file, those that need you first</caption>
        <thead>
          <tr>
            <th scope="col">Bring in</th>
            <th scope="col">Name</th>
            <th scope="col">What it is</th>
            <th scope="col">Shape</th>
            <th scope="col">What to know</th>
          </tr>
        </thead>
        <tbody>
          {shown.map((index) => (
            <Row
              key={index}
              index={index}
              item={items[index] as PreviewItem}
              choice={choices[index] as Choice}
              sea={sea}
              system={system}
              onChange={onChange}
            />
          ))}
        </tbody>
      </table>
      {shown.length < items.length && (
        <p>
          {shown.length} of {items.length} are shown; all that are chosen are brought in.{" "}
          <Button onClick={() => setMost(most + PAGE)}>
            Show {Math.min(PAGE, items.length - most)} more
          </Button>
        </p>
      )}
    </>
  );
}

function Row({
  index,
  item,
  choice,
  sea,
  system,
  onChange,
}: {
  index: number;
  item: PreviewItem;
  choice: Choice;
  sea: SeaLevel;
  system: UnitSystem;
  onChange: (index: number, part: Partial<Choice>) => void;
}) {
  const held = hindrance(item, choice, sea);
  const called = choice.name || item.where;
  const fate = FATE_WORDS[item.fate];
  const ways = waysOf(item);
  const lost = item.problem !== null;
  return (
    <tr data-problem={lost || undefined}>
      <td>
        <label className={styles.tick}>
          <input
            type="checkbox"
            aria-label={`Bring in ${called}`}
            checked={choice.chosen && !lost}
            disabled={lost}
            onChange={(event) => onChange(index, { chosen: event.target.checked })}
          />
        </label>
      </td>
      <th scope="row">
        <input
          className={styles.name}
          aria-label={`Name of ${item.where}`}
          value={choice.name}
          maxLength={80}
          disabled={lost}
          onChange={(event) => onChange(index, { name: event.target.value })}
        />
        <span className={styles.where}>{item.where}</span>
      </th>
      <td>
        {lost ? (
          "cannot come in"
        ) : (
          <select
            aria-label={`What ${called} is`}
            value={choice.as}
            onChange={(event) =>
              onChange(index, {
                as: event.target.value,
                chosen: event.target.value !== "" && item.fate !== "identical",
              })
            }
          >
            <option value="">Choose…</option>
            {ways.map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        )}
      </td>
      <td>{shapeWords(item, system)}</td>
      <td>
        <ul className={styles.words}>
          {held && (
            <li className={styles.held}>
              <span aria-hidden="true">✕ </span>
              {held}
            </li>
          )}
          {fate && <li>{fate}</li>}
          {item.warnings.map((warning) => (
            <li key={warning}>{warning}</li>
          ))}
          {!held && !fate && item.warnings.length === 0 && <li>New.</li>}
        </ul>
      </td>
    </tr>
  );
}

function shapeWords({ geometry, height, standOff, rule }: PreviewItem, system: UnitSystem): string {
  if (!geometry) return "none";
  const shape =
    geometry.type === "Point"
      ? `point at ${geometry.coordinates[1].toFixed(6)}, ${geometry.coordinates[0].toFixed(6)}`
      : geometry.type === "LineString"
        ? `line of ${geometry.coordinates.length} points`
        : `area of ${(geometry.coordinates[0]?.length ?? 1) - 1} corners${geometry.coordinates.length > 1 ? ` with ${geometry.coordinates.length - 1} holes` : ""}`;
  const metres = (value: number) => formatQuantity(value, "distance", system);
  return [
    shape,
    ...(height === null ? [] : [`height ${metres(height)}`]),
    ...(standOff === null ? [] : [`stand-off ${metres(standOff)}`]),
    ...(rule === null ? [] : [`rule ${rule}`]),
  ].join("; ");
}
