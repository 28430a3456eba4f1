"use client";
import { bothUnits } from "@/app/_ui/both-units";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import type { Air, Policy } from "@/lib/throw";
import { formatQuantity } from "@/lib/units";
import { AIR_ASKED, airNumbers, POLICY_ASKED, policyNumbers } from "./asked";
import type { Asked } from "./quantities";

export function ConditionsTable({ policy, air }: { policy: Policy; air: Air }) {
  const system = useUnits();
  const rows = (asked: readonly Asked[], values: Record<string, number | undefined>) =>
    asked.map(({ label, path, dimension, help }) => {
      const value = values[path];
      const plain = dimension === "ratio" || dimension === "angle";
      return {
        label,
        help,
        value:
          value === undefined
            ? "as if left empty"
            : plain
              ? formatQuantity(value, dimension, system)
              : bothUnits(value, dimension, system),
      };
    });
  const columns = [
    { key: "label", head: "What", rowHead: true, cell: (row: { label: string }) => row.label },
    { key: "value", head: "Set to", cell: (row: { value: string }) => row.value },
    { key: "help", head: "Meaning", cell: (row: { help: string }) => row.help },
  ];
  return (
    <>
      <Table
        caption="Policy"
        columns={columns}
        rowKey={({ label }) => label}
        rows={[
          ...rows(POLICY_ASKED, policyNumbers(policy)),
          { label: "Ground", value: policy.ground, help: "Sets bounce and roll after the first impact." },
          {
            label: "Hang-ups",
            value: policy.hangUp ? "counted" : `left out: ${policy.hangUpReason ?? ""}`,
            help: "A projectile that whirls on and leaves anywhere.",
          },
        ]}
      />
      <Table
        caption="Air and wind in which machines may fire"
        columns={columns}
        rowKey={({ label }) => label}
        rows={rows(AIR_ASKED, airNumbers(air))}
      />
    </>
  );
}
