"use client";
/** Declared numbers with what is measured beside them, and the revision that comes of a difference in one step. */
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { type Quantity, QuantityField } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { useWrite } from "@/app/_ui/write/use-write";
import { type DeclaredDimension, dimensionsOf, isOff } from "@/lib/inspection";
import { formatQuantity } from "@/lib/units";
import type { InspectedRevision } from "./draft";
import styles from "./inspect.module.css";

const NOTHING: Quantity = { text: "", value: null };

export function MeasureList({
  slug,
  machineId,
  revision,
  measured,
  off,
  onMeasure,
  onRevised,
}: {
  slug: string;
  machineId: string;
  revision: InspectedRevision;
  measured: Readonly<Record<string, Quantity>>;
  /** Those outside their tolerance. */
  off: readonly DeclaredDimension[];
  onMeasure: (path: string, quantity: Quantity) => void;
  onRevised: () => void;
}) {
  const system = useUnits();
  const { write, sending, trouble } = useWrite();
  const dimensions = dimensionsOf(revision.declaration);
  const revise = async () => {
    const sent = await write("POST", `/api/v1/contests/${slug}/machines/${machineId}/measured-revisions`, {
      revisionId: revision.id,
      measured: off.map(({ path }) => ({ path, value: measured[path]?.value })),
    });
    if (sent.ok) onRevised();
  };
  return (
    <>
      <p>Measure what you can reach: the zones are those of the declared numbers within their tolerance.</p>
      <ul className={styles.measures}>
        {dimensions.map((each) => {
          const { path, label, dimension, declared, tolerance } = each;
          const quantity = measured[path] ?? NOTHING;
          const amount = (value: number) => formatQuantity(value, dimension, system);
          const isOut = quantity.value !== null && isOff(each, quantity.value);
          return (
            <li key={path}>
              <QuantityField
                id={`measured-${path.replaceAll(".", "-")}`}
                label={label}
                fieldName={label}
                dimension={dimension}
                quantity={quantity}
                onChange={(next) => onMeasure(path, next)}
                optional
                help={`Declared ${amount(declared)}${
                  tolerance === null
                    ? "; it decides only the throw as meant"
                    : tolerance > 0
                      ? ` ± ${amount(tolerance)}`
                      : ", exactly"
                }`}
                error={isOut ? `${label}: this lies outside the declared tolerance.` : null}
              />
            </li>
          );
        })}
      </ul>
      {off.length > 0 && (
        <Notice title="Another machine than was declared" live>
          <p>
            {off.map(({ label }) => label).join(", ")}: outside the declared tolerance, so the hazard sheet of
            revision {revision.number} does not count this machine. Make revision {revision.number + 1} with
            the measured numbers: its sheet is computed at once, zones follow it, and this inspection goes on
            with that.
          </p>
          {trouble && <p role="alert">{trouble}</p>}
          <p className="button-row">
            <Button look="main" onClick={revise} aria-disabled={sending || undefined}>
              {sending ? "Sending…" : `Make revision ${revision.number + 1} as measured`}
            </Button>
          </p>
        </Notice>
      )}
    </>
  );
}
