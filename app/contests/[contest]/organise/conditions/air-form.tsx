"use client";
import { TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { Air } from "@/lib/throw";
import { AIR_ASKED, airNumbers } from "./asked";
import { useQuantities } from "./quantities";
import { QuantityList } from "./quantity-list";

export function AirForm({ slug, air }: { slug: string; air: Air }) {
  const { quantities, change, content } = useQuantities(AIR_ASKED, airNumbers(air));
  return (
    <WriteForm
      label="Set the air"
      method="PUT"
      url={`/api/v1/contests/${slug}/air`}
      fields={["reason", ...AIR_ASKED.map(({ path }) => `air.${path}`)]}
      body={(form) => {
        const numbers = content();
        return typeof numbers === "string" ? numbers : { air: numbers, reason: textOf(form, "reason") };
      }}
      submit="Set the air"
      done={() => <p>The air is set. New hazard sheets are being computed.</p>}
    >
      {(errorFor) => (
        <>
          <QuantityList
            asked={AIR_ASKED}
            under="air"
            quantities={quantities}
            change={change}
            errorFor={errorFor}
          />
          <TextField
            id="air-reason"
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
