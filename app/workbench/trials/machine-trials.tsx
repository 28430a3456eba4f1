"use client";
/** One machine's throws: written down, what they say of it, the next setting, a film's release, and what broke. */
import { useMemo, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { newKey } from "@/app/_ui/write/key";
import { type HazardRequest, tuning } from "@/lib/throw";
import { AfterThrow } from "./after-throw";
import { thrownRequest } from "./broke/ask";
import { BrokeSection } from "./broke/broke-section";
import { ThrowEntry } from "./entry/throw-entry";
import { FootageSection } from "./footage/footage-section";
import {
  calibrating,
  corrected,
  type Group,
  MOST_THROWS,
  mainSetting,
  requestOf,
  type Throw,
  withThrow,
} from "./log/log";
import { measuredOf } from "./log/measured";
import type { KeptLog } from "./log/use-log";
import { LogSection } from "./log-section";
import { MachineSection } from "./machine/machine-section";
import { NextSection } from "./machine/next-section";
import { StopThrowing } from "./machine/stop-throwing";
import { useMachine } from "./machine/use-machine";

export function MachineTrials({
  group,
  writing,
  kept,
}: {
  group: Group;
  writing: { name: string; request: HazardRequest };
  kept: KeptLog;
}) {
  const system = useUnits();
  const { log, change, last, forgetLast } = kept;
  const { throws } = group;
  const { request } = writing;
  const [correcting, setCorrecting] = useState<Throw | null>(null);
  const [full, setFull] = useState(false);
  const setting = mainSetting(request);
  const knobs = useMemo(() => tuning.knobsOf(request), [request]);
  const used = calibrating(throws);
  const measured = (list: readonly Throw[]) =>
    list.flatMap((each) => measuredOf(each, requestOf(log, each)) ?? []);
  const forward = measured(used.forward);
  const backward = measured(used.backward);
  const found = useMachine(
    forward.length + backward.length > 0
      ? { request, throws: forward, backward, setting: setting.dimension === "angle" ? setting.name : null }
      : null,
  );
  const machine = found.now?.machine ?? null;
  const provisional = found.now?.provisional ?? true;
  const newestThrow = throws.at(-1);
  const others = throws.length - used.forward.length - used.backward.length;

  // What had the focus is gone: whoever hears the page stands at the throws again.
  const toLog = () => requestAnimationFrame(() => document.getElementById("log-title")?.focus());
  const stopCorrecting = () => {
    setCorrecting(null);
    toLog();
  };
  const write = (made: Omit<Throw, "machine" | "pieces" | "film">) => {
    // As it stands now: pieces may have been written into it meanwhile, or it is gone.
    const standing = correcting && log.throws.find(({ id }) => id === correcting.id);
    if (standing) {
      // The form shows one other number that was changed: what a file brought beyond it stays.
      const changed = Object.entries(standing.settings).filter(([name]) => name !== setting.name);
      const more = Object.fromEntries(changed.slice(1));
      const settings = { ...made.settings, ...more };
      change(corrected(log, { ...standing, ...made, settings }), "The throw is corrected.");
      stopCorrecting();
    } else if (log.throws.length >= MOST_THROWS) setFull(true);
    else {
      change(
        withThrow(log, { ...made, pieces: [], film: null }, writing, newKey()),
        "The throw is written down.",
      );
      if (correcting) stopCorrecting();
    }
  };

  return (
    <>
      <StopThrowing found={found} system={system} />
      <AfterThrow result={newestThrow?.result} />
      <section aria-labelledby="entry-title" className="no-print">
        <h2 id="entry-title">{correcting ? "Correct a throw" : "Write down a throw"}</h2>
        <ThrowEntry
          key={correcting?.id ?? "new"}
          setting={setting}
          knobs={knobs}
          request={correcting ? requestOf(log, correcting) : request}
          before={newestThrow}
          correcting={correcting}
          newId={newKey}
          onWrite={write}
          onRefused={forgetLast}
          onCancel={stopCorrecting}
        />
        <div role="status">
          {full ? (
            <Notice kind="problem" title="Not written down">
              <p>
                The log holds {MOST_THROWS} throws, and no more go in. Save them as CSV below, then remove the
                oldest.
              </p>
            </Notice>
          ) : null}
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
        {machine ? (
          <MachineSection
            machine={machine}
            throws={used.forward}
            log={log}
            setting={setting}
            provisional={provisional}
            system={system}
          />
        ) : (
          <p>
            {forward.length + backward.length > 0 && !found.failure
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
        {machine && newestThrow && (provisional || machine.calibration.efficiency === null) ? (
          <p>
            {provisional
              ? "Working out first what the machine throws at its worst…"
              : "No throw says yet what this machine does."}
          </p>
        ) : machine && newestThrow ? (
          machine.calibration.hold || machine.behindWorst.length > 0 ? (
            <p>None: the model is wrong for this machine. Find out why before anything is set.</p>
          ) : newestThrow.result !== "landed" ? (
            <p>None after a throw that went wrong: find out why first.</p>
          ) : machine.calibration.alarm ? (
            <p>
              None after an alarm: find out first why a throw went so far. One that was measured or written
              down wrong is corrected or removed; a machine that has changed since is another revision.
            </p>
          ) : (
            <NextSection
              request={thrownRequest(request, used.forward.at(-1) ?? newestThrow)}
              throws={forward.filter((_, index) => machine.calibration.marks[index]?.used)}
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
