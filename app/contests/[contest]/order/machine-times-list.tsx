"use client";
/** How long each machine takes, and whether it is late. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { instantOf, localText, minutesText, secondsOf } from "@/app/_ui/clock-fields";
import { TextField } from "@/app/_ui/field";
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { MachineTimes, OrderRules } from "@/lib/api/contracts";
import { lastingText } from "./words";

export interface CrewMachine {
  id: string;
  name: string;
  entrantId: string;
  number: number;
  team: string;
  /** Declared and placed. */
  ready: boolean;
  times: MachineTimes | null;
}

export function MachineTimesList({
  slug,
  machines,
  rules,
  mayChange,
}: {
  slug: string;
  machines: readonly CrewMachine[];
  rules: OrderRules | null;
  mayChange: boolean;
}) {
  const [open, setOpen] = useState<string | null>(null);
  const usual = (seconds: number | undefined) =>
    seconds === undefined ? "as usual" : `${lastingText(seconds)}, as usual`;
  return (
    <Table
      caption="Times of the machines"
      hideCaption
      stacks
      rows={machines}
      rowKey={({ id }) => id}
      empty="No machine is entered yet."
      columns={[
        {
          key: "machine",
          head: "Machine",
          rowHead: true,
          cell: ({ number, team, name, ready }) =>
            `${number} ${team}, ${name}${ready ? "" : " (not ready to be placed in the order)"}`,
        },
        {
          key: "rearm",
          head: "Re-arming",
          cell: ({ times }) => (times?.rearm != null ? lastingText(times.rearm) : usual(rules?.rearm)),
        },
        {
          key: "live",
          head: "Live",
          cell: ({ times }) => (times?.live != null ? lastingText(times.live) : usual(rules?.live)),
        },
        {
          key: "late",
          head: "Not before",
          cell: ({ times }) => (times?.notBefore ? <LocalTime iso={times.notBefore} day /> : "–"),
        },
        ...(mayChange
          ? [
              {
                key: "change",
                head: "Change",
                cell: (machine: CrewMachine) =>
                  open === machine.id ? (
                    <TimesForm slug={slug} machine={machine} onDone={() => setOpen(null)} />
                  ) : (
                    <Button onClick={() => setOpen(machine.id)}>
                      Change<span className="aloud"> the times of {machine.name}</span>
                    </Button>
                  ),
              },
            ]
          : []),
      ]}
    />
  );
}

function TimesForm({ slug, machine, onDone }: { slug: string; machine: CrewMachine; onDone: () => void }) {
  const { id, name, times } = machine;
  return (
    <WriteForm<MachineTimes>
      label={`Times of ${name}`}
      method="PUT"
      url={`/api/v1/contests/${slug}/machines/${id}/times`}
      fields={["rearm", "live", "notBefore"]}
      body={(form) => {
        const [rearm, live, late] = [textOf(form, "rearm"), textOf(form, "live"), textOf(form, "notBefore")];
        const seconds = {
          rearm: rearm === "" ? null : secondsOf(rearm),
          live: live === "" ? null : secondsOf(live),
        };
        if (rearm !== "" && seconds.rearm === null) return "Re-arming: give minutes, or leave it empty.";
        if (live !== "" && seconds.live === null) return "Live: give minutes, or leave it empty.";
        return { ...seconds, notBefore: instantOf(late) };
      }}
      submit="Keep these times"
      look="plain"
      onDone={onDone}
    >
      {(errorFor) => (
        <>
          <TextField
            id={`rearm-${id}`}
            name="rearm"
            label="Re-arming, minutes"
            optional
            inputMode="decimal"
            defaultValue={times?.rearm != null ? minutesText(times.rearm) : ""}
            error={errorFor("rearm")}
          />
          <TextField
            id={`live-${id}`}
            name="live"
            label="Live, minutes"
            optional
            inputMode="decimal"
            defaultValue={times?.live != null ? minutesText(times.live) : ""}
            error={errorFor("live")}
          />
          <TextField
            id={`late-${id}`}
            name="notBefore"
            type="datetime-local"
            label="Late: no turn before"
            optional
            defaultValue={times?.notBefore ? localText(times.notBefore) : ""}
            error={errorFor("notBefore")}
          />
        </>
      )}
    </WriteForm>
  );
}
