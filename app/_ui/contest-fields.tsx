/** The particulars of a contest that may be put right later: entered when it is made, and on its own page. */
import type { ContestSummary } from "@/lib/api/contracts";
import { SelectField, TextField } from "./field";
import { numberOrNothing, textOf } from "./write/form-values";

type Particulars = Pick<
  ContestSummary,
  "place" | "date" | "lastDate" | "height" | "declination" | "units" | "rounds"
>;

/** In the order in which they stand in the form. */
export const PARTICULARS = ["place", "date", "lastDate", "height", "declination", "units", "rounds"] as const;

/** What was entered, as a request takes it. */
export const particularsIn = (form: FormData) => ({
  place: textOf(form, "place"),
  date: textOf(form, "date"),
  lastDate: textOf(form, "lastDate") || null,
  units: textOf(form, "units"),
  ...numberOrNothing(form, "height"),
  ...numberOrNothing(form, "declination"),
  ...numberOrNothing(form, "rounds"),
});

export function ContestFields({
  values,
  errorFor,
}: {
  /** As they are; left out while the contest is made. */
  values?: Particulars;
  errorFor: (field: (typeof PARTICULARS)[number]) => string | null;
}) {
  return (
    <>
      <TextField
        id="contest-place"
        name="place"
        label="Place"
        optional
        defaultValue={values?.place}
        error={errorFor("place")}
      />
      <TextField
        id="contest-date"
        name="date"
        type="date"
        label="First day"
        required
        defaultValue={values?.date}
        error={errorFor("date")}
      />
      <TextField
        id="contest-last-date"
        name="lastDate"
        type="date"
        label="Last day"
        help="Consents must hold from the first day to the last. Empty if there is one day."
        optional
        defaultValue={values?.lastDate ?? ""}
        error={errorFor("lastDate")}
      />
      <TextField
        id="contest-height"
        name="height"
        label="Height of the ground, metres above the ellipsoid"
        help="0 if left empty; a hundred metres change a 200 m mark by 3 mm."
        optional
        inputMode="decimal"
        defaultValue={values?.height}
        error={errorFor("height")}
      />
      <TextField
        id="contest-declination"
        name="declination"
        label="Magnetic declination, degrees, east positive"
        help="Added to bearings read from a compass; 0 if left empty."
        optional
        inputMode="text"
        defaultValue={values?.declination}
        error={errorFor("declination")}
      />
      <SelectField
        id="contest-units"
        name="units"
        label="Units shown"
        help="Every reader can switch."
        defaultValue={values?.units}
        choices={[
          { value: "metric", label: "Metric" },
          { value: "us", label: "US customary" },
        ]}
        error={errorFor("units")}
      />
      <TextField
        id="contest-rounds"
        name="rounds"
        label="Rounds"
        defaultValue={values?.rounds ?? 3}
        inputMode="numeric"
        error={errorFor("rounds")}
      />
    </>
  );
}
