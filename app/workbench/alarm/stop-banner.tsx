"use client";
/** Above every page of the workbench, on paper too, until nobody's throw calls STOP any more. */
import Link from "next/link";
import { usePathname } from "next/navigation";
import type { MouseEvent, ReactNode } from "react";
import { Caution } from "@/app/_ui/caution";
import { useUnits } from "@/app/_ui/units";
import { useBench } from "../bench/use-bench";
import { sameMachineKey } from "../trials/log/log";
import { useLog } from "../trials/log/use-log";
import { lookAgain } from "../trials/use-named-throw";
import styles from "./alarm.module.css";
import { CAME } from "./came";
import { nameOf, type Received } from "./received";
import { useAlarm } from "./use-alarm";
import type { Sign } from "./verdict";
import { beyondText, carriedText, slipText, throwText } from "./words";

const TRIALS = "/workbench/trials";
const MOST_NAMED = 3;

export function StopBanner() {
  const { signs, received, failures } = useAlarm();
  const { broken } = useLog();
  return (
    <div role="status" className={styles.banner}>
      {signs.length > 0 ? <Stop signs={signs} /> : null}
      {received.length > 0 ? <Came stops={received} /> : null}
      {failures.map(({ case: { group, id }, message }) => (
        <Caution key={id} kind="prohibition" title="throw while the last throw is not judged">
          <p>
            Whether a throw of “{group.name}” went too far could not be computed: {message}
          </p>
        </Caution>
      ))}
      {broken ? (
        <Caution kind="prohibition" title="throw while the practice throws cannot be read">
          <p>
            Whether one of them called STOP is not known. <Link href={TRIALS}>See what can be done</Link>.
          </p>
        </Caution>
      ) : null}
    </div>
  );
}

/** On the page itself the address changes without a new page, which must look again at what it names. */
function ToThrow({ id, children }: { id: string; children: ReactNode }) {
  const hash = `#throw-${encodeURIComponent(id)}`;
  const here = usePathname() === TRIALS;
  const look = (event: MouseEvent) => {
    if (!here) return;
    event.preventDefault();
    if (location.hash === hash) lookAgain();
    else location.hash = hash;
  };
  return (
    <Link href={`${TRIALS}${hash}`} onClick={look}>
      {children}
    </Link>
  );
}

/** It came along with a machine: the throws themselves are in the log of whoever wrote them down. */
function Came({ stops }: { stops: readonly Received[] }) {
  const system = useUnits();
  const hold = stops.some(({ rank }) => rank !== "alarm");
  return (
    <Caution
      kind={hold ? "prohibition" : "warning"}
      title={hold ? "throw. STOP came with the machine" : "STOP came with the machine"}
    >
      <ul className={styles.throws}>
        {stops.slice(0, MOST_NAMED).map((each) => (
          <li key={nameOf(each)}>
            {carriedText(each, system)}. It came with {each.from}.
          </li>
        ))}
        {stops.length > MOST_NAMED ? <li>And {stops.length - MOST_NAMED} more.</li> : null}
      </ul>
      <p>
        Until it is known why, nobody throws, and no distance on these pages holds. Whoever handed the machine
        on had not answered it: ask them first.{" "}
        <Link href={`${TRIALS}#${CAME}`} className="no-print">
          Write down why it no longer stands
        </Link>
      </p>
    </Caution>
  );
}

function Stop({ signs }: { signs: readonly Sign[] }) {
  const system = useUnits();
  const { reading, loaded } = useBench();
  const hold = signs[0]?.finding.rank === "hold";
  const [first] = signs;
  const slip = first ? slipText(first, system) : null;
  const bench = loaded && reading.ok ? sameMachineKey(reading.request) : null;
  const changed = signs.some(({ group }) => group.key !== bench);
  return (
    <Caution
      kind={hold ? "prohibition" : "warning"}
      title={hold ? "throw. STOP: the model is wrong" : "STOP, a throw went too far"}
    >
      <ul className={styles.throws}>
        {signs.slice(0, MOST_NAMED).map((sign) => (
          <li key={sign.made.id}>
            <ToThrow id={sign.made.id}>{throwText(sign, system)}</ToThrow>, {beyondText(sign, system)}.
          </li>
        ))}
        {signs.length > MOST_NAMED ? <li>And {signs.length - MOST_NAMED} more.</li> : null}
      </ul>
      <p className="no-print">
        <strong>Look first whether it was written down right</strong>: a wrong digit or unit is the commonest
        cause. {slip}
      </p>
      <p>
        Until it is known, nobody throws.{" "}
        {hold
          ? "No distance that follows from the model holds, neither on these pages nor on a sheet of this machine, nor those of its keep-out zone."
          : "Something has changed, or was declared wrong: the projectile, the wind, the pin, the machine. Distances on these pages and on a sheet of this machine may not hold."}
        {changed
          ? " The numbers on the bench are others than at that throw: that cures nothing, and STOP stands until somebody writes down why it no longer does."
          : ""}
        {signs.some(({ old }) => old)
          ? " What was changed since is being judged; until then it stands as it was judged last."
          : ""}
      </p>
    </Caution>
  );
}
