"use client";
/** One reading: numbers that the anemometer shows, where from, who, and when. */
import { useState } from "react";
import { SelectField, TextField } from "@/app/_ui/field";
import { useUnits } from "@/app/_ui/units";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { WindReadingInfo } from "@/lib/api/contracts";
import { formatQuantity } from "@/lib/units";
import { type Asked, useQuantities } from "../organise/conditions/quantities";
import { QuantityList } from "../organise/conditions/quantity-list";

const ASKED: readonly Asked[] = [
  { path: "speed", label: "Mean wind", dimension: "speed", help: "Over two minutes or more." },
  { path: "gust", label: "Top gust", dimension: "speed", help: "The highest that was shown." },
  {
    path: "direction",
    label: "Blows from",
    dimension: "angle",
    help: "Degrees clockwise from north: 270 is a wind from the west.",
  },
  {
    path: "height",
    label: "Height of the anemometer",
    dimension: "length",
    help: "Above the ground. Wind grows with height.",
  },
];
const MINUTE = 60_000;

export function ReadingForm({
  slug,
  declination,
  posts,
  lasting,
  onDone,
}: {
  slug: string;
  declination: number;
  /** Who has read before. */
  posts: readonly string[];
  /** Minutes that a reading counts without another word. */
  lasting: number;
  onDone: () => void;
}) {
  const system = useUnits();
  const { quantities, change, content } = useQuantities(ASKED, { height: 2 });
  const [north, setNorth] = useState<"true" | "magnetic">("true");
  const added = `${Math.abs(declination).toFixed(1)}° ${declination < 0 ? "west" : "east"}`;
  return (
    <WriteForm<WindReadingInfo>
      label="Read the wind"
      url={`/api/v1/contests/${slug}/wind-readings`}
      fields={["observer", "observedAt", "expiresAt", "magnetic", ...ASKED.map(({ path }) => path)]}
      body={(form) => {
        const numbers = content();
        if (typeof numbers === "string") return numbers;
        const ago = minutesOf(form, "ago");
        const lasts = minutesOf(form, "lasts");
        if (ago === null) return "Read how long ago: give minutes, 0 for now.";
        if (!lasts) return "Counts for: give minutes, such as 30.";
        // To the minute, so that sending again after a lost answer sends the same.
        const observed = ago > 0 ? Math.floor(Date.now() / MINUTE - ago) * MINUTE : null;
        const times = {
          ...(observed !== null && { observedAt: new Date(observed).toISOString() }),
          ...(observed !== null && { expiresAt: new Date(observed + lasts * MINUTE).toISOString() }),
          ...(observed === null &&
            lasts !== lasting && {
              expiresAt: new Date(Math.floor(Date.now() / MINUTE + lasts) * MINUTE).toISOString(),
            }),
        };
        return { ...numbers, magnetic: north === "magnetic", observer: textOf(form, "observer"), ...times };
      }}
      submit="Enter the reading"
      done={({ gust }) => <p>Entered: gusts to {formatQuantity(gust, "speed", system, { digits: 1 })}.</p>}
      onDone={onDone}
      refresh={false}
    >
      {(errorFor) => (
        <>
          <QuantityList
            asked={ASKED}
            under="wind"
            quantities={quantities}
            change={change}
            errorFor={(field) => errorFor(field.replace(/^wind\./, ""))}
          />
          <SelectField
            id="wind-north"
            label="North is"
            help="A compass shows magnetic north; a map or a weather mast true north."
            value={north}
            onChange={(event) => setNorth(event.target.value as typeof north)}
            choices={[
              { value: "true", label: "True north" },
              { value: "magnetic", label: `Magnetic north: ${added} is added` },
            ]}
          />
          <TextField
            id="wind-observer"
            name="observer"
            label="Read by"
            help="A post or a role, no person’s name. A new reading of the same post replaces its last."
            required
            list="wind-posts"
            error={errorFor("observer")}
          />
          <datalist id="wind-posts">
            {posts.map((post) => (
              <option key={post} value={post} />
            ))}
          </datalist>
          <TextField
            id="wind-ago"
            name="ago"
            label="Read how long ago, minutes"
            help="0 for now. What was written on paper may come later."
            defaultValue="0"
            inputMode="numeric"
            error={errorFor("observedAt")}
          />
          <TextField
            id="wind-lasts"
            name="lasts"
            label="Counts for, minutes"
            help="From when it was read; half an hour is common practice."
            defaultValue={String(lasting)}
            inputMode="numeric"
            error={errorFor("expiresAt")}
          />
        </>
      )}
    </WriteForm>
  );
}

/** Whole minutes from a field; null when it holds no such number. */
function minutesOf(form: FormData, name: string): number | null {
  const text = textOf(form, name);
  const value = text === "" ? 0 : Number(text.replace(",", "."));
  return Number.isFinite(value) && value >= 0 ? Math.round(value) : null;
}
