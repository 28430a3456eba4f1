"use client";
/** From the machine's arriving energy, or a typed one, to a stop. */
import { useEffect } from "react";
import { Button } from "@/app/_ui/button";
import { instantText, kindTitle } from "@/app/_ui/hazard-sheet/words";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { type Breakage, designStop } from "@/lib/throw";
import { useBench } from "../bench/use-bench";
import { STOP_KEY } from "../kept/names";
import { useKept } from "../kept/use-kept";
import { useBreakage } from "../strength/asks";
import type { Source } from "./source";
import { StopCard } from "./stop-card";
import { StopFields } from "./stop-fields";
import { readStop, type StopForm, sourceOf, startingStop } from "./stop-form";
import { stopFromText } from "./stop-memory";

/** The form of this browser, kept through reloads. */
function useStopForm() {
  const system = useUnits();
  const [form, setForm, loaded] = useKept<StopForm>(
    STOP_KEY,
    () => startingStop(system),
    (text) => (text === null ? startingStop(system) : stopFromText(text, system)),
    JSON.stringify,
  );
  // Fields rewrite themselves when the units change; what is not shown then is rewritten here.
  useEffect(() => {
    if (loaded) setForm((before) => stopFromText(JSON.stringify(before), system) ?? startingStop(system));
  }, [system, loaded, setForm]);
  return [form, setForm] as const;
}

export function StopDesk() {
  const system = useUnits();
  const { bench, revision, reading, loaded } = useBench();
  const asked = loaded && reading.ok ? reading.request : null;
  const { answer, question, failure, stale } = useBreakage(asked);
  const [form, setForm] = useStopForm();
  // Without numbers of the machine a typed energy still works.
  const found = reading.ok ? answer : null;
  const waiting = reading.ok && (!answer || stale) && !failure;
  const read = readStop(form, found, question);
  const source = sourceOf(form, found);
  const missing =
    failure ??
    (reading.ok
      ? null
      : "Its numbers are not complete: put them right on the machine page, or type an energy.");
  return (
    <div aria-busy={waiting}>
      {missing && (
        <Notice title="No energy from the machine">
          <p>{missing}</p>
        </Notice>
      )}
      {found && <About found={found} />}
      <StopFields form={form} found={found} errors={read.ok ? {} : read.errors} onChange={setForm} />
      {read.ok ? (
        <>
          <StopCard
            title={[bench.name || kindTitle(revision.form.kind), revision.name].filter(Boolean).join(", ")}
            from={fromText(source)}
            design={designStop(read.input)}
            input={read.input}
            system={system}
          />
          <p className="button-row no-print">
            <Button onClick={() => print()}>Print the design</Button>
          </p>
        </>
      ) : (
        <Notice title="Not designed yet">
          <ul>
            {Object.entries(read.errors).map(([name, message]) => (
              <li key={name}>
                <a href={`#stop-${name}`}>{message}</a>
              </li>
            ))}
          </ul>
        </Notice>
      )}
    </div>
  );
}

/** What the machine is to the stop. */
function About({ found }: { found: Breakage }) {
  if (found.stop) return null;
  return (
    <Notice
      title={found.energies ? "This machine declares no end stop" : "This kind of machine has no end stop"}
    >
      <p>
        {found.energies
          ? "Frame, axle and hanger bear the swinging until it dies away. A stop that catches the arm must take what is offered below; the mass that it feels and what goes on pushing must be typed."
          : "Type the energy of whatever must be stopped: a slide, a limb, a trolley."}
      </p>
    </Notice>
  );
}

function fromText(source: Source | null): string {
  if (!source) return "as typed";
  const { label, arrives } = source;
  const lower = label.charAt(0).toLowerCase() + label.slice(1);
  return arrives === null ? lower : `${lower}, ${instantText(arrives)} after the trigger`;
}
