"use client";
import { useState } from "react";
import { Button } from "./button";
import { newKey } from "./write/key";
import { send } from "./write/send";

/** Ends the session on the server; the page is then loaded anew, so nothing of it stays on a shared phone. */
export function SignOut() {
  const [state, setState] = useState<"idle" | "sending" | "failed">("idle");
  return (
    <>
      <Button
        aria-disabled={state === "sending" || undefined}
        onClick={async () => {
          setState("sending");
          const sent = await send("POST", "/api/v1/sign-out", {}, newKey());
          if (sent.ok) window.location.assign("/sign-in");
          else setState("failed");
        }}
      >
        Sign out
      </Button>
      <span role="status">
        {state === "failed" && "Still signed in: the server did not answer. Try again."}
      </span>
    </>
  );
}
