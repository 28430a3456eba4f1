"use client";
import { useEffect, useState } from "react";
import { SheetCautions } from "@/app/_ui/hazard-sheet";
import { ThrowTable } from "@/app/_ui/hazard-sheet/throw-table";
/** The quick answer: figures, the swing, the flights and the plot. Never official. */
import { distanceText, inWords } from "@/app/_ui/hazard-sheet/words";
import { ErrorList } from "@/app/_ui/machine-form/error-list";
import type { FieldErrors } from "@/app/_ui/machine-form/form/request";
import type { FormState } from "@/app/_ui/machine-form/form/state";
import { Notice } from "@/app/_ui/notice";
import { DistancePlot } from "@/app/_ui/throw-pictures/distance-plot";
import { FlightView } from "@/app/_ui/throw-pictures/flight-view";
import { SwingView } from "@/app/_ui/throw-pictures/swing-view";
import type { Previewed } from "@/app/_ui/throw-pictures/use-preview";
import type { UnitSystem } from "@/app/_ui/units-cookie";

export function LiveResults({
  previewed,
  form,
  errors,
  system,
}: {
  previewed: Previewed;
  form: FormState;
  /** Why the form, as it stands, cannot be computed; empty when it can. */
  errors: FieldErrors;
  system: UnitSystem;
}) {
  const { preview, request, stale, failure } = previewed;
  return (
    <section className="live no-print" aria-labelledby="live-title">
      <h2 id="live-title">Quick answer, at the declared numbers</h2>
      <p>
        Computed in this browser while you type, at the declared numbers and without margins: for learning,
        never official: a hazard sheet alone is.
      </p>
      {failure ? (
        <Notice kind="problem" title="Not computed">
          <p>{failure}</p>
        </Notice>
      ) : null}
      {Object.keys(errors).length > 0 ? (
        <Notice title={preview ? "Not computed: what follows is of earlier numbers" : "Not computed"}>
          <ErrorList errors={errors} form={form} />
        </Notice>
      ) : null}
      {preview && request ? (
        <div className={stale ? "live-body live-stale" : "live-body"}>
          {preview.nominal ? null : (
            <Notice title="As meant, nothing is thrown">
              <p>
                {inWords(preview.nominalReason ?? "", request.machine.kind, system)} The worst throws count
                all the same.
              </p>
            </Notice>
          )}
          {preview.swing ? (
            <div className="live-pictures">
              <div>
                <h3>The swing</h3>
                <SwingView preview={preview} swing={preview.swing} system={system} />
              </div>
              <div>
                <h3>Distance against release instant</h3>
                <DistancePlot preview={preview} system={system} />
              </div>
            </div>
          ) : (
            <>
              <h3>Distance by how it leaves</h3>
              <DistancePlot preview={preview} system={system} />
            </>
          )}
          <h3>The flights</h3>
          <FlightView preview={preview} terrain={request.terrain} system={system} />
          <ThrowTable throws={preview} system={system} caption="Throws at the declared numbers" />
          <SheetCautions />
        </div>
      ) : null}
    </section>
  );
}

/** Longer than an answer usually takes, ms. */
const LATE = 600;

/** Whether something has lasted: what comes and goes with every key is not said. */
function useLasting(now: boolean): boolean {
  const [lasting, setLasting] = useState(false);
  useEffect(() => {
    if (!now) return setLasting(false);
    const timer = setTimeout(() => setLasting(true), LATE);
    return () => clearTimeout(timer);
  }, [now]);
  return lasting;
}

/** The three figures that matter, always in sight while numbers are typed. */
export function LiveStrip({ previewed, system }: { previewed: Previewed; system: UnitSystem }) {
  const { preview, stale } = previewed;
  const late = useLasting(stale);
  const figure = (label: string, metres: number | null | undefined) => (
    <div>
      <dt>{label}</dt>
      <dd>{metres === null || metres === undefined ? "–" : distanceText(metres, system)}</dd>
    </div>
  );
  return (
    <section className="strip no-print" aria-label="Quick answer in short">
      <dl className={stale ? "live-stale" : undefined}>
        {figure("As meant", preview?.nominal?.distance)}
        {figure("Worst ahead", preview?.worst.forward.distance)}
        {figure("Worst behind", preview?.worst.backward.distance)}
      </dl>
      <p>
        {late
          ? "Of earlier numbers, not of these."
          : "First impact, no tolerances, no margin: the zone reaches farther."}
      </p>
    </section>
  );
}
