"use client";
import { CheckField, TextField } from "@/app/_ui/field";
import type { Insurance } from "@/lib/api/contracts";
import type { OnEntry } from "./use-own-entry";

export function InsurancePart({ entry: { own, draft, setValues } }: { entry: OnEntry }) {
  const { insurance } = draft.values;
  const { lastDay } = own.invitation.contest;
  const set = (change: Partial<Insurance>) => setValues({ insurance: { ...insurance, ...change } });
  return (
    <>
      <p>
        Liability for what the machine does to others. Ordinary policies often leave throwing out: ask. A
        photograph of the paper may go under Photographs.
      </p>
      <TextField
        id="insurance-insurer"
        label="Insurer"
        maxLength={120}
        value={insurance.insurer}
        onChange={(event) => set({ insurer: event.target.value })}
      />
      <TextField
        id="insurance-number"
        label="Number of the policy"
        maxLength={80}
        value={insurance.number}
        onChange={(event) => set({ number: event.target.value })}
      />
      <TextField
        id="insurance-until"
        type="date"
        label="Valid until"
        help={`At least until the contest is over, ${lastDay}.`}
        value={insurance.validUntil ?? ""}
        onChange={(event) => set({ validUntil: event.target.value || null })}
      />
      <CheckField
        id="insurance-throwing"
        label="It covers throwing with a machine: we have asked the insurer."
        checked={insurance.coversThrowing}
        onChange={(event) => set({ coversThrowing: event.target.checked })}
      />
    </>
  );
}
