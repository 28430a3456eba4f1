"use client";
/** The safety officer's signature: what it is for stands above it, and its limits start as wide as the sheet allows. */
import { useState } from "react";
import { Caution } from "@/app/_ui/caution";
import { LongTextField } from "@/app/_ui/field";
import { wholeDistance } from "@/app/_ui/kept-distance";
import { type Quantity, QuantityField, quantityOf, quantityProblem } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { InspectionInfo, MachinePage, PermitInfo } from "@/lib/api/contracts";
import type { PermitLimits } from "@/lib/inspection";
import type { Dimension } from "@/lib/units";
import { INSPECTION_WORDS } from "../words";
import { PaperFirst, paperOf, unfinishedPaper } from "./paper-first";

interface Asked {
  /** Path into the body. */
  path: string;
  label: string;
  dimension: Dimension;
  of: (limits: PermitLimits) => number | null;
}

const ASKED: readonly Asked[] = [
  { path: "wind.gust", label: "Strongest gust", dimension: "speed", of: ({ wind }) => wind.gust },
  { path: "wind.speed", label: "Strongest mean wind", dimension: "speed", of: ({ wind }) => wind.speed },
  {
    path: "bearing",
    label: "Aimed within, either way of its bearing",
    dimension: "angle",
    of: ({ bearing }) => bearing,
  },
  {
    path: "projectileMass.least",
    label: "Lightest projectile",
    dimension: "mass",
    of: ({ projectileMass }) => projectileMass.least,
  },
  {
    path: "projectileMass.most",
    label: "Heaviest projectile",
    dimension: "mass",
    of: ({ projectileMass }) => projectileMass.most,
  },
  {
    path: "counterweightMass",
    label: "Heaviest counterweight",
    dimension: "mass",
    of: ({ counterweightMass }) => counterweightMass,
  },
  { path: "pressure", label: "Highest pressure", dimension: "gauge", of: ({ pressure }) => pressure },
];

/** Degrees: the policy allows for more than anybody needs to aim within. */
const USUAL_AIM = 1;

export function PermitForm({
  slug,
  machine,
  firingPointNumber,
  revision,
  sheet,
  inspection,
  widest,
}: {
  slug: string;
  machine: MachinePage["machine"];
  firingPointNumber: number;
  revision: { id: string; number: number };
  /** Exclusion distances, m. */
  sheet: { id: string; forward: number; backward: number; side: number };
  inspection: InspectionInfo;
  widest: PermitLimits;
}) {
  const system = useUnits();
  const asked = ASKED.filter(({ of }) => of(widest) !== null);
  const [typed, setTyped] = useState<Record<string, Quantity>>(() => {
    const start = { ...widest, bearing: Math.min(USUAL_AIM, widest.bearing) };
    return Object.fromEntries(
      asked.map(({ path, dimension, of }) => [path, quantityOf(of(start), dimension, system)]),
    );
  });
  const value = (path: string): number | null => typed[path]?.value ?? null;
  const distance = (metres: number) => wholeDistance(metres, system, "up");
  return (
    <WriteForm<PermitInfo>
      label="Sign a firing permit"
      url={`/api/v1/contests/${slug}/machines/${machine.id}/permits`}
      fields={[
        ...asked.map(({ path }) => `limits.${path}`),
        "limits.wind",
        "limits.projectileMass",
        "conditions",
        "paper.signedAt",
        "paper.witness",
      ]}
      body={(form) => {
        for (const { path, label, dimension } of asked) {
          const problem = quantityProblem(label, typed[path] as Quantity, dimension, system);
          if (problem) return problem;
        }
        const unfinished = unfinishedPaper(form);
        if (unfinished) return unfinished;
        return {
          revisionId: revision.id,
          firingPointId: machine.firingPointId,
          bearing: machine.bearing,
          sheetId: sheet.id,
          inspectionId: inspection.id,
          limits: {
            wind: { speed: value("wind.speed"), gust: value("wind.gust"), height: widest.wind.height },
            bearing: value("bearing"),
            projectileMass: { least: value("projectileMass.least"), most: value("projectileMass.most") },
            counterweightMass: value("counterweightMass"),
            pressure: value("pressure"),
          },
          conditions: textOf(form, "conditions"),
          ...paperOf(form),
        };
      }}
      submit="Sign this permit"
      done={({ number }) => <p>Permit {number} is signed.</p>}
    >
      {(errorFor) => (
        <>
          <Caution kind="mandatory" title="look at the machine and its zone before you sign">
            <p>
              Revision {revision.number} at firing point {firingPointNumber}, bearing{" "}
              {bearingText(machine.bearing ?? 0)}: nobody within {distance(sheet.forward)} ahead,{" "}
              {distance(sheet.backward)} behind, {distance(sheet.side)} beside. Failures can exceed that;
              local codes and your own judgement come first.
            </p>
          </Caution>
          <p>
            Inspection: {INSPECTION_WORDS[inspection.outcome].toLowerCase()}, by {inspection.by}.{" "}
            {inspection.limits}
          </p>
          {asked.map(({ path, label, dimension }) => (
            <QuantityField
              key={path}
              id={`permit-${path.replace(".", "-")}`}
              label={label}
              fieldName={label}
              dimension={dimension}
              quantity={typed[path] as Quantity}
              onChange={(quantity) => setTyped((all) => ({ ...all, [path]: quantity }))}
              error={
                errorFor(`limits.${path}`) ??
                (path === "wind.gust"
                  ? errorFor("limits.wind")
                  : path === "projectileMass.least"
                    ? errorFor("limits.projectileMass")
                    : null)
              }
            />
          ))}
          <Conditions start={inspection.limits} error={errorFor("conditions")} />
          <PaperFirst errorFor={errorFor} />
        </>
      )}
    </WriteForm>
  );
}

function Conditions({ start, error }: { start: string; error: string | null }) {
  return (
    <LongTextField
      id="permit-conditions"
      label="What else must be kept to"
      help="The limits of the inspection, and whatever the crew has to do or leave."
      error={error}
      optional={start === ""}
      name="conditions"
      rows={3}
      maxLength={1000}
      defaultValue={start}
    />
  );
}
