"use client";
import { useState } from "react";
import styles from "./account.module.css";
import { Button } from "./button";
import { newKey } from "./write/key";
import { send } from "./write/send";

/** Ends the session on the server; the page is then loaded anew, so nothing of it stays on a shared phone. */
export function SignOut({ once }: { /** Its code does not sign in again: asked twice. */ once: boolean }) {
  const [state, setState] = useState<"idle" | "asked" | "sending" | "failed">("idle");
  const button = (words: string) => (
    <Button
      aria-disabled={state === "sending" || undefined}
      onClick={async () => {
        setState("sending");
        const sent = await send("POST", "/api/v1/sign-out", {}, newKey());
        if (sent.ok) window.location.assign("/sign-in");
        else setState("failed");
      }}
    >
      {words}
    </Button>
  );
  return (
    <>
      {!once ? (
        button("Sign out")
      ) : state === "idle" ? (
        <Button onClick={() => setState("asked")}>Sign out</Button>
      ) : (
        <span className={styles.asked}>
          <span role="status">Your code is used up: coming back takes a new one from the organiser.</span>
          {button("Yes, sign out")}
          <Button onClick={() => setState("idle")}>Stay</Button>
        </span>
      )}
      <span role="status">
        {state === "failed" && "Still signed in: the server did not answer. Try again."}
      </span>
    </>
  );
}
