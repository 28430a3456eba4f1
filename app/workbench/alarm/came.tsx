"use client";
/** STOP that came with a machine: what is known of it, and the written answer that ends it here. */
import { useUnits } from "@/app/_ui/units";
import { ReasonForm } from "../trials/deal/reason-form";
import { localMinute } from "../trials/entry/throw-form";
import { whenText } from "../trials/log/words";
import styles from "./alarm.module.css";
import { shortName } from "./hash";
import { nameOf, stands } from "./received";
import { useAlarm } from "./use-alarm";
import { useReceived } from "./use-received";
import { carriedText } from "./words";

/** Where it stands on the page Practice throws. */
export const CAME = "came-with-the-machine";

export function CameStops() {
  const system = useUnits();
  const { received } = useAlarm();
  const { stops, answer } = useReceived();
  const answered = stops.filter((each) => !stands(each));
  if (received.length + answered.length === 0) return null;
  return (
    <section id={CAME} aria-labelledby={`${CAME}-title`} className={received.length > 0 ? styles.deal : ""}>
      <h2 id={`${CAME}-title`} tabIndex={-1}>
        STOP that came with a machine
      </h2>
      {received.map((each) => (
        <div key={nameOf(each)}>
          <p>
            <strong>{carriedText(each, system)}.</strong> It came with {each.from}.
          </p>
          <p>
            Ask whoever threw it what it was, or have their throws as CSV and read them below: then it is
            judged here with the others. Otherwise make the machine safe and find out why before anybody
            throws it: measure it anew, weigh what it throws, look at pin, loop and sling.
          </p>
          <ReasonForm
            id={`came-${shortName(nameOf(each))}`}
            label="What was found, and what was done about it"
            help="With the post or role of who looked, no name. It does not say that the machine throws as computed."
            button="Write it down: STOP no longer stands for it"
            onWrite={(reason) => answer(nameOf(each), reason, localMinute(new Date()))}
          />
        </div>
      ))}
      {answered.map((each) => (
        <p key={nameOf(each)}>
          {carriedText(each, system)}. Answered here on {whenText(each.answer?.at ?? "")}:{" "}
          {each.answer?.reason}
        </p>
      ))}
    </section>
  );
}
