"use client";
/** What the yard is called, who decides there, how high it lies and how the compass stands. */
import { useEffect, useState } from "react";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { type IssueField, issueSentence } from "@/app/_ui/issue-words";
import { Notice } from "@/app/_ui/notice";
import { type Quantity, QuantityField, quantityOf, quantityProblem } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { type Yard, yardSchema } from "./yard";

const FIELDS: Readonly<Record<string, IssueField>> = {
  name: { label: "Name" },
  decides: { label: "Who decides there" },
  height: { label: "Height", dimension: "distance" },
  declination: { label: "Declination", dimension: "angle" },
};

/** What is typed is another number than is kept, or none that can be read. */
const differs = ({ text, value }: Quantity, kept: number | null): boolean =>
  value === null ? text.trim() !== "" || kept !== null : value !== kept;

export function Details({ yard, onChange }: { yard: Yard; onChange: (yard: Yard) => void }) {
  const system = useUnits();
  const [name, setName] = useState(yard.name);
  const [decides, setDecides] = useState(yard.decides);
  const [height, setHeight] = useState<Quantity>(() => quantityOf(yard.height, "distance", system));
  const [declination, setDeclination] = useState<Quantity>(() =>
    quantityOf(yard.declination, "angle", system),
  );
  const [said, setSaid] = useState<{ kind: "done" | "problem"; words: string } | null>(null);
  // Undone, or changed in another tab.
  useEffect(() => {
    setName(yard.name);
    setDecides(yard.decides);
    setHeight(quantityOf(yard.height, "distance", system));
    setDeclination(quantityOf(yard.declination, "angle", system));
  }, [yard.name, yard.decides, yard.height, yard.declination, system]);
  const waits =
    name !== yard.name ||
    decides !== yard.decides ||
    differs(height, yard.height) ||
    differs(declination, yard.declination === 0 && declination.text.trim() === "" ? null : yard.declination);
  const keep = () => {
    const problem =
      quantityProblem("Height", height, "distance", system, true) ??
      quantityProblem("Declination", declination, "angle", system, true);
    const next = yardSchema
      .pick({ name: true, decides: true, height: true, declination: true })
      .safeParse({ name, decides, height: height.value, declination: declination.value ?? 0 });
    if (problem || !next.success) {
      const [issue] = next.error?.issues ?? [];
      const field = FIELDS[String(issue?.path[0])] ?? { label: "The yard" };
      const words = problem ?? (issue && issueSentence(issue, field, system));
      setSaid({ kind: "problem", words: words ?? "The yard cannot be kept so." });
      return;
    }
    onChange({ ...yard, ...next.data });
    setSaid({ kind: "done", words: "The yard has them from now on." });
  };
  return (
    <section aria-labelledby="yard-details">
      <h2 id="yard-details">About the yard</h2>
      <form
        noValidate
        aria-label="About the yard"
        onSubmit={(event) => {
          event.preventDefault();
          keep();
        }}
      >
        <TextField
          id="yard-name"
          label="Name"
          optional
          maxLength={80}
          value={name}
          onChange={(event) => setName(event.target.value)}
        />
        <TextField
          id="yard-decides"
          label="Who decides there"
          help="An office rather than a person: “range warden”. Somebody who throws nothing."
          maxLength={120}
          value={decides}
          onChange={(event) => setDecides(event.target.value)}
        />
        <QuantityField
          id="yard-height"
          label="Height of the ground above the ellipsoid"
          fieldName="Height"
          dimension="distance"
          quantity={height}
          onChange={setHeight}
          optional
          help="As a receiver gives it. Air is thinner higher up, and throws fly farther: left empty the yard counts as lying at 0."
        />
        <QuantityField
          id="yard-declination"
          label="Magnetic declination, east positive"
          fieldName="Declination"
          dimension="angle"
          quantity={declination}
          onChange={setDeclination}
          optional
          help="For bearings taken with a compass; the map and the zones count from true north."
        />
        <p className="button-row">
          <Button type="submit">Keep these</Button>
        </p>
        <div role="status">
          {waits && <p>Not kept yet: the zone is still of what was kept before. Press “Keep these”.</p>}
          {said && (said.kind === "problem" || !waits) && (
            <Notice kind={said.kind}>
              <p>{said.words}</p>
            </Notice>
          )}
        </div>
      </form>
    </section>
  );
}
