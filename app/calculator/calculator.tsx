"use client";
/** The calculator: a machine entered on its drawing, a quick answer as it changes, the official sheet on asking. */
import Link from "next/link";
import { useCallback, useMemo, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { CopyLink } from "@/app/_ui/copy-link";
import { HazardSheetView } from "@/app/_ui/hazard-sheet";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import "../_ui/machine-form/machine-form.css";
import "../_ui/throw-pictures/pictures.css";
import { MachineSections } from "@/app/_ui/machine-form/machine-sections";
import { LiveResults, LiveStrip } from "@/app/_ui/throw-pictures/live-results";
import { ErrorList } from "../_ui/machine-form/error-list";
import { formToHash, linkTo } from "../_ui/machine-form/form/link";
import { type FieldErrors, readForm } from "../_ui/machine-form/form/request";
import type { FormState } from "../_ui/machine-form/form/state";
import { LinkNotice } from "../_ui/machine-form/link-notice";
import type { SectionProps } from "../_ui/machine-form/sections/fields";
import { PolicySection } from "../_ui/machine-form/sections/policy";
import { usePreview } from "../_ui/throw-pictures/use-preview";
import { OfficialProgress } from "./results/progress";
import { useOfficial } from "./results/use-official";
import { useForm } from "./use-form";

export function Calculator() {
  const system = useUnits();
  const [form, change, loaded, link] = useForm();
  const reading = useMemo(() => readForm(form), [form]);
  const previewed = usePreview(loaded && reading.ok ? reading.request : null);
  const { official, asked, ask } = useOfficial();
  const [visited, setVisited] = useState<ReadonlySet<string>>(new Set());
  const [everything, setEverything] = useState(false);
  const result = useRef<HTMLDivElement>(null);

  // What a field does not allow is said once it has been left, or when the sheet was asked for.
  const refused = asked.state === "refused" ? asked.errors : {};
  const live = reading.ok ? {} : reading.errors;
  const shown: Record<string, string> = { ...refused };
  for (const [path, message] of Object.entries(live)) {
    if (everything || visited.has(path)) shown[path] = message;
  }
  for (const path of Object.keys(refused)) if (visited.has(path) && !(path in live)) delete shown[path];

  const onVisited = useCallback((path: string) => setVisited((before) => new Set(before).add(path)), []);
  const props: SectionProps = { form, change, errors: shown, onVisited };

  const askNow = async () => {
    setEverything(true);
    setVisited(new Set());
    await ask(form, reading);
    // After the answer or the refusal has been drawn.
    requestAnimationFrame(() => result.current?.focus());
  };

  return (
    <div className="calculator">
      <LinkNotice {...link} />
      <div className="no-print">
        <MachineSections {...props} />
        <PolicySection {...props} />
        <CopyLink
          path={linkTo("/calculator", formToHash(form))}
          button="Copy a link to these numbers"
          done="Copied. The link holds these numbers and nothing else."
        >
          <Button onClick={() => change({ type: "example" })}>Back to the example</Button>
        </CopyLink>
      </div>
      <LiveResults previewed={previewed} errors={live} form={form} system={system} />
      <p className="no-print">
        Something landed where it should not? <Link href="/calculator/replay">Find what explains it</Link>,
        for the machine above.
      </p>
      <section aria-label="Official sheet">
        <div className="no-print">
          <h2>Official sheet</h2>
          <p>
            The server searches every release instant and the whole of the tolerances, with drag, lift, gusts
            and margins, in some seconds. Nothing is stored.
          </p>
          <p className="button-row">
            <Button look="main" onClick={askNow} aria-disabled={asked.state === "asking"}>
              {asked.state === "asking" ? "Computing…" : "Make the official sheet"}
            </Button>
            {official ? <Button onClick={() => window.print()}>Print the sheet</Button> : null}
          </p>
          <OfficialProgress asked={asked} />
        </div>
        <div ref={result} tabIndex={-1} className="result">
          <p className="aloud" role="status">
            {asked.state === "asking"
              ? "Computing the official sheet."
              : official
                ? "The official sheet is below."
                : ""}
          </p>
          {asked.state === "refused" ? <Refused errors={shown} form={form} /> : null}
          {official ? (
            <>
              {!reading.ok || JSON.stringify(reading.body) !== official.body ? (
                <Notice title="Of earlier numbers">
                  <p>
                    The fields above have changed since this sheet was made. Make it again before it is used.
                  </p>
                </Notice>
              ) : null}
              <HazardSheetView
                sheet={official.sheet}
                system={system}
                declaration={official.request}
                air={official.request.air}
                terrain={official.request.terrain}
                policy={official.request.policy}
              />
            </>
          ) : null}
        </div>
      </section>
      <LiveStrip previewed={previewed} system={system} />
    </div>
  );
}

/** What the server or the contract refused. */
function Refused({ errors, form }: { errors: FieldErrors; form: FormState }) {
  if (Object.keys(errors).length === 0) return <Notice title="Ready">Ask for the sheet again.</Notice>;
  return (
    <Notice kind="problem" title="No sheet yet">
      <ErrorList errors={errors} form={form} />
    </Notice>
  );
}
