"use client";
/** The machine as a drawing with its numbers, the quick answer beside it, and its revisions side by side. */
import { useCallback, useMemo, useState } from "react";
import { MachineSections } from "@/app/_ui/machine-form/machine-sections";
import type { SectionProps } from "@/app/_ui/machine-form/sections/fields";
import { LiveResults, LiveStrip } from "@/app/_ui/throw-pictures/live-results";
import { usePreview } from "@/app/_ui/throw-pictures/use-preview";
import { useUnits } from "@/app/_ui/units";
import { useBench } from "./bench/use-bench";
import { RevisionCompare } from "./revision-compare";
import { RevisionPicker } from "./revision-picker";

export function MachineDesk() {
  const system = useUnits();
  const { revision, reading, change, loaded } = useBench();
  const { form } = revision;
  const previewed = usePreview(loaded && reading.ok ? reading.request : null);
  const [visited, setVisited] = useState<ReadonlySet<string>>(new Set());
  const onVisited = useCallback((path: string) => setVisited((before) => new Set(before).add(path)), []);
  const errors = reading.ok ? {} : reading.errors;
  // What a field does not allow is said once it has been left.
  const shown = useMemo(
    () => Object.fromEntries(Object.entries(errors).filter(([path]) => visited.has(path))),
    [errors, visited],
  );
  const props: SectionProps = {
    form,
    change: (action) => change({ do: "form", change: action }),
    errors: shown,
    onVisited,
  };
  return (
    <div className="calculator">
      <RevisionPicker />
      <MachineSections {...props} />
      <LiveResults previewed={previewed} errors={errors} form={form} system={system} />
      <RevisionCompare />
      <LiveStrip previewed={previewed} system={system} />
    </div>
  );
}
