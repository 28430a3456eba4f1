"use client";
/** Declaring a machine revision on its drawing, with the calculator's own form. */
import { useCallback, useEffect, useMemo, useReducer, useState } from "react";
import { TextField } from "@/app/_ui/field";
import { useUnits } from "@/app/_ui/units";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import "@/app/_ui/machine-form/machine-form.css";
import "@/app/_ui/throw-pictures/pictures.css";
import { MachineEntry } from "@/app/_ui/machine-form/drawing/machine-entry";
import { goTo } from "@/app/_ui/machine-form/error-list";
import { fieldId } from "@/app/_ui/machine-form/form/fields";
import { formFromDeclaration } from "@/app/_ui/machine-form/form/memory";
import { placesOf, readForm } from "@/app/_ui/machine-form/form/request";
import { changeForm, startingForm } from "@/app/_ui/machine-form/form/state";
import { KindPicker } from "@/app/_ui/machine-form/kind-picker";
import { ProjectileSection } from "@/app/_ui/machine-form/sections/conditions";
import { StrengthSection, ToleranceSection } from "@/app/_ui/machine-form/sections/declared";
import type { Declaration } from "@/lib/throw";

export function DeclareForm({
  slug,
  machineId,
  newest,
  startingUnits,
}: {
  slug: string;
  machineId: string;
  newest: Declaration | null;
  startingUnits: UnitSystem;
}) {
  const system = useUnits();
  const [form, change] = useReducer(changeForm, newest, (from) =>
    from ? formFromDeclaration(from, startingUnits) : startingForm(startingUnits),
  );
  const [visited, setVisited] = useState<ReadonlySet<string>>(new Set());
  const [everything, setEverything] = useState(false);
  const reading = useMemo(() => readForm(form), [form]);
  const onVisited = useCallback((path: string) => setVisited((before) => new Set(before).add(path)), []);
  useEffect(() => {
    if (form.system !== system) change({ type: "units", system });
  }, [form.system, system]);

  return (
    <WriteForm<{ number: number }>
      label="Declare a revision"
      url={`/api/v1/contests/${slug}/machines/${machineId}/revisions`}
      fields={["note", ...placesOf(form).map(({ path }) => `declaration.${path}`)]}
      body={(values) => {
        setEverything(true);
        if (!reading.ok) {
          const [path, message] = Object.entries(reading.errors)[0] ?? ["", ""];
          goTo(fieldId(path));
          return message || "Something above is missing.";
        }
        const { machine, projectile, tolerances, strengths } = reading.body as Record<string, unknown>;
        return {
          declaration: {
            machine,
            projectile,
            ...(tolerances ? { tolerances } : {}),
            ...(strengths ? { strengths } : {}),
          },
          note: textOf(values, "note"),
        };
      }}
      submit="Declare this revision"
      done={({ number }) => <p>Revision {number} is declared. Its hazard sheet is being computed.</p>}
    >
      {(errorFor) => {
        const errors: Record<string, string> = {};
        for (const { path } of placesOf(form)) {
          const refused = errorFor(`declaration.${path}`);
          if (refused) errors[path] = refused;
        }
        if (!reading.ok) {
          for (const [path, message] of Object.entries(reading.errors)) {
            if (everything || visited.has(path)) errors[path] = message;
          }
        }
        const section = { form, change, errors, onVisited };
        return (
          <>
            <KindPicker kind={form.kind} onKind={(kind) => change({ type: "kind", kind })} />
            {!newest && (
              <p>The numbers are an invented example: put the machine&rsquo;s own in their place.</p>
            )}
            <MachineEntry {...section} />
            <ProjectileSection {...section} />
            <ToleranceSection {...section} />
            <StrengthSection {...section} />
            <TextField
              id="revision-note"
              name="note"
              label="What changed"
              optional
              error={errorFor("note")}
            />
          </>
        );
      }}
    </WriteForm>
  );
}
