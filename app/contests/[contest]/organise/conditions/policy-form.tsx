"use client";
import { useState } from "react";
import { CheckField, SelectField, TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { Policy } from "@/lib/throw";
import styles from "../organise.module.css";
import { POLICY_ASKED, policyNumbers } from "./asked";
import { useQuantities } from "./quantities";
import { QuantityList } from "./quantity-list";

const OWN = ["reason", "policy.ground", "policy.hangUpReason"];

export function PolicyForm({ slug, policy }: { slug: string; policy: Policy }) {
  const { quantities, change, content } = useQuantities(POLICY_ASKED, policyNumbers(policy));
  const [ground, setGround] = useState(policy.ground);
  const [hangUp, setHangUp] = useState(policy.hangUp);
  const [hangUpReason, setHangUpReason] = useState(policy.hangUpReason ?? "");
  return (
    <WriteForm
      label="Set the policy"
      method="PUT"
      url={`/api/v1/contests/${slug}/policy`}
      fields={[...OWN, ...POLICY_ASKED.map(({ path }) => `policy.${path}`)]}
      body={(form) => {
        const numbers = content();
        if (typeof numbers === "string") return numbers;
        return {
          policy: { ...numbers, ground, hangUp, ...(hangUp ? {} : { hangUpReason }) },
          reason: textOf(form, "reason"),
        };
      }}
      submit="Set the policy"
      done={() => <p>The policy is set. New hazard sheets are being computed.</p>}
    >
      {(errorFor) => (
        <>
          <QuantityList
            asked={POLICY_ASKED}
            under="policy"
            quantities={quantities}
            change={change}
            errorFor={errorFor}
          />
          <SelectField
            id="policy-ground"
            label="Ground"
            help="Sets bounce and roll after the first impact."
            value={ground}
            onChange={(event) => setGround(event.target.value as Policy["ground"])}
            error={errorFor("policy.ground")}
            choices={[
              { value: "soft", label: "Soft: ploughed or wet" },
              { value: "firm", label: "Firm: meadow" },
              { value: "hard", label: "Hard: dry or paved" },
            ]}
          />
          <div className={styles.check}>
            <CheckField
              id="policy-hang-up"
              label="Count hang-ups"
              help="A loop that does not slip lets the projectile whirl on and leave anywhere. This happens; it often decides the backward zone."
              checked={hangUp}
              onChange={(event) => setHangUp(event.target.checked)}
            />
          </div>
          {!hangUp && (
            <TextField
              id="policy-hang-up-reason"
              label="Why hang-ups are left out"
              help="Stands on every sheet."
              value={hangUpReason}
              onChange={(event) => setHangUpReason(event.target.value)}
              required
              error={errorFor("policy.hangUpReason")}
            />
          )}
          <TextField
            id="policy-reason"
            name="reason"
            label="Reason for the change"
            required
            error={errorFor("reason")}
          />
        </>
      )}
    </WriteForm>
  );
}
