"use client";
import { BarePage, RangeStopReminder } from "./_ui/bare-page";
import { Button, ButtonLink } from "./_ui/button";

/** What failed is in the server's log under the digest; the page tells what to do now. */
export default function PageError({
  error,
  reset,
}: {
  error: Error & { digest?: string };
  reset: () => void;
}) {
  return (
    <BarePage>
      <h1>This page could not be made</h1>
      <p>
        The fault is the program's, not yours. What was saved before is still saved. Try once more; if it
        fails again, tell the organiser and give the code below.
      </p>
      <RangeStopReminder />
      <p className="button-row">
        <Button look="main" onClick={reset}>
          Try again
        </Button>
        <ButtonLink href="/">Home</ButtonLink>
      </p>
      <p>The server answered 500{error.digest ? `, code ${error.digest}` : ""}.</p>
    </BarePage>
  );
}
