"use client";
import { useState } from "react";
import type { BadgeInfo, ContestSummary } from "@/lib/api/contracts";
import { ButtonLink } from "../_ui/button";
import { ContestFields, PARTICULARS, particularsIn } from "../_ui/contest-fields";
import { TextField } from "../_ui/field";
import { Notice } from "../_ui/notice";
import { readPosition } from "../_ui/position";
import { PositionField } from "../_ui/position-field";
import { textOf } from "../_ui/write/form-values";
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
        "contest.latitude",
        "contest.longitude",
        ...PARTICULARS.map((field) => `contest.${field}`),
      ]}
      body={(form) => {
        const read = readPosition(position);
        if (!read.ok) return read.message;
        return {
          setupCode: textOf(form, "setupCode"),
          contest: {
            name,
            slug: slug ?? addressOf(name),
            ...read.position,
            ...particularsIn(form),
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
          <PositionField
            id="contest-position"
            label="Middle of the site: latitude, longitude"
            help="Degrees, as copied from a map or receiver: the map and all distances hang on it."
            text={position}
            onChange={setPosition}
            error={errorFor("contest.latitude") ?? errorFor("contest.longitude")}
          />
          <ContestFields errorFor={(field) => errorFor(`contest.${field}`)} />
        </>
      )}
    </WriteForm>
  );
}
