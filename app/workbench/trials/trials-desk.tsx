"use client";
/** The throws of the machine on the bench, what they say of it, the next setting, a film's release, and what broke. */
import Link from "next/link";
import { useMemo, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { SelectField } from "@/app/_ui/field";
import { kindTitle } from "@/app/_ui/hazard-sheet/words";
import { ErrorList } from "@/app/_ui/machine-form/error-list";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { newKey } from "@/app/_ui/write/key";
import { type HazardRequest, tuning } from "@/lib/throw";
import { useBench } from "../bench/use-bench";
import { AfterThrow } from "./after-throw";
import { thrownRequest } from "./broke/ask";
import { BrokeSection } from "./broke/broke-section";
import { ThrowEntry } from "./entry/throw-entry";
import { FootageSection } from "./footage/footage-section";
import { BrokenLog } from "./log/broken-log";
import {
  calibrating,
  corrected,
  type Group,
  groupsOf,
  mainSetting,
  measuredOf,
  sameMachineKey,
  type Throw,
  withThrow,
} from "./log/log";
import { type KeptLog, useLog } from "./log/use-log";
import { LogFile, LogSection } from "./log-section";
import { MachineSection, StopThrowing } from "./machine/machine-section";
import { NextSection } from "./machine/next-section";
import { useMachine } from "./machine/use-machine";

export function TrialsDesk() {
  const { bench, revision, reading, loaded } = useBench();
  const kept = useLog();
  const { log } = kept;
  const title = [bench.name || kindTitle(revision.form.kind), revision.name].filter(Boolean).join(", ");
  // By value: a name that is typed changes no machine.
  const key = reading.ok ? JSON.stringify(reading.request) : "";
  const onBench = useMemo((): HazardRequest | null => (key ? JSON.parse(key) : null), [key]);
  const groups = useMemo(() => groupsOf(log), [log]);
  const benchKey = onBench ? sameMachineKey(onBench) : "";
  const [chosen, setChosen] = useState("");
  const group =
    groups.find((each) => each.key === (chosen || benchKey)) ??
    (onBench ? { key: benchKey, name: title, request: onBench, throws: [] } : null);
  if (!loaded || !kept.loaded) return <p>The throws are being read…</p>;
  if (kept.broken) return <BrokenLog kept={kept} />;
  return (
    <div className="calculator">
      <Caution kind="mandatory" title="at every throw">
        <p>
          Everybody stays beyond the keep-out zone until the machine has been made safe: nobody measures,
          looks for the projectile or sets the pin before. After a throw that nobody expected, stop, and find
          out why.
        </p>
      </Caution>
      {kept.unkept ? (
        <Notice kind="problem" title="This browser keeps no more">
          <p>
            Its storage is full or forbidden: what you see is in this page alone, and is lost when it closes.
            Save all throws as CSV now.
          </p>
        </Notice>
      ) : null}
      {!reading.ok ? (
        <Notice kind="problem" title="The revision on the bench is not complete">
          <ErrorList errors={reading.errors} form={revision.form} />
          <p>
            <Link href="/workbench">Correct it on the page Machine</Link> to write down throws of it.
          </p>
        </Notice>
      ) : null}
      {groups.length > 0 && (groups.length > 1 || groups[0]?.key !== benchKey) ? (
        <SelectField
          id="trials-machine"
          label="Throws of"
          help="A throw stays with the numbers that it was thrown with: a revision that was changed since is another machine here."
          value={group?.key ?? ""}
          onChange={(event) => setChosen(event.target.value)}
          choices={[
            ...(onBench && groups.every((each) => each.key !== benchKey)
              ? [{ value: benchKey, label: `${title}, as on the bench: no throw yet` }]
              : []),
            ...groups.map((each) => ({
              value: each.key,
              label: `${each.name}${each.key === benchKey ? ", as on the bench" : ""}: ${each.throws.length} ${each.throws.length === 1 ? "throw" : "throws"}`,
            })),
          ]}
        />
      ) : (
        <p>Throws of “{group?.name ?? title}”, with the numbers that stand on the bench now.</p>
      )}
      {group ? (
        <Trials
          key={group.key}
          group={group}
          // Throws are written down of what is on the bench, or of the numbers that earlier ones had.
          writing={
            group.key === benchKey && onBench
              ? { name: title, request: onBench }
              : { name: group.name, request: group.request }
          }
          kept={kept}
        />
      ) : null}
      <LogFile
        log={log}
        bench={onBench ? { name: title, request: onBench } : null}
        newId={newKey}
        change={kept.change}
      />
    </div>
  );
}

function Trials({
  group,
  writing,
  kept,
}: {
  group: Group;
  writing: { name: string; request: HazardRequest };
  kept: KeptLog;
}) {
  const system = useUnits();
  const { log, change, last } = kept;
  const { throws } = group;
  const { request } = writing;
  const [correcting, setCorrecting] = useState<Throw | null>(null);
  const setting = mainSetting(request);
  const knobs = useMemo(() => tuning.knobsOf(request), [request]);
  const used = calibrating(throws);
  const measured = (list: readonly Throw[]) => list.flatMap((each) => measuredOf(each) ?? []);
  const forward = measured(used.forward);
  const backward = measured(used.backward);
  const { answer, question, stale, failure } = useMachine(
    forward.length + backward.length > 0
      ? { request, throws: forward, backward, setting: setting.dimension === "angle" ? setting.name : null }
      : null,
  );
  const machine = question && answer?.fitted.length === used.forward.length ? answer : null;
  const newestThrow = throws.at(-1);
  const others = throws.length - used.forward.length - used.backward.length;

  // What had the focus is gone: whoever hears the page stands at the throws again.
  const toLog = () => requestAnimationFrame(() => document.getElementById("log-title")?.focus());
  const stopCorrecting = () => {
    setCorrecting(null);
    toLog();
  };
  const write = (made: Omit<Throw, "machine" | "pieces" | "film">) => {
    if (correcting) {
      // The form shows one other number that was changed: what a file brought beyond it stays.
      const changed = Object.entries(correcting.settings).filter(([name]) => name !== setting.name);
      const more = Object.fromEntries(changed.slice(1));
      const settings = { ...made.settings, ...more };
      change(corrected(log, { ...correcting, ...made, settings }), "The throw is corrected.");
      stopCorrecting();
    } else
      change(
        withThrow(log, { ...made, pieces: [], film: null }, writing, newKey()),
        "The throw is written down.",
      );
  };

  return (
    <>
      {machine ? <StopThrowing machine={machine} system={system} /> : null}
      <AfterThrow result={newestThrow?.result} />
      <section aria-labelledby="entry-title" className="no-print">
        <h2 id="entry-title">{correcting ? "Correct a throw" : "Write down a throw"}</h2>
        <ThrowEntry
          key={correcting?.id ?? "new"}
          setting={setting}
          knobs={knobs}
          mass={request.projectile.mass}
          before={newestThrow}
          correcting={correcting}
          newId={newKey}
          onWrite={write}
          onCancel={stopCorrecting}
        />
        <div role="status">
          {last ? (
            <Notice kind="done" title={last.did}>
              <p className="button-row">
                <Button onClick={last.undo}>Undo</Button>
              </p>
            </Notice>
          ) : null}
        </div>
      </section>
      <section aria-labelledby="log-title">
        <h2 id="log-title" tabIndex={-1}>
          {throws.length} {throws.length === 1 ? "throw" : "throws"}
        </h2>
        <LogSection
          log={log}
          shown={throws}
          change={(next, did) => {
            change(next, did);
            toLog();
          }}
          onCorrect={setCorrecting}
        />
      </section>
      <section aria-labelledby="machine-title">
        <h2 id="machine-title">The calibrated machine</h2>
        {failure ? (
          <Notice kind="problem" title="Not computed">
            <p>{failure}</p>
          </Notice>
        ) : null}
        {machine ? (
          <MachineSection
            machine={machine}
            throws={used.forward}
            log={log}
            setting={setting}
            stale={stale}
            system={system}
          />
        ) : (
          <p>
            {forward.length + backward.length > 0 && !failure
              ? "Working it out…"
              : "It takes a throw that landed."}
          </p>
        )}
        {others > 0 ? (
          <p>
            {others} {others === 1 ? "throw is" : "throws are"} left out of it: nothing landed as meant, or
            something broke.
          </p>
        ) : null}
      </section>
      <section aria-labelledby="next-title">
        <h2 id="next-title">The setting to try next</h2>
        {machine && newestThrow && machine.calibration.efficiency !== null ? (
          machine.calibration.hold || machine.behindWorst.length > 0 ? (
            <p>None: the model is wrong for this machine. Find out why before anything is set.</p>
          ) : machine.calibration.marks.at(-1)?.verdict === "alarm" ? (
            <p>None after an alarm: find out first why the last throw went so far.</p>
          ) : (
            <NextSection
              request={thrownRequest(request, used.forward.at(-1) ?? newestThrow)}
              throws={forward}
              machine={machine}
              setting={setting}
              system={system}
            />
          )
        ) : (
          <p>It follows from the calibrated machine: write down a throw that landed.</p>
        )}
      </section>
      <section aria-labelledby="film-title" className="no-print">
        <h2 id="film-title">Release from a film</h2>
        <FootageSection
          request={request}
          efficiency={machine?.calibration.efficiency ?? null}
          setting={setting}
          throws={throws}
          onWrite={(made, film) =>
            change(corrected(log, { ...made, film }), "The release is written into the throw.")
          }
        />
      </section>
      <section aria-labelledby="broke-title">
        <h2 id="broke-title">What broke, and where pieces went</h2>
        <BrokeSection log={log} throws={throws} change={change} />
      </section>
    </>
  );
}
