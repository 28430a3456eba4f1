"use client";
import { useEffect, useState } from "react";
import type { Me, Role } from "@/lib/api/contracts";
import { TextField } from "../_ui/field";
import { textOf } from "../_ui/write/form-values";
import { keptTry } from "../_ui/write/open-try";
import { WriteForm } from "../_ui/write/write-form";

/** Where a try without an answer is kept: its code signs in once, so the next try must be the same. */
const KEPT = "fairthrow:sign-in";

/** As a badge is sent, however it was typed: the same code is the same request. */
const plain = (typed: string) => typed.toUpperCase().replace(/[\s\-–—._]/g, "");

function unanswered(): string {
  const what = keptTry(KEPT)?.what ?? "";
  try {
    return (JSON.parse(what.slice(what.indexOf("{"))) as { code: string }).code;
  } catch {
    return "";
  }
}

/**
 * The code in an address that a camera read off a badge; it is taken out of the address, so that it stays in no history.
 * Without one, that of a try that had no answer.
 */
function useScanned(): string {
  const [code, setCode] = useState("");
  useEffect(() => {
    setCode(unanswered());
    const take = () => {
      const found = decodeURIComponent(window.location.hash.slice(1));
      if (!/^[\w-]{12,20}$/.test(found)) return;
      setCode(found);
      window.history.replaceState(null, "", window.location.pathname + window.location.search);
    };
    take();
    window.addEventListener("hashchange", take);
    return () => window.removeEventListener("hashchange", take);
  }, []);
  return code;
}

/** Where each role's work is. */
const DESK: Record<Role, string> = {
  organiser: "/organise",
  "safety-officer": "/map",
  judge: "/judge",
  team: "",
};

export function SignInForm({ next }: { next: string | null }) {
  const scanned = useScanned();
  return (
    <WriteForm<Me>
      label="Sign in"
      url="/api/v1/sign-in"
      fields={["code"]}
      keptAs={KEPT}
      body={(form) =>
        navigator.cookieEnabled
          ? { code: plain(textOf(form, "code")) }
          : "This browser keeps no cookies, and your code signs in once: allow cookies for this site first."
      }
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
          key={scanned}
          defaultValue={scanned}
          help="Twelve letters and digits from your badge; dashes and small letters do not matter. It signs in one device, once."
          autoCapitalize="characters"
          spellCheck={false}
          required
          error={errorFor("code")}
        />
      )}
    </WriteForm>
  );
}
