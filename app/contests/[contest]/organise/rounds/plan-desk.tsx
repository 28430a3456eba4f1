"use client";
/** The organiser's firing order: plan the rest of the day, see what it costs, move a turn, say how long machines take. */
import { Notice } from "@/app/_ui/notice";
import type { FiringOrder } from "@/lib/api/contracts";
import { type CrewMachine, MachineTimesList } from "../../order/machine-times-list";
import { OrderList } from "../../order/order-list";
import { useOrder } from "../../order/use-order";
import { paceText } from "../../order/words";
import { MoveTurn } from "./move-turn";
import { PlanForm } from "./plan-form";

export function PlanDesk({
  slug,
  first,
  sequence,
  machines,
  date,
  mayPlan,
}: {
  slug: string;
  first: FiringOrder;
  /** Of the newest scorebook entry that this shows. */
  sequence: number;
  machines: readonly CrewMachine[];
  /** First day of the contest, YYYY-MM-DD. */
  date: string;
  mayPlan: boolean;
}) {
  const { order, refresh } = useOrder(slug, first, sequence);
  const left = order.turns.filter(({ state }) => state === "to-throw");
  const over = order.turns.length > 0 && left.length === 0 && order.missing.length === 0;
  return (
    <>
      {(order.stale.length > 0 || order.missing.length > 0) && (
        <Notice title="Since it was planned">
          <ul>
            {order.stale.map((words) => (
              <li key={words}>{words}</li>
            ))}
            {order.missing.map(({ machineId, machineName, rounds }) => (
              <li key={machineId}>
                {machineName} is ready and has no turn in round {rounds.join(", ")}: plan anew to take it in.
              </li>
            ))}
          </ul>
        </Notice>
      )}
      {order.rules && <p>{paceText(order.pace)}</p>}
      {over ? (
        <p>Every turn of every round is thrown.</p>
      ) : mayPlan ? (
        <>
          <h2>{order.rules ? "Plan the rest of the day anew" : "Plan the day"}</h2>
          <PlanForm slug={slug} rules={order.rules} date={date} onDone={refresh} />
        </>
      ) : (
        <p>The organiser plans the order; you may move a turn.</p>
      )}
      <OrderList
        turns={order.turns}
        upId={order.upId}
        own={null}
        slug={slug}
        more={(turn) =>
          turn.state === "to-throw" ? <MoveTurn slug={slug} turn={turn} turns={left} onDone={refresh} /> : "–"
        }
      />
      <h2>How long machines take</h2>
      <p>
        Re-arming is what a crew does at its machine between two throws until it may be raised again. Live is
        from the first raising until the machine is down again. Watch them once with a clock.
      </p>
      <MachineTimesList slug={slug} machines={machines} rules={order.rules} mayChange={mayPlan} />
    </>
  );
}
