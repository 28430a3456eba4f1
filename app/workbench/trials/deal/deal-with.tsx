"use client";
/** A throw that calls STOP, and the ways to deal with it: the commonest cause first. */
import { Button } from "@/app/_ui/button";
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import { useUnits } from "@/app/_ui/units";
import alarm from "../../alarm/alarm.module.css";
import type { Sign } from "../../alarm/verdict";
import { beyondText, slipText } from "../../alarm/words";
import { whenText } from "../log/words";
import { ReasonForm } from "./reason-form";

export function DealWith({
  sign,
  onCorrect,
  onStrike,
  onAnswer,
}: {
  sign: Sign;
  onCorrect: () => void;
  onStrike: () => void;
  onAnswer: (reason: string) => void;
}) {
  const system = useUnits();
  const { made, number, finding } = sign;
  const title = `deal-title-${made.id}`;
  const mark = distanceText(finding.distance, system);
  return (
    <section aria-labelledby={title} className={`${alarm.deal} no-print`}>
      <h3 id={title} tabIndex={-1}>
        STOP by throw {number}: {mark}
        {finding.way === "backward" ? " backwards" : ""}
      </h3>
      <p>
        Of {whenText(made.at)}. It went {beyondText(sign, system)}.
      </p>
      <ol>
        <li>
          <strong>Was it written down right?</strong> A wrong digit or unit is the commonest cause: {mark} is{" "}
          {distanceText(finding.distance, system === "metric" ? "us" : "metric")}. Look at the setting, the
          projectile and the wind too. {slipText(sign, system)}
          <p className="button-row">
            <Button onClick={onCorrect}>Correct throw {number}</Button>
            <Button onClick={onStrike}>Strike out throw {number}</Button>
          </p>
        </li>
        <li>
          <strong>If it was,</strong> make the machine safe, keep everybody away, and find out why before
          anybody throws again: measure the machine anew, weigh what it throws, read the wind, look at pin,
          loop and sling, and show it to whoever inspects it.
        </li>
        <li>
          <strong>When it is known why,</strong> write it down. That takes the sign away and stays with the
          throw; it does not say that the machine throws as computed.
          <ReasonForm
            id={`answer-${made.id}`}
            label="What was found, and what was done about it"
            help="With the post or role of who looked, no name."
            button="Write it down: STOP no longer stands for it"
            onWrite={onAnswer}
          />
        </li>
      </ol>
    </section>
  );
}
