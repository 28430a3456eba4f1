"use client";
import type { Me, Role } from "@/lib/api/contracts";
import { TextField } from "../_ui/field";
import { textOf } from "../_ui/write/form-values";
import { WriteForm } from "../_ui/write/write-form";

/** Where each role's work is. */
const DESK: Record<Role, string> = {
  organiser: "/organise",
  "safety-officer": "/map",
  judge: "/judge",
  team: "",
};

export function SignInForm({ next }: { next: string | null }) {
  return (
    <WriteForm<Me>
      label="Sign in"
      url="/api/v1/sign-in"
      fields={["code"]}
      body={(form) => ({ code: textOf(form, "code") })}
      submit="Sign in"
      refresh={false}
      done={({ badge }) => <p>Signed in as {badge?.label}. One moment…</p>}
      onDone={({ badge }) => {
        // A whole load: everything on the next page is read as the new badge.
        if (badge) window.location.assign(next ?? `/contests/${badge.contestSlug}${DESK[badge.role]}`);
      }}
    >
      {(errorFor) => (
        <TextField
          id="code"
          name="code"
          label="Badge code"
          help="Twelve letters and digits from your badge; dashes and small letters do not matter."
          autoCapitalize="characters"
          spellCheck={false}
          required
          error={errorFor("code")}
        />
      )}
    </WriteForm>
  );
}
