"use client";
import Link from "next/link";
import { TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { SafetyFileSummary } from "@/lib/api/contracts";

export function FreezeForm({ slug }: { slug: string }) {
  return (
    <WriteForm<SafetyFileSummary>
      label="Freeze a safety file"
      url={`/api/v1/contests/${slug}/safety-files`}
      fields={["note"]}
      submit="Freeze the safety file"
      body={(form) => ({ note: textOf(form, "note") })}
      done={({ id, number, hash }) => (
        <p>
          <Link href={`/contests/${slug}/safety-file/${id}`}>Safety file {number}</Link> is frozen. Its hash
          begins {hash.slice(0, 12)}.
        </p>
      )}
    >
      {(errorFor) => (
        <TextField
          id="file-note"
          name="note"
          label="For whom, or why"
          optional
          help="An office, not a person: it is frozen too."
          error={errorFor("note")}
        />
      )}
    </WriteForm>
  );
}
