"use client";
import { useState } from "react";
import type { BadgeInfo, ContestSummary } from "@/lib/api/contracts";
import { ButtonLink } from "../_ui/button";
import { SelectField, TextField } from "../_ui/field";
import { Notice } from "../_ui/notice";
import { readPosition } from "../_ui/position";
import { PositionField } from "../_ui/position-field";
import { numberOrNothing, textOf } from "../_ui/write/form-values";
import { WriteForm } from "../_ui/write/write-form";

interface Made {
  contest: ContestSummary;
  badge: BadgeInfo & { code: string };
}

/** "Gourd Fair 2031" → "gourd-fair-2031". */
const addressOf = (name: string) =>
  name
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 60);

export function SetupForm() {
  const [name, setName] = useState("");
  const [slug, setSlug] = useState<string | null>(null);
  const [position, setPosition] = useState("");
  const [made, setMade] = useState<Made | null>(null);
  if (made) {
    return (
      <Notice kind="done" title={`${made.contest.name} is made`}>
        <p>
          The first organiser&rsquo;s badge code, shown this once:
          <code className="badge-code">{made.badge.code}</code>
          Write it down now, then sign in with it. It is stored nowhere.
        </p>
        <ButtonLink href={`/sign-in?next=/contests/${made.contest.slug}/organise`} look="main">
          Sign in
        </ButtonLink>
      </Notice>
    );
  }
  return (
    <WriteForm<Made>
      label="Make the first contest"
      url="/api/v1/setup"
      fields={[
        "setupCode",
        "contest.name",
        "contest.slug",
        "contest.place",
        "contest.date",
        "contest.latitude",
        "contest.longitude",
        "contest.height",
        "contest.units",
        "contest.rounds",
        "contest.declination",
      ]}
      body={(form) => {
        const read = readPosition(position);
        if (!read.ok) return read.message;
        return {
          setupCode: textOf(form, "setupCode"),
          contest: {
            name,
            slug: slug ?? addressOf(name),
            place: textOf(form, "place"),
            date: textOf(form, "date"),
            units: textOf(form, "units"),
            ...read.position,
            ...numberOrNothing(form, "height"),
            ...numberOrNothing(form, "declination"),
            ...numberOrNothing(form, "rounds"),
          },
        };
      }}
      submit="Make the contest"
      refresh={false}
      onDone={setMade}
    >
      {(errorFor) => (
        <>
          <TextField
            id="setup-code"
            name="setupCode"
            label="Setup code"
            help="From the terminal in which Fairthrow runs."
            autoCapitalize="characters"
            spellCheck={false}
            required
            error={errorFor("setupCode")}
          />
          <TextField
            id="contest-name"
            label="Name of the contest"
            required
            value={name}
            onChange={(event) => setName(event.target.value)}
            error={errorFor("contest.name")}
          />
          <TextField
            id="contest-slug"
            label="Address"
            help={`The contest will be at /contests/${slug ?? (addressOf(name) || "…")}`}
            value={slug ?? addressOf(name)}
            onChange={(event) => setSlug(event.target.value)}
            autoCapitalize="off"
            spellCheck={false}
            error={errorFor("contest.slug")}
          />
          <TextField
            id="contest-place"
            name="place"
            label="Place"
            optional
            error={errorFor("contest.place")}
          />
          <TextField
            id="contest-date"
            name="date"
            type="date"
            label="First day"
            required
            error={errorFor("contest.date")}
          />
          <PositionField
            id="contest-position"
            label="Middle of the site: latitude, longitude"
            help="Degrees, as copied from a map or receiver: the map and all distances hang on it."
            text={position}
            onChange={setPosition}
            error={errorFor("contest.latitude") ?? errorFor("contest.longitude")}
          />
          <TextField
            id="contest-height"
            name="height"
            label="Height of the ground, metres above the ellipsoid"
            help="0 if left empty; a hundred metres change a 200 m mark by 3 mm."
            optional
            inputMode="decimal"
            error={errorFor("contest.height")}
          />
          <TextField
            id="contest-declination"
            name="declination"
            label="Magnetic declination, degrees, east positive"
            help="Added to bearings read from a compass; 0 if left empty."
            optional
            inputMode="text"
            error={errorFor("contest.declination")}
          />
          <SelectField
            id="contest-units"
            name="units"
            label="Units shown"
            help="Every reader can switch."
            choices={[
              { value: "metric", label: "Metric" },
              { value: "us", label: "US customary" },
            ]}
            error={errorFor("contest.units")}
          />
          <TextField
            id="contest-rounds"
            name="rounds"
            label="Rounds"
            defaultValue="3"
            inputMode="numeric"
            error={errorFor("contest.rounds")}
          />
        </>
      )}
    </WriteForm>
  );
}
