"use client";
/** Strengths beside the loads that they must bear. */
import Link from "next/link";
import { useCallback, useState } from "react";
import { Button } from "@/app/_ui/button";
import { kindTitle } from "@/app/_ui/hazard-sheet/words";
import { ErrorList } from "@/app/_ui/machine-form/error-list";
import { hasStrengths, StrengthFields } from "@/app/_ui/machine-form/sections/declared";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { useBench } from "../bench/use-bench";
import { useBreakage, useHelp } from "./asks";
import { LoadsCard } from "./loads-card";

export function LoadsDesk() {
  const system = useUnits();
  const { bench, revision, reading, change, loaded } = useBench();
  const { form } = revision;
  const asked = loaded && reading.ok ? reading.request : null;
  const { answer, question, stale, failure } = useBreakage(asked);
  const help = useHelp(asked);
  const [visited, setVisited] = useState<ReadonlySet<string>>(new Set());
  const onVisited = useCallback((path: string) => setVisited((before) => new Set(before).add(path)), []);
  const errors = reading.ok ? {} : reading.errors;
  const shown = Object.fromEntries(Object.entries(errors).filter(([path]) => visited.has(path)));
  return (
    <>
      {failure && (
        <Notice kind="problem" title="Not computed">
          <p>{failure}</p>
        </Notice>
      )}
      {Object.keys(errors).length > 0 && (
        <Notice title={answer ? "Not computed: what follows is of earlier numbers" : "Not computed"}>
          <ErrorList errors={errors} form={form} />
          <p>
            What is not on this page stands on the <Link href="/workbench">machine page</Link>.
          </p>
        </Notice>
      )}
      {hasStrengths(form.kind) && (
        <section className="no-print" aria-labelledby="strengths-title">
          <h2 id="strengths-title">What the parts bear</h2>
          <StrengthFields
            form={form}
            change={(action) => change({ do: "form", change: action })}
            errors={shown}
            onVisited={onVisited}
          />
        </section>
      )}
      {answer && question && (
        <>
          <LoadsCard
            title={[bench.name || kindTitle(question.machine.kind), revision.name].filter(Boolean).join(", ")}
            found={answer}
            request={question}
            help={help.stale ? [] : (help.answer ?? [])}
            seeking={help.stale && reading.ok}
            stale={stale}
            system={system}
          />
          <p className="button-row no-print">
            <Button onClick={() => print()}>Print the card</Button>
            <Link className="button" href="/workbench/stop">
              Design the stop
            </Link>
          </p>
        </>
      )}
    </>
  );
}
