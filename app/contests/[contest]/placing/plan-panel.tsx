"use client";
/** All machines: where they stand, which are pinned, and a plan that places the rest. */
import { useRouter } from "next/navigation";
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { bearingText } from "@/app/_ui/words";
import { useWrite } from "@/app/_ui/write/use-write";
import type { PlacingMachine, Plan } from "@/lib/api/contracts";
import { LongAnswer } from "./long-answer";
import styles from "./placing.module.css";
import type { FiringPoint } from "./trial";
import { useAnswer } from "./use-answer";

/** Where a plan would have each machine, by its id; null without a plan. */
export type Planned = ReadonlyMap<string, { firingPointId: string; bearing: number }> | null;

interface Props {
  slug: string;
  machines: readonly PlacingMachine[];
  points: readonly FiringPoint[];
  onPlan: (planned: Planned) => void;
  /** Shows one machine on the map. */
  onShow: (machineId: string) => void;
}

export function PlanPanel({ slug, machines, points, onPlan, onShow }: Props) {
  const { asked, ask, forget } = useAnswer<Plan>();
  const [each, setEach] = useState("1");
  const number = (id: string | null) => points.find((point) => point.id === id)?.number ?? "–";
  return (
    <section aria-labelledby="plan">
      <h2 id="plan">A place for every machine</h2>
      <Table
        caption="Machines"
        stacks
        rows={machines}
        rowKey={({ machineId }) => machineId}
        empty="No machine is entered yet."
        columns={[
          {
            key: "name",
            head: "Machine",
            rowHead: true,
            cell: (machine) => (
              <Button look="quiet" onClick={() => onShow(machine.machineId)}>
                {machine.machineName}
              </Button>
            ),
          },
          {
            key: "point",
            head: "Firing point",
            number: true,
            cell: (machine) => number(machine.firingPointId),
          },
          {
            key: "bearing",
            head: "Bearing",
            number: true,
            cell: ({ bearing }) => (bearing === null ? "–" : bearingText(bearing)),
          },
          { key: "pin", head: "In the plan", cell: (machine) => <Pin slug={slug} machine={machine} /> },
        ]}
      />
      <p>
        The plan gives every machine a firing point and the clear bearing nearest the one it aims on. Pinned
        machines stay. It is shown first, and changes nothing until you say so.
      </p>
      <SelectField
        id="each"
        label="Machines that one firing point may hold"
        help="Those that share one take turns on it."
        value={each}
        onChange={(event) => {
          setEach(event.target.value);
          forget();
          onPlan(null);
        }}
        choices={["1", "2", "3", "4"].map((value) => ({ value, label: value }))}
      />
      <Button
        onClick={() => {
          onPlan(null);
          void ask(`/api/v1/contests/${slug}/placing/plan?each=${each}`);
        }}
      >
        Find a placing
      </Button>
      <div aria-live="polite" className={styles.answer}>
        <LongAnswer asked={asked} label="Placing" />
        {asked.state === "answered" && (
          <PlanAnswer
            slug={slug}
            plan={asked.answer}
            machines={machines}
            number={number}
            onPlan={onPlan}
            onDone={() => {
              onPlan(null);
              forget();
            }}
          />
        )}
      </div>
    </section>
  );
}

function Pin({ slug, machine }: { slug: string; machine: PlacingMachine }) {
  const router = useRouter();
  const { write, sending, trouble } = useWrite();
  const { machineId, machineName, firingPointId, bearing, pinned } = machine;
  if (!firingPointId) return <>Not placed yet</>;
  return (
    <>
      <Button
        className={styles.pin}
        aria-pressed={pinned}
        onClick={async () => {
          if (sending) return;
          const url = `/api/v1/contests/${slug}/machines/${machineId}/placement`;
          const sent = await write("PATCH", url, { firingPointId, bearing, pinned: !pinned });
          if (sent.ok) router.refresh();
        }}
      >
        {pinned ? "✓ Pinned" : "Pin it"}
        <span className="aloud">: {machineName}</span>
      </Button>
      {trouble && (
        <Notice kind="problem">
          <p>{trouble}</p>
        </Notice>
      )}
    </>
  );
}

function PlanAnswer({
  slug,
  plan,
  machines,
  number,
  onPlan,
  onDone,
}: {
  slug: string;
  plan: Plan;
  machines: readonly PlacingMachine[];
  number: (pointId: string | null) => number | string;
  onPlan: (planned: Planned) => void;
  onDone: () => void;
}) {
  const router = useRouter();
  const { write, sending, trouble } = useWrite();
  const name = (id: string) => machines.find(({ machineId }) => machineId === id)?.machineName ?? id;
  const changed = plan.placements.filter((placement) => placement.changed);
  const left = plan.left.length > 0 && (
    <ul>
      {plan.left.map(({ machineId, reason }) => (
        <li key={machineId}>
          {name(machineId)} is not in the plan: {reason}
        </li>
      ))}
    </ul>
  );
  if (plan.impossible) {
    const { machineIds, firingPointIds, why } = plan.impossible;
    return (
      <>
        <Notice title="No placing for all of them">
          <p>
            {machineIds.map(name).join(", ")} cannot all be placed:{" "}
            {firingPointIds.length === 0
              ? "there is no firing point at which it has a clear bearing."
              : `together they have a clear bearing only at ${firingPointIds.length === 1 ? "firing point" : "firing points"} ${firingPointIds.map(number).join(", ")}.`}
          </p>
        </Notice>
        {left}
        <Table
          caption="Why not elsewhere"
          rows={why}
          rowKey={({ machineId, firingPointId }) => `${machineId} ${firingPointId}`}
          columns={[
            { key: "machine", head: "Machine", rowHead: true, cell: ({ machineId }) => name(machineId) },
            { key: "point", head: "Firing point", number: true, cell: (row) => number(row.firingPointId) },
            {
              key: "why",
              head: "There",
              cell: ({ clear, blockers, heldBy }) =>
                clear
                  ? "✓ has a clear bearing"
                  : heldBy
                    ? `✕ ${name(heldBy)} is pinned there`
                    : `✕ in the way: ${blockers.map((each) => each.name).join(", ")}`,
            },
          ]}
        />
      </>
    );
  }
  if (changed.length === 0)
    return (
      <>
        <p>Every machine in the plan stands on a clear bearing already: nothing is to be changed.</p>
        {left}
      </>
    );
  return (
    <>
      <Table
        caption="The plan"
        stacks
        rows={plan.placements}
        rowKey={({ machineId }) => machineId}
        columns={[
          { key: "machine", head: "Machine", rowHead: true, cell: ({ machineId }) => name(machineId) },
          {
            key: "from",
            head: "Now",
            cell: ({ from }) =>
              from ? `point ${number(from.firingPointId)}, ${bearingText(from.bearing)}` : "not placed",
          },
          {
            key: "to",
            head: "In the plan",
            cell: ({ to, pinned, changed: moves }) =>
              moves ? (
                <strong>{`point ${number(to.firingPointId)}, ${bearingText(to.bearing)}`}</strong>
              ) : (
                `stays${pinned ? ", pinned" : ""}`
              ),
          },
        ]}
      />
      {left}
      {trouble && (
        <Notice kind="problem">
          <p>{trouble}</p>
        </Notice>
      )}
      <div className="button-row">
        <Button onClick={() => onPlan(new Map(plan.placements.map(({ machineId, to }) => [machineId, to])))}>
          Draw it on the map
        </Button>
        <Button
          look="main"
          aria-disabled={sending || undefined}
          onClick={async () => {
            if (sending) return;
            const placements = changed.map(({ machineId, from, to }) => ({ machineId, from, to }));
            const sent = await write("PUT", `/api/v1/contests/${slug}/placing`, { placements });
            if (!sent.ok) return;
            onDone();
            router.refresh();
          }}
        >
          {sending ? "Sending…" : `Place ${changed.length === 1 ? "it" : `these ${changed.length}`}`}
        </Button>
      </div>
    </>
  );
}
