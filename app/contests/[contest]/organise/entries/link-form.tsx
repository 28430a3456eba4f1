"use client";
import { useEffect, useState } from "react";
import { Button } from "@/app/_ui/button";
import { CopyLink } from "@/app/_ui/copy-link";
import { TextField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { PrintButton } from "@/app/_ui/print-button";
import { numberOrNothing, textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import { type EntryLinkInfo, KEEP_DAYS } from "@/lib/api/contracts";
import { qrDrawing } from "@/lib/qr";
import styles from "./entries.module.css";

type Made = EntryLinkInfo & { token: string };

/** A day typed is its end, by the clock here. */
const endOf = (day: string): string => {
  const end = new Date(`${day}T23:59:59`);
  return Number.isNaN(end.getTime()) ? day : end.toISOString();
};

export function LinkForm({ slug }: { slug: string }) {
  const [made, setMade] = useState<Made | null>(null);
  return (
    <>
      <WriteForm<Made>
        label="Make a link"
        url={`/api/v1/contests/${slug}/entry-links`}
        fields={["endsAt", "most", "keepDays"]}
        body={(form) => ({
          endsAt: endOf(textOf(form, "endsAt")),
          ...numberOrNothing(form, "most"),
          ...numberOrNothing(form, "keepDays"),
        })}
        submit="Make the link"
        onDone={setMade}
      >
        {(errorFor) => (
          <>
            <TextField
              id="link-ends"
              name="endsAt"
              type="date"
              label="Entries until the end of"
              help="What is begun by then may still be completed once it is sent."
              required
              error={errorFor("endsAt")}
            />
            <TextField
              id="link-most"
              name="most"
              inputMode="numeric"
              label="Entries at most"
              defaultValue="40"
              error={errorFor("most")}
            />
            <TextField
              id="link-keep"
              name="keepDays"
              inputMode="numeric"
              label="Days after the contest until people’s data are erased"
              help="Names, contacts, guardians, insurance, photographs. Every team and guardian reads it."
              defaultValue={String(KEEP_DAYS)}
              error={errorFor("keepDays")}
            />
          </>
        )}
      </WriteForm>
      <div aria-live="polite">
        {made && (
          <Notice kind="done" title="The link is made">
            <p>Shown this once: copy it now, or print its square.</p>
            <LinkCard path={`/contests/${slug}/enter#i.${made.token}`} />
            <p className="button-row no-print">
              <PrintButton>Print the square</PrintButton>
              <Button onClick={() => setMade(null)}>I have it</Button>
            </p>
          </Notice>
        )}
      </div>
    </>
  );
}

function LinkCard({ path }: { path: string }) {
  const [origin, setOrigin] = useState<string | null>(null);
  useEffect(() => setOrigin(window.location.origin), []);
  if (origin === null) return null;
  return (
    <>
      <p className={styles.address}>{`${origin}${path}`}</p>
      <CopyLink path={path} button="Copy the link" done="Copied." />
      <div
        className={styles.square}
        // biome-ignore lint/security/noDangerouslySetInnerHtml: drawn here, of an address and a token of letters and digits
        dangerouslySetInnerHTML={{
          __html: qrDrawing(`${origin}${path}`, "Square that opens the entry page"),
        }}
      />
    </>
  );
}
