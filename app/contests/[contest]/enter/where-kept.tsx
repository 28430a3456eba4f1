"use client";
/** Whether the server has what is typed, and the choice when somebody else of the team has changed it meanwhile. */
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { issuePlace } from "./issue-place";
import type { OnEntry } from "./use-own-entry";

const WORDS = {
  kept: "✓ All of it is kept on the server.",
  keeping: "Being kept on the server…",
  here: "On this device alone so far: it goes to the server by itself once it can be reached.",
  refused: "! On this device alone: the server will not keep it as it stands.",
  overtaken: "! On this device alone.",
} as const;

export function WhereKept({ entry: { keeping, problem, reload, insist } }: { entry: OnEntry }) {
  return (
    <>
      <p role="status">{WORDS[keeping]}</p>
      {keeping === "refused" && problem && (
        <Notice kind="problem">
          <ul>
            {(problem.errors ?? [{ field: "", message: problem.detail }]).map(({ field, message }) => (
              <li key={field + message}>
                {issuePlace(field)}
                {message}
              </li>
            ))}
          </ul>
        </Notice>
      )}
      {keeping === "overtaken" && (
        <Notice kind="problem" title="Changed elsewhere meanwhile">
          <p>
            This entry was changed on another phone, or by the organiser. What you typed here is still on this
            device.
          </p>
          <p className="button-row">
            <Button onClick={() => void reload(true)}>Take what the server has</Button>
            <Button onClick={() => void insist()}>Keep what is typed here</Button>
          </p>
        </Notice>
      )}
    </>
  );
}
