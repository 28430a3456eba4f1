"use client";
/** Who throws next and when: the next three large, one's own turn, and the whole day below. */
import { LocalTime } from "@/app/_ui/local-time";
import { Notice } from "@/app/_ui/notice";
import type { FiringOrder, TurnInfo } from "@/lib/api/contracts";
import styles from "./order.module.css";
import { OrderList } from "./order-list";
import { slipOf, useOrder } from "./use-order";
import { paceText, untilText } from "./words";

const NEXT = ["Up now", "Next", "Then"];

export function OrderDesk({
  slug,
  first,
  sequence,
  own,
}: {
  slug: string;
  first: FiringOrder;
  /** Of the newest scorebook entry that this shows. */
  sequence: number;
  /** The entrant whose team reads the page. */
  own: string | null;
}) {
  const { order, now, silent } = useOrder(slug, first, sequence);
  const slip = slipOf(order, now);
  const later = (iso: string) => new Date(Date.parse(iso) + slip).toISOString();
  const turns = order.turns.map((turn) => ({
    ...turn,
    expectedAt: turn.expectedAt && later(turn.expectedAt),
    doneAt: turn.doneAt && later(turn.doneAt),
  }));
  const left = turns.filter(({ state }) => state === "to-throw");
  if (turns.length === 0) return <p>No firing order is made yet.</p>;
  return (
    <>
      <p className={styles.asOf}>
        As of <LocalTime iso={order.at} day />
        {silent && ", and the server is not heard: ask at the line"}.{" "}
        {order.rules ? paceText(order.pace) : "No times are planned for these turns yet."}
      </p>
      {order.stale.length > 0 && (
        <Notice title="The order may change">
          <ul>
            {order.stale.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </Notice>
      )}
      {own !== null && <OwnTurn turns={left} own={own} now={now} />}
      {left.length === 0 ? (
        <p>Every turn of the order is thrown.</p>
      ) : (
        <ol className={styles.next} aria-label="The next turns">
          {left.slice(0, NEXT.length).map((turn, index) => (
            <li key={turn.shotId} className={turn.entrantId === own ? styles.own : undefined}>
              <p className={styles.when}>
                <strong>{NEXT[index]}</strong>
                {index > 0 && turn.expectedAt && now !== null && (
                  <span>{untilText(turn.expectedAt, now)}</span>
                )}
              </p>
              <h2>
                <span className={styles.number}>{turn.entrantNumber}</span> {turn.entrantName}
              </h2>
              <p>
                {turn.machineName}, firing point {turn.firingPointNumber}, round {turn.round}
                {turn.expectedAt && index > 0 && (
                  <>
                    , about <LocalTime iso={turn.expectedAt} />
                  </>
                )}
              </p>
              {turn.permitted === false && <NoPermit />}
              {turn.stops.length > 0 && (
                <p>
                  Stop re-arming and step back for it: <strong>{turn.stops.join(", ")}</strong>
                </p>
              )}
            </li>
          ))}
        </ol>
      )}
      <p>
        Times are estimates. Be ready early; the call at the line, horn and flag count, never a time on this
        page. Nobody re-arms inside a live zone.
      </p>
      <OrderList turns={turns} upId={order.upId} own={own} slug={slug} />
    </>
  );
}

/** A machine that is up and may not throw holds up nobody: another turn comes before it. */
export const NoPermit = () => (
  <p>
    <strong>✗ No firing permit stands:</strong> it does not throw until one does, and is passed over.
  </p>
);

function OwnTurn({ turns, own, now }: { turns: readonly TurnInfo[]; own: string; now: number | null }) {
  const at = turns.findIndex(({ entrantId }) => entrantId === own);
  const turn = turns[at];
  if (!turn) return <p>Your team has no turn left.</p>;
  return (
    <div className={styles.yours}>
      <p>
        <strong>Your next turn: round {turn.round}</strong>
        {turn.expectedAt && (
          <>
            , about <LocalTime iso={turn.expectedAt} />
            {now !== null && ` (${untilText(turn.expectedAt, now)})`}
          </>
        )}
        . {at === 0 ? "You are up." : at === 1 ? "One turn before you." : `${at} turns before you.`}
      </p>
    </div>
  );
}
