"use client";
/** The load, row by row, with the machine's own masses offered. */
import { useRef } from "react";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { QuantityField } from "@/app/_ui/quantity-field";
import type { HazardRequest } from "@/lib/throw";
import styles from "../before.module.css";
import { MOST_ROWS, type useItems } from "./use-items";

/** What of the machine is declared with a mass. */
export function ownMasses({
  machine,
  projectile,
  strengths,
}: HazardRequest): { name: string; mass: number }[] {
  const base = "base" in machine && typeof machine.base === "object" ? machine.base : undefined;
  const frame = strengths?.frame?.mass ?? base?.frameMass;
  const one = (name: string, mass: number | undefined) =>
    mass !== undefined && mass > 0 ? [{ name, mass }] : [];
  return [
    ...one("Frame", frame),
    ...("armMass" in machine ? one("Arm", machine.armMass) : []),
    ...("counterweightMass" in machine ? one("Counterweight", machine.counterweightMass) : []),
    ...("carriageMass" in machine ? one("Carriage", machine.carriageMass) : []),
    ...one("Ten projectiles", 10 * projectile.mass),
  ];
}

export function LoadRows({ items, request }: { items: ReturnType<typeof useItems>; request: HazardRequest }) {
  const { rows, change, add, remove } = items;
  const list = useRef<HTMLOListElement>(null);
  const full = rows.length >= MOST_ROWS;
  const offered = ownMasses(request).filter(({ name }) => rows.every((row) => row.name !== name));
  /** The focus goes where the reader goes on. */
  const focusRow = (index: number, field: "name" | "at") =>
    requestAnimationFrame(() =>
      list.current?.children[index]?.querySelector<HTMLElement>(`input[id$="-${field}"]`)?.focus(),
    );
  return (
    <div role="group" aria-labelledby="load-title">
      <h3 id="load-title">What lies on it</h3>
      <ol className={styles.rows} ref={list}>
        {rows.map(({ id, name, mass, at }, index) => {
          const called = name || `item ${index + 1}`;
          return (
            <li key={id} className={styles.row}>
              <TextField
                id={`load-${id}-name`}
                label={`Item ${index + 1}`}
                optional
                maxLength={80}
                value={name}
                onChange={(event) => change(id, { name: event.target.value })}
              />
              <QuantityField
                id={`load-${id}-mass`}
                label={
                  <>
                    Mass<span className="aloud"> of {called}</span>
                  </>
                }
                fieldName={`Mass of ${called}`}
                dimension="mass"
                quantity={mass}
                error={
                  mass.value !== null && mass.value <= 0 ? `Mass of ${called}: enter more than 0.` : null
                }
                onChange={(quantity) => change(id, { mass: quantity })}
              />
              <QuantityField
                id={`load-${id}-at`}
                label={
                  <>
                    Behind the hitch<span className="aloud">, {called}</span>
                  </>
                }
                fieldName={`Place of ${called} behind the hitch`}
                dimension="length"
                quantity={at}
                onChange={(quantity) => change(id, { at: quantity })}
              />
              <p className="button-row">
                <Button aria-label={`Take off ${called}`} onClick={() => remove(id)}>
                  Take off
                </Button>
              </p>
            </li>
          );
        })}
      </ol>
      <p className="button-row">
        <Button
          aria-disabled={full}
          onClick={() => {
            if (full) return;
            add([{ name: "", mass: null }]);
            focusRow(rows.length, "name");
          }}
        >
          Add an item
        </Button>
        {offered.length > 0 && !full && (
          <Button
            onClick={() => {
              add(offered);
              focusRow(rows.length, "at");
            }}
          >
            Add the machine&rsquo;s own masses
          </Button>
        )}
      </p>
    </div>
  );
}
