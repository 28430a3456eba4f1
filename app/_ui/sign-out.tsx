"use client";
import { useState } from "react";
import { Button } from "./button";
import { newKey } from "./write/key";
import { send } from "./write/send";

/** Ends the session on the server; the page is then loaded anew, so nothing of it stays on a shared phone. */
export function SignOut({ once }: { /** Its code does not sign in again. */ once: boolean }) {
  const [state, setState] = useState<"idle" | "asked" | "sending" | "failed">("idle");
  if (once && state === "idle") return <Button onClick={() => setState("asked")}>Sign out</Button>;
  return (
    <>
      {once && (
        <span role="status">
          The code is used up: to come back here you need a new one from the organiser.{" "}
          <Button look="quiet" onClick={() => setState("idle")}>
            Stay
          </Button>
        </span>
      )}
      <Button
        aria-disabled={state === "sending" || undefined}
        onClick={async () => {
          setState("sending");
          const sent = await send("POST", "/api/v1/sign-out", {}, newKey());
          if (sent.ok) window.location.assign("/sign-in");
          else setState("failed");
        }}
      >
        {once ? "Yes, sign out" : "Sign out"}
      </Button>
      <span role="status">
        {state === "failed" && "Still signed in: the server did not answer. Try again."}
      </span>
    </>
  );
}
