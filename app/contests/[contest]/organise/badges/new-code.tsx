"use client";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { PrintButton } from "@/app/_ui/print-button";
import type { BadgeInfo } from "@/lib/api/contracts";
import { BadgeCard } from "./badge-card";

export type MadeBadge = BadgeInfo & { code: string };

/** A code that was just made, with its card to print: it is shown this once. */
export function NewCode({
  made,
  contest,
  renewed = false,
  onDone,
}: {
  made: MadeBadge;
  contest: string;
  renewed?: boolean;
  onDone: () => void;
}) {
  return (
    <Notice kind="done" title={renewed ? `New code for ${made.label}` : `Badge ${made.label} is made`}>
      <p>Its code, shown this once. Print the card now, or write the code down.</p>
      <BadgeCard {...made} contest={contest} />
      <p className="button-row no-print">
        <PrintButton>Print the card</PrintButton>
        <Button onClick={onDone}>I have printed it or written it down</Button>
      </p>
    </Notice>
  );
}
