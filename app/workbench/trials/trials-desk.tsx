"use client";
/** The throws of this browser: which machine's are looked at, and what stands in the way of writing one down. */
import Link from "next/link";
import { useEffect, useMemo, useRef, useState } from "react";
import { Caution } from "@/app/_ui/caution";
import { SelectField } from "@/app/_ui/field";
import { kindTitle } from "@/app/_ui/hazard-sheet/words";
import { ErrorList } from "@/app/_ui/machine-form/error-list";
import { Notice } from "@/app/_ui/notice";
import { newKey } from "@/app/_ui/write/key";
import type { HazardRequest } from "@/lib/throw";
import { CameStops } from "../alarm/came";
import { useBench } from "../bench/use-bench";
import { BrokenLog } from "./log/broken-log";
import { groupsOf, sameMachineKey } from "./log/log";
import { useLog } from "./log/use-log";
import { LogFile } from "./log-section";
import { MachineTrials } from "./machine-trials";
import { useNamedThrow } from "./use-named-throw";
import { YardZoneOf } from "./yard-zone";

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
  // A link to a throw leads to its machine, and to what there is to do about it.
  const ready = loaded && kept.loaded;
  const named = useNamedThrow();
  const home = named && groups.find(({ throws }) => throws.some(({ id }) => id === named.id));
  const homeKey = home?.key;
  const there = group?.key === homeKey;
  const looked = useRef<typeof named>(null);
  useEffect(() => {
    if (!ready || !named || !homeKey || looked.current === named) return;
    if (!there) return setChosen(homeKey);
    looked.current = named;
    requestAnimationFrame(() => {
      const place =
        document.getElementById(`deal-title-${named.id}`) ?? document.getElementById(`throw-${named.id}`);
      place?.focus({ preventScroll: true });
      place?.scrollIntoView({ block: "start" });
    });
  }, [ready, named, homeKey, there]);
  if (!ready) return <p>The throws are being read…</p>;
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
      <CameStops />
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
      {onBench && group?.key === benchKey ? <YardZoneOf request={onBench} /> : null}
      {group ? (
        <MachineTrials
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
