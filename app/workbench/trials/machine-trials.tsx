"use client";
/** One machine's throws: written down, what they say of it, the next setting, a film's release, and what broke. */
import { useEffect, useMemo, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { newKey } from "@/app/_ui/write/key";
import { type HazardRequest, tuning } from "@/lib/throw";
import { shortName } from "../alarm/hash";
import { useAlarm } from "../alarm/use-alarm";
import { leavesTrace, mayUndo } from "../alarm/verdict";
import { AfterThrow } from "./after-throw";
import { thrownRequest } from "./broke/ask";
import { BrokeSection } from "./broke/broke-section";
import { DealWith } from "./deal/deal-with";
import { ReasonForm } from "./deal/reason-form";
import { ThrowEntry } from "./entry/throw-entry";
import { localMinute } from "./entry/throw-form";
import { FootageSection } from "./footage/footage-section";
import { isStruck } from "./log/history";
import {
  calibrating,
  corrected,
  type Group,
  type Log,
  MOST_THROWS,
  mainSetting,
  requestOf,
  type Throw,
  type Trace,
  without,
  withThrow,
  withTrace,
} from "./log/log";
import { measuredOf } from "./log/measured";
import type { KeptLog } from "./log/use-log";
import { markText } from "./log/words";
import { LogSection } from "./log-section";
import { MachineSection } from "./machine/machine-section";
import { NextPlace } from "./machine/next-place";
import { ShortThrow } from "./machine/short-throw";
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
  const counted = throws.filter((each) => !isStruck(each));
  const forward = used.forward.flatMap((each) => measuredOf(each, requestOf(log, each)) ?? []);
  const alarm = useAlarm();
  const { cases, verdicts, claim, report, fail } = alarm;
  const own = cases.find(({ group: { key } }) => key === group.key) ?? null;
  const signs = alarm.signs.filter(({ group: { key } }) => key === group.key);
  const found = useMachine(own?.asked ?? null);
  const machine = found.now?.machine ?? null;
  const provisional = found.now?.provisional ?? true;
  const newestThrow = counted.at(-1);
  const others = counted.length - used.forward.length - used.backward.length;
  const [striking, setStriking] = useState<Throw | null>(null);
  const numberOf = ({ id }: Throw) => throws.findIndex((each) => each.id === id) + 1;

  // What is worked out here need not be judged once more.
  const id = own?.id;
  useEffect(() => (id ? claim(id) : undefined), [id, claim]);
  useEffect(() => {
    if (own && found.now) report(own, found.now.machine, found.now.provisional);
    if (own && found.failure) fail(own, found.failure);
  }, [own, found.now, found.failure, report, fail]);

  // What had the focus is gone: whoever hears the page stands at the throws again.
  const toLog = () => requestAnimationFrame(() => document.getElementById("log-title")?.focus());
  const trace = (made: Throw, did: Trace["did"], reason: string, told: string, rank?: Trace["rank"]) => {
    const entry = { at: localMinute(new Date()), did, reason, ...(rank && { rank }) };
    change(withTrace(log, made.id, entry), told);
    toLog();
  };
  const remove = (made: Throw) => {
    if (leavesTrace(made, cases, verdicts)) return setStriking(made);
    change(without(log, made.id), `Throw ${numberOf(made)} (${markText(made, system)}) is removed.`);
    toLog();
  };
  const stopCorrecting = () => {
    setCorrecting(null);
    toLog();
  };
  const write = (made: Omit<Throw, "machine" | "pieces" | "film" | "trace">) => {
    // As it stands now: pieces may have been written into it meanwhile, or it is gone.
    const standing = correcting && log.throws.find(({ id }) => id === correcting.id);
    if (standing) {
      // The form shows one other number that was changed: what a file brought beyond it stays.
      const changed = Object.entries(standing.settings).filter(([name]) => name !== setting.name);
      const more = Object.fromEntries(changed.slice(1));
      const settings = { ...made.settings, ...more };
      // What the form has emptied is not kept from before.
      const { means: _, air: __, ...kept } = standing;
      const now = localMinute(new Date());
      change(corrected(log, { ...kept, ...made, settings }, now), "The throw is corrected.");
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
      {signs.map((sign) => (
        <DealWith
          key={sign.made.id}
          sign={sign}
          onCorrect={() => setCorrecting(sign.made)}
          onStrike={() => setStriking(sign.made)}
          onAnswer={(reason) =>
            trace(
              sign.made,
              "answered",
              reason,
              `STOP by throw ${sign.number} is dealt with. What was written stays with the throw.`,
              sign.finding.rank,
            )
          }
        />
      ))}
      <ShortThrow machine={machine} />
      <AfterThrow result={newestThrow?.result} />
      <section aria-labelledby="entry-title" className="no-print">
        <h2 id="entry-title">{correcting ? "Correct a throw" : "Write down a throw"}</h2>
        <ThrowEntry
          key={correcting?.id ?? "new"}
          setting={setting}
          knobs={knobs}
          request={correcting ? requestOf(log, correcting) : request}
          before={newestThrow}
          draftOf={shortName(group.key)}
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
              {mayUndo(log, last.before, cases, verdicts) ? (
                <p className="button-row">
                  <Button onClick={last.undo}>Undo</Button>
                </p>
              ) : null}
            </Notice>
          ) : null}
        </div>
      </section>
      <section aria-labelledby="log-title">
        <h2 id="log-title" tabIndex={-1}>
          {throws.length} {throws.length === 1 ? "throw" : "throws"}
        </h2>
        {striking ? (
          <ReasonForm
            key={striking.id}
            id="strike-reason"
            label={`Why throw ${numberOf(striking)} (${markText(striking, system)}) counts no more`}
            help="It stays in the log, struck out, with this reason and the time. A wrong number is corrected instead."
            button="Strike it out"
            focused
            onWrite={(reason) => {
              trace(striking, "struck", reason, `Throw ${numberOf(striking)} is struck out.`);
              setStriking(null);
            }}
            onCancel={() => {
              setStriking(null);
              toLog();
            }}
          />
        ) : null}
        <LogSection
          log={log}
          shown={throws}
          signs={signs}
          onCorrect={setCorrecting}
          onRemove={remove}
          onRestore={(made) => trace(made, "restored", "", `Throw ${numberOf(made)} counts again.`)}
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
          <p>{own?.asked && !found.failure ? "Working it out…" : "It takes a throw that landed."}</p>
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
        <NextPlace
          judged={found.now}
          newest={newestThrow}
          stopped={alarm.signs.length + alarm.received.length > 0}
          request={newestThrow ? thrownOf(log, used.forward.at(-1) ?? newestThrow) : request}
          throws={forward}
          setting={setting}
        />
      </section>
      <section aria-labelledby="film-title" className="no-print">
        <h2 id="film-title">Release from a film</h2>
        <FootageSection
          log={log}
          request={request}
          efficiency={machine?.calibration.efficiency ?? null}
          setting={setting}
          throws={throws}
          onWrite={(made, film) =>
            change(
              corrected(log, { ...made, film }, localMinute(new Date())),
              "The release is written into the throw.",
            )
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

/** The machine of a throw in its own air, at its own settings. */
const thrownOf = (log: Log, made: Throw) => thrownRequest(requestOf(log, made), made);
