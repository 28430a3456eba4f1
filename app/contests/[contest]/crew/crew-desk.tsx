"use client";
/** What the crew's chief says of the machine, in large buttons, and who may be where meanwhile. */
import { useState } from "react";
import { SelectField } from "@/app/_ui/field";
import type { RangeMachine, RangeView } from "@/lib/api/contracts";
import styles from "../range/range.module.css";
import { STATES } from "../range/states";
import { BigButton, useTell } from "../range/told";
import { useRange } from "../range/use-range";
import { momentOf } from "../range-bar/range-words";

type State = RangeMachine["state"];
/** The usual one first. */
const NEXT: Record<State, readonly [State, string][]> = {
  safe: [["raising", "Raising"]],
  raising: [
    ["armed", "Armed"],
    ["safe", "Made safe"],
    ["fired", "It went off"],
  ],
  armed: [
    ["fired", "Fired"],
    ["misfired", "Misfired"],
    ["safe", "Made safe"],
  ],
  fired: [["safe", "Made safe"]],
  misfired: [
    ["safe", "Made safe"],
    ["fired", "It went off"],
  ],
};

export function CrewDesk({ slug, first, own }: { slug: string; first: RangeView; own: readonly string[] }) {
  const { view, refresh, lost } = useRange(slug, first, null);
  const { tell, sending, said } = useTell(slug, refresh);
  const [chosen, choose] = useState(own.length === 1 ? own[0] : "");
  const machines = view.machines.filter(({ id }) => own.includes(id));
  const machine = machines.find(({ id }) => id === chosen);
  if (machines.length === 0) return <p>No machine of yours stands on a firing point yet.</p>;
  return (
    <>
      {lost && (
        <p className={styles.lost} role="alert">
          Server lost: what stands here may be old. Nobody goes by it; ask by radio.
        </p>
      )}
      {machines.length > 1 && (
        <SelectField
          id="crew-machine"
          label="Machine"
          value={chosen ?? ""}
          onChange={(event) => choose(event.target.value)}
          choices={[
            { value: "", label: "Choose a machine" },
            ...machines.map(({ id, name, state }) => ({ value: id, label: `${name}: ${STATES[state]}` })),
          ]}
        />
      )}
      {machine && (
        <section className={styles.machine} aria-label={machine.name}>
          <p className={styles.big} role="status">
            {machine.name} is {STATES[machine.state]}
            {machine.since && `, since ${momentOf(new Date(machine.since))}`}
          </p>
          <p>{machine.where}</p>
          {machine.state !== "safe" && (machine.holds?.length ?? 0) > 0 && (
            <p>Its zone holds {machine.holds?.join(", ")}.</p>
          )}
          {machine.approachFrom && (
            <p>
              <strong>Nobody goes near before {momentOf(new Date(machine.approachFrom))}.</strong>{" "}
              {machine.approached
                ? "One person is named, and goes alone."
                : "The safety officer then names the one person who goes."}
            </p>
          )}
          {view.mode === "hot" && (
            <p>
              <strong>
                {view.hot?.machineId === machine.id
                  ? "The range is hot for this machine."
                  : `The range is hot for ${view.hot?.machineName}.`}
              </strong>
            </p>
          )}
          {said}
          {NEXT[machine.state].map(([to, words], index) => (
            <BigButton
              key={to}
              look={index === 0 ? "main" : "plain"}
              busy={sending}
              onPress={() => void tell("PUT", `/machines/${machine.id}`, { to, step: machine.step })}
            >
              {words}
            </BigButton>
          ))}
        </section>
      )}
    </>
  );
}
