"use client";
/** How far a long computation has come, or why it was refused. */
import { Notice } from "@/app/_ui/notice";
import type { Asked } from "./use-answer";

export function LongAnswer({ asked, label }: { asked: Asked<unknown>; label: string }) {
  if (asked.state === "refused")
    return (
      <Notice kind="problem">
        <p>{asked.why}</p>
      </Notice>
    );
  if (asked.state !== "asking") return null;
  const { done } = asked;
  return (
    <p>
      <progress aria-label={label} max={1} {...(done === null ? {} : { value: done })} />{" "}
      <span aria-hidden="true">{done === null ? "Waiting for its turn" : `${Math.round(100 * done)} %`}</span>
    </p>
  );
}
