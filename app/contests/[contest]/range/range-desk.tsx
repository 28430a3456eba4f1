"use client";
/** The safety officer's page: what stands in the way, hot for one machine, cold, the lift of a hold. Others may look. */
import { useEffect, useState } from "react";
import { SelectField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import type { RangeView } from "@/lib/api/contracts";
import { momentOf } from "../range-bar/range-words";
import styles from "./range.module.css";
import { MachineTable, PostTable } from "./range-tables";
import { StandClear } from "./stand-clear";
import { STATES } from "./states";
import { BigButton, useTell } from "./told";
import { useBeats, useRange } from "./use-range";

export interface Rights {
  /** Hot, cold, lift. */
  run: boolean;
  tick: boolean;
  approach: boolean;
}

export function RangeDesk({ slug, first, rights }: { slug: string; first: RangeView; rights: Rights }) {
  const [machine, setMachine] = useState<string | null>(first.firing?.machineId ?? null);
  const { view, refresh, lost: old } = useRange(slug, first, machine);
  const { tell, sending, said } = useTell(slug, refresh);
  const { lease, take, drop } = useLease(view);
  const { lost, heardAt } = useBeats(slug, lease ? { hot: lease } : null);
  const firing = view.firing?.machineId === machine ? view.firing : null;
  const { hot, holds } = view;

  const goHot = async () => {
    const sent = await tell("POST", "/hot", { machineId: machine, turn: view.turn });
    if (sent.ok && sent.data.hot) take(sent.data.hot.id);
  };
  return (
    <>
      {old && (
        <p className={styles.lost} role="alert">
          Server lost: what stands here may be old. Nobody goes by it; ask by radio.
        </p>
      )}
      {said}
      {view.mode === "hold" && (
        <Notice title="A hold stands" live>
          <ul>
            {holds.map(({ id, at, by, why }) => (
              <li key={id}>
                {momentOf(new Date(at))}, {by ?? "the program"}: {why}
              </li>
            ))}
          </ul>
          {rights.run ? (
            <BigButton
              busy={sending}
              onPress={() => void tell("POST", "/lift", { holds: holds.map(({ id }) => id) })}
            >
              Lift the hold
            </BigButton>
          ) : (
            <p>Only the safety officer lifts it.</p>
          )}
        </Notice>
      )}
      {hot && rights.run && (
        <section aria-label="Hot">
          <p>
            <strong>Hot for {hot.machineName}</strong> since {momentOf(new Date(hot.since))}.{" "}
            {lease
              ? "This page keeps it hot: leave it open and in sight. When it is no longer heard, the range goes on hold."
              : "Another page keeps it hot."}
          </p>
          {lost !== null && (
            <p className={styles.lost} role="alert">
              Server lost, last heard {momentOf(heardAt ? new Date(heardAt) : null)}. The range goes on hold
              by itself.
            </p>
          )}
          <BigButton
            look="main"
            busy={sending}
            onPress={() => {
              drop();
              void tell("POST", "/cold", { hot: hot.id });
            }}
          >
            Cold: end hot
          </BigButton>
          {!lease && <BigButton onPress={() => take(hot.id)}>Keep it hot from this page</BigButton>}
        </section>
      )}
      {!hot && view.mode !== "hold" && (
        <section aria-labelledby="next-title">
          <h2 id="next-title">The machine that fires next</h2>
          <SelectField
            id="range-machine"
            label="Machine"
            value={machine ?? ""}
            onChange={(event) => setMachine(event.target.value || null)}
            choices={[
              { value: "", label: "Choose a machine" },
              ...view.machines.map(({ id, name, firingPointNumber, state }) => ({
                value: id,
                label: `${name}, firing point ${firingPointNumber}: ${STATES[state]}`,
              })),
            ]}
          />
          {firing && (
            <>
              <StandClear
                firing={firing}
                mayTick={rights.tick}
                onTick={(key, done) =>
                  void tell("PUT", "/stand-clear", {
                    machineId: firing.machineId,
                    version: firing.version,
                    key,
                    done,
                    turn: view.turn,
                  })
                }
              />
              {!old && <InTheWay lines={firing.inTheWay} />}
              {rights.run && (
                <BigButton
                  look="main"
                  busy={sending || old || firing.inTheWay.length > 0}
                  onPress={() => void goHot()}
                >
                  Hot for {firing.machineName}
                </BigButton>
              )}
            </>
          )}
        </section>
      )}
      <h2>Posts</h2>
      <PostTable posts={view.posts} />
      <h2>Downrange</h2>
      <p>
        {view.out === 0 ? "No tag is out." : view.out === 1 ? "One tag is out." : `${view.out} tags are out.`}{" "}
        <a href={`/contests/${slug}/tally`}>Tally at the line</a>
      </p>
      <h2>Machines</h2>
      <MachineTable slug={slug} view={view} mayApproach={rights.approach} onDone={refresh} />
    </>
  );
}

function InTheWay({ lines }: { lines: readonly string[] }) {
  return (
    <section aria-labelledby="way-title" aria-live="polite">
      <h2 id="way-title">
        {lines.length === 0 ? "Nothing stands in the way" : "What stands in the way of hot"}
      </h2>
      <ul className={styles.way}>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {lines.length === 0 && <p>Look at the range yourself, and sound the horn before you press.</p>}
    </section>
  );
}

const KEPT = "fairthrow:lease";

/** The lease that this page holds: it survives a reload, not another page. */
function useLease({ hot }: RangeView) {
  const [kept, setKept] = useState<string | null>(null);
  useEffect(() => setKept(sessionStorage.getItem(KEPT)), []);
  const keep = (id: string | null) => {
    setKept(id);
    if (id) sessionStorage.setItem(KEPT, id);
    else sessionStorage.removeItem(KEPT);
  };
  return {
    lease: hot && hot.id === kept ? kept : null,
    take: (id: string) => keep(id),
    drop: () => keep(null),
  };
}
