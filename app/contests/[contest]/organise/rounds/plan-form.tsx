"use client";
/** What the day is planned by; first what that would come to, then making it the order. */
import { useEffect, useState } from "react";
import { Button } from "@/app/_ui/button";
import { instantOf, localText, minutesText, secondsOf } from "@/app/_ui/clock-fields";
import { CheckField, TextField } from "@/app/_ui/field";
import { LocalTime } from "@/app/_ui/local-time";
import { Notice } from "@/app/_ui/notice";
import { useWrite } from "@/app/_ui/write/use-write";
import type { FiringOrder, OrderProposal, OrderRules } from "@/lib/api/contracts";
import { NO_PAUSE, PauseFields, type PauseTexts, pausesOf } from "./pause-fields";
import styles from "./plan.module.css";
import { ProposalPanel } from "./proposal-panel";

const MINUTES = [
  { key: "call", label: "Calling a turn", usual: 60, help: "Posts say clear, the tally is read." },
  {
    key: "clearing",
    label: "Clearing a zone",
    usual: 120,
    help: "Added where another crew has to step back first.",
  },
  {
    key: "measure",
    label: "Measuring",
    usual: 240,
    help: "After each throw, until the range is clear again.",
  },
  {
    key: "stepBack",
    label: "Stepping back and returning",
    usual: 60,
    help: "What a crew loses when it has to stop.",
  },
  { key: "rearm", label: "Re-arming", usual: 900, help: "Of machines that say nothing else below." },
  {
    key: "live",
    label: "Raising and throwing",
    usual: 240,
    help: "Likewise; the zone is live all this time.",
  },
] as const;

export function PlanForm({
  slug,
  rules,
  date,
  onDone,
}: {
  slug: string;
  rules: OrderRules | null;
  date: string;
  onDone: () => Promise<void>;
}) {
  const [texts, setTexts] = useState<Record<string, string>>(() =>
    Object.fromEntries(MINUTES.map(({ key, usual }) => [key, minutesText(rules?.[key] ?? usual)])),
  );
  const [start, setStart] = useState("");
  const [pauses, setPauses] = useState<readonly PauseTexts[]>([NO_PAUSE]);
  const [wait, setWait] = useState(rules?.longestWait ? minutesText(rules.longestWait) : "");
  const [rotate, setRotate] = useState(rules?.rotate ?? true);
  const [reason, setReason] = useState("");
  const [proposal, setProposal] = useState<{ told: OrderProposal; body: object } | null>(null);
  const [notYet, setNotYet] = useState<string | null>(null);
  const preview = useWrite<OrderProposal>();
  const make = useWrite<FiringOrder>();
  // What this device's zone makes of the times is known in the browser alone.
  useEffect(() => {
    const known = rules?.pauses.map(({ from, to }) => ({ from: localText(from), to: localText(to) })) ?? [];
    setStart(rules ? localText(rules.startAt) : `${date}T09:00`);
    if (known.length > 0) setPauses(known);
  }, [rules, date]);

  const body = (): object | string => {
    const startAt = instantOf(start);
    if (!startAt) return "First turn: give a day and a time.";
    const numbers: Record<string, number> = {};
    for (const { key, label } of MINUTES) {
      const seconds = secondsOf(texts[key] ?? "");
      if (seconds === null) return `${label}: give minutes, such as 4.`;
      numbers[key] = seconds;
    }
    const longestWait = wait.trim() === "" ? null : secondsOf(wait);
    if (wait.trim() !== "" && longestWait === null) return "Longest wait: give minutes, or leave it empty.";
    const rest = pausesOf(pauses);
    if (typeof rest === "string") return rest;
    return {
      rules: { startAt, ...numbers, longestWait, rotate, pauses: rest },
      ...(reason.trim() && { reason: reason.trim() }),
    };
  };
  const url = `/api/v1/contests/${slug}/firing-order`;
  const look = async () => {
    const asked = body();
    setNotYet(typeof asked === "string" ? asked : null);
    if (typeof asked === "string") return;
    const sent = await preview.write("POST", `${url}-preview`, asked, 60_000);
    setProposal(sent.ok ? { told: sent.data, body: asked } : null);
  };
  const settle = async () => {
    const asked = body();
    setNotYet(typeof asked === "string" ? asked : null);
    if (typeof asked === "string") return;
    const sent = await make.write("POST", url, asked, 60_000);
    if (!sent.ok) return;
    setProposal(null);
    setReason("");
    await onDone();
  };
  const trouble = notYet ?? preview.trouble ?? make.trouble;
  const errorFor = (field: string) => preview.errorFor(field) ?? make.errorFor(field);
  return (
    <form
      aria-label="Plan the order"
      method="post"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void look();
      }}
    >
      <div className={styles.fields}>
        <TextField
          id="order-start"
          type="datetime-local"
          label="First turn, not before"
          value={start}
          onChange={(event) => setStart(event.target.value)}
          error={errorFor("rules.startAt")}
        />
        {MINUTES.map(({ key, label, help }) => (
          <TextField
            key={key}
            id={`order-${key}`}
            label={`${label}, minutes`}
            help={help}
            inputMode="decimal"
            value={texts[key] ?? ""}
            onChange={(event) => setTexts({ ...texts, [key]: event.target.value })}
            error={errorFor(`rules.${key}`)}
          />
        ))}
        <TextField
          id="order-wait"
          label="Longest fair wait, minutes"
          help="From ready again to its turn. Empty: one and a half rounds."
          inputMode="decimal"
          optional
          value={wait}
          onChange={(event) => setWait(event.target.value)}
          error={errorFor("rules.longestWait")}
        />
      </div>
      <PauseFields pauses={pauses} onChange={setPauses} errorFor={errorFor} />
      <CheckField
        id="order-rotate"
        label="The order rotates: nobody is always first, last or at one end"
        checked={rotate}
        onChange={(event) => setRotate(event.target.checked)}
      />
      {trouble && (
        <Notice kind="problem">
          <p>{trouble}</p>
        </Notice>
      )}
      <Button type="submit" aria-disabled={preview.sending || undefined}>
        {preview.sending ? "Planning…" : "Show what it would come to"}
      </Button>
      <div aria-live="polite">
        {proposal && (
          <section className={styles.proposal}>
            <ProposalPanel told={proposal.told} />
            {rules && (
              <TextField
                id="order-reason"
                label="Why it is planned anew"
                help="Stands in the scorebook."
                value={reason}
                onChange={(event) => setReason(event.target.value)}
                error={errorFor("reason")}
              />
            )}
            <Button look="main" onClick={() => void settle()} aria-disabled={make.sending || undefined}>
              {make.sending ? "Sending…" : "Make this the order"}
            </Button>
            <p>
              The day ends about <LocalTime iso={proposal.told.proposed.end} day />.
            </p>
          </section>
        )}
      </div>
    </form>
  );
}
