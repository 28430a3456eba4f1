"use client";
/** The throws that were written down: corrected, taken out and back in, out of the browser and into it. */
import { useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { saveFile } from "@/app/_ui/save-file";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import { type HazardRequest, tuning } from "@/lib/throw";
import { formatQuantity, formatUncertain } from "@/lib/units";
import { useAlarm } from "../alarm/use-alarm";
import type { Sign } from "../alarm/verdict";
import { beyondText } from "../alarm/words";
import { traceText } from "./deal/trace-words";
import { isStruck } from "./log/history";
import { type Log, requestOf, type Throw, type ThrownMachine } from "./log/log";
import { csvIntoLog, logToCsv } from "./log/log-csv";
import { thrownWith } from "./log/measured";
import { airText, markText, settingText, whenText, windText } from "./log/words";
import styles from "./trials.module.css";

const LARGEST_FILE = 4 * 1024 * 1024;

export function LogSection({
  log,
  shown,
  signs,
  onCorrect,
  onRemove,
  onRestore,
}: {
  log: Log;
  /** Of the machine that is looked at. */
  shown: readonly Throw[];
  /** Those of them that call STOP. */
  signs: readonly Sign[];
  onCorrect: (made: Throw) => void;
  onRemove: (made: Throw) => void;
  onRestore: (made: Throw) => void;
}) {
  const system = useUnits();
  if (shown.length === 0) return <p>No throw of this machine has been written down yet.</p>;
  const nameOf = (each: Throw) => log.machines.find(({ id }) => id === each.machine)?.name ?? "";
  return (
    <Table
      caption="Throws, the newest first"
      hideCaption
      stacks
      rows={[...shown].reverse()}
      rowKey={({ id }) => id}
      columns={[
        {
          key: "number",
          head: "Throw",
          rowHead: true,
          cell: (each) => {
            const mark = `${shown.indexOf(each) + 1}. ${markText(each, system)}`;
            const stops = signs.some(({ made }) => made.id === each.id);
            return (
              <span id={`throw-${each.id}`} tabIndex={-1} className={styles.mark}>
                {isStruck(each) ? <s>{mark}</s> : mark}
                {stops ? <strong>, STOP</strong> : null}
              </span>
            );
          },
        },
        {
          key: "setting",
          head: "Setting",
          cell: (each) => {
            const { settings, assumed } = thrownWith(each, requestOf(log, each));
            const words = settingText(settings, tuning.knobsOf(requestOf(log, each)), system);
            return assumed.setting ? `${words}, not written down: as declared then` : words;
          },
        },
        { key: "wind", head: "Wind", cell: (each) => windText(each, requestOf(log, each), system) },
        ...(shown.some(({ air }) => air)
          ? [{ key: "air", head: "Air", cell: (each: Throw) => airText(each, system) }]
          : []),
        {
          key: "mass",
          head: "Projectile",
          cell: (each) => {
            const { mass, assumed } = thrownWith(each, requestOf(log, each));
            return `${formatQuantity(mass, "mass", system)}${assumed.mass ? ", not weighed: as declared then" : ""}`;
          },
        },
        ...(shown.some(({ film }) => film)
          ? [
              {
                key: "film",
                head: "Release from film",
                cell: ({ film }: Throw) =>
                  film
                    ? `${formatUncertain(film.speed.value, film.speed.uncertainty, "speed", system)} at ${formatUncertain(film.launchAngle.value, film.launchAngle.uncertainty, "angle", system)}`
                    : "–",
              },
            ]
          : []),
        {
          key: "when",
          head: "When",
          cell: (each) => `${whenText(each.at)}${each.note ? `. ${each.note}` : ""}`,
        },
        { key: "of", head: "Numbers of", cell: nameOf },
        ...(shown.some(({ trace }) => trace?.length)
          ? [
              {
                key: "trace",
                head: "Changed since",
                cell: (each: Throw) => <Traces made={each} declared={requestOf(log, each)} />,
              },
            ]
          : []),
        {
          key: "do",
          head: <span className="aloud">Correct or remove</span>,
          cell: (each) => {
            const which = <span className="aloud"> throw {shown.indexOf(each) + 1}</span>;
            return isStruck(each) ? (
              <p className={`${styles.rowButtons} no-print`}>
                <Button onClick={() => onRestore(each)}>Count it again{which}</Button>
              </p>
            ) : (
              <p className={`${styles.rowButtons} no-print`}>
                <Button onClick={() => onCorrect(each)}>Correct{which}</Button>
                <Button onClick={() => onRemove(each)}>Remove{which}</Button>
              </p>
            );
          },
        },
      ]}
    />
  );
}

function Traces({ made, declared }: { made: Throw; declared: HazardRequest }) {
  const system = useUnits();
  const { trace = [] } = made;
  if (trace.length === 0) return "–";
  return (
    <ul className={styles.traces}>
      {trace.map((each, index) => (
        <li key={`${each.at}-${index}`}>{traceText(each, declared, system)}</li>
      ))}
    </ul>
  );
}

/** All throws of all machines, out and in. */
export function LogFile({
  log,
  bench,
  newId,
  change,
}: {
  log: Log;
  /** What rows without numbers of their own are taken to be of; null while it is not complete. */
  bench: Omit<ThrownMachine, "id"> | null;
  newId: () => string;
  change: (log: Log, did: string) => void;
}) {
  const input = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState<{ kind: "done" | "problem"; words: string } | null>(null);
  const { signs } = useAlarm();
  const calling = new Map(signs.map((sign) => [sign.made.id, `stands: ${beyondText(sign, "metric")}`]));
  const save = () => saveFile(logToCsv(log, calling), "practice-throws.csv", "text/csv");
  const open = async (file: File | undefined) => {
    if (!file) return;
    const read =
      file.size > LARGEST_FILE
        ? ({ ok: false, message: "The file is larger than 4 MB: it holds no throws of ours." } as const)
        : csvIntoLog(await file.text(), log, bench, newId);
    if (!read.ok) {
      setSaid({ kind: "problem", words: `${read.message} Nothing was taken from the file.` });
      return;
    }
    const { added, known, borrowed } = read;
    const words = [
      `${added} ${added === 1 ? "throw" : "throws"} of ${file.name} ${added === 1 ? "is" : "are"} written down.`,
      known > 0
        ? `${known} ${known === 1 ? "was" : "were"} passed over: the same throw (time, result, mark and settings) stood here already.`
        : "",
      borrowed > 0
        ? `${borrowed} brought no numbers: they are taken to be of the revision on the bench.`
        : "",
    ].join(" ");
    setSaid({ kind: "done", words });
    if (added > 0) change(read.log, words);
  };
  return (
    <section aria-labelledby="file-title" className="no-print">
      <h2 id="file-title">Out and in</h2>
      <p>
        Throws stay in this browser. As CSV (SI units, in the columns' names) they go into a spreadsheet and
        to another device, each with the numbers of its machine and with what was changed in it since; whether
        a throw calls STOP is judged there anew. A wind without a height counts as read by hand, at 2 m.
      </p>
      <p className="button-row">
        <Button aria-disabled={log.throws.length === 0} onClick={() => log.throws.length > 0 && save()}>
          Save all throws as CSV
        </Button>
        <Button onClick={() => input.current?.click()}>Read throws from CSV</Button>
      </p>
      <input
        ref={input}
        type="file"
        accept=".csv,text/csv"
        aria-label="File of throws"
        hidden
        onChange={(event) => {
          void open(event.target.files?.[0]);
          event.target.value = "";
        }}
      />
      <div role="status">
        {said ? (
          <Notice kind={said.kind} title={said.kind === "done" ? "Read" : "Not read"}>
            <p>{said.words}</p>
          </Notice>
        ) : null}
      </div>
    </section>
  );
}
