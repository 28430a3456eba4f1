"use client";
/** The machine on its drawing, with the calculator's own form: numbers, tolerances, what its parts bear. */
import { useCallback, useMemo, useState } from "react";
import { Caution } from "@/app/_ui/caution";
import { CheckField, TextField } from "@/app/_ui/field";
import "@/app/_ui/machine-form/machine-form.css";
import "@/app/_ui/throw-pictures/pictures.css";
import { MachineEntry } from "@/app/_ui/machine-form/drawing/machine-entry";
import { ErrorList } from "@/app/_ui/machine-form/error-list";
import { readForm } from "@/app/_ui/machine-form/form/request";
import { KindPicker } from "@/app/_ui/machine-form/kind-picker";
import { ProjectileSection } from "@/app/_ui/machine-form/sections/conditions";
import { StrengthSection, ToleranceSection } from "@/app/_ui/machine-form/sections/declared";
import { Notice } from "@/app/_ui/notice";
import { practiceStopIn } from "@/lib/inspection";
import { FromWorkbench } from "./from-workbench";
import type { OnEntry } from "./use-own-entry";

export function MachinePart({ entry: { draft, setValues, change } }: { entry: OnEntry }) {
  const { values, form } = draft;
  const reading = useMemo(() => readForm(form), [form]);
  const [visited, setVisited] = useState<ReadonlySet<string>>(new Set());
  const onVisited = useCallback((path: string) => setVisited((before) => new Set(before).add(path)), []);
  const errors = reading.ok
    ? {}
    : Object.fromEntries(Object.entries(reading.errors).filter(([path]) => visited.has(path)));
  const section = { form, change, errors, onVisited };
  return (
    <>
      <TextField
        id="entry-machine-name"
        label="Machine’s name"
        maxLength={80}
        value={values.machineName}
        onChange={(event) => setValues({ machineName: event.target.value })}
      />
      <FromWorkbench
        system={form.system}
        onTaken={(taken, note) => {
          change({ type: "replace", state: taken });
          setValues({ note, ownNumbers: false });
        }}
      />
      {practiceStopIn([values]) && (
        <Caution kind="prohibition" title="enter a machine as if its throws were understood">
          <p>{values.note}</p>
          <p>It goes along: whoever inspects the machine reads it.</p>
        </Caution>
      )}
      <KindPicker kind={form.kind} onKind={(kind) => change({ type: "kind", kind })} />
      {!values.ownNumbers && (
        <p>
          The numbers are an invented example: put your machine’s own in their place. Units may be typed, such
          as 12 ft 6 in or 3,5 m.
        </p>
      )}
      <MachineEntry {...section} />
      <ProjectileSection {...section} />
      <ToleranceSection {...section} />
      <StrengthSection {...section} />
      {!reading.ok && (
        <Notice kind="problem" title="Not complete yet">
          <ErrorList errors={reading.errors} form={form} />
        </Notice>
      )}
      <CheckField
        id="entry-own-numbers"
        label="These numbers were measured on our own machine; none is left from the example."
        checked={values.ownNumbers}
        onChange={(event) => setValues({ ownNumbers: event.target.checked })}
      />
    </>
  );
}
