"use client";
/** The pins as numbers: pixel, what is there, and how far the fit puts it off. */
import { Button } from "@/app/_ui/button";
import { SelectField, TextField } from "@/app/_ui/field";
import { useUnits } from "@/app/_ui/units";
import { formatQuantity } from "@/lib/units";
import styles from "./picture.module.css";
import type { KnownPlace, PinEntry } from "./pins";

export function PinTable({
  pins,
  places,
  residuals,
  problems,
  onChange,
  onRemove,
}: {
  pins: readonly PinEntry[];
  places: readonly KnownPlace[];
  /** m, in the order of the pins; null where there is no fit. */
  residuals: readonly (number | null)[];
  /** What a pin still lacks. */
  problems: readonly (string | null)[];
  onChange: (index: number, changed: Partial<PinEntry>) => void;
  onRemove: (index: number) => void;
}) {
  const system = useUnits();
  const number = (text: string) => Number(text.replace(",", "."));
  return (
    <ol className={styles.pins} id="pins" aria-label="Pins">
      {pins.length === 0 && <li>No pin yet: tap the picture where something known is to be seen.</li>}
      {pins.map((pin, index) => {
        const place = places.find(({ id }) => id === pin.what);
        const residual = residuals[index];
        const id = `pin-${index}`;
        return (
          <li key={index} className={styles.entry}>
            <h3>
              Pin {index + 1}
              {residual !== null && residual !== undefined && (
                <span className={styles.residual}>
                  {" "}
                  off by {formatQuantity(residual, "distance", system, { digits: 2 })}
                </span>
              )}
            </h3>
            <SelectField
              id={`${id}-what`}
              label="What is there"
              value={pin.what}
              onChange={(event) => onChange(index, { what: event.target.value, corner: 0 })}
              error={pin.what === "typed" && pin.text.trim() === "" ? null : (problems[index] ?? null)}
              choices={[
                { value: "", label: "Choose…" },
                { value: "typed", label: "Coordinates, typed" },
                ...places.map(({ id: value, name }) => ({ value, label: name })),
              ]}
            />
            {place && place.corners.length > 1 && (
              <SelectField
                id={`${id}-corner`}
                label="Which corner"
                value={String(pin.corner)}
                onChange={(event) => onChange(index, { corner: Number(event.target.value) })}
                choices={place.corners.map((_, corner) => ({
                  value: String(corner),
                  label: `Corner ${corner + 1}`,
                }))}
              />
            )}
            {pin.what === "typed" && (
              <TextField
                id={`${id}-coordinates`}
                label="Latitude, longitude"
                value={pin.text}
                autoCapitalize="off"
                spellCheck={false}
                onChange={(event) => onChange(index, { text: event.target.value })}
              />
            )}
            <div className={styles.pixels}>
              <TextField
                key={`x${pin.x}`}
                id={`${id}-x`}
                label="Pixels from the left"
                inputMode="decimal"
                defaultValue={pin.x}
                onBlur={({ target }) =>
                  Number.isFinite(number(target.value)) && onChange(index, { x: number(target.value) })
                }
              />
              <TextField
                key={`y${pin.y}`}
                id={`${id}-y`}
                label="Pixels from the top"
                inputMode="decimal"
                defaultValue={pin.y}
                onBlur={({ target }) =>
                  Number.isFinite(number(target.value)) && onChange(index, { y: number(target.value) })
                }
              />
              <Button onClick={() => onRemove(index)}>Remove pin {index + 1}</Button>
            </div>
          </li>
        );
      })}
    </ol>
  );
}
