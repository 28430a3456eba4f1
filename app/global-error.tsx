"use client";
import "./globals.css";
import "./_ui/ui.css";
import { BarePage, RangeStopReminder } from "./_ui/bare-page";
import { Button } from "./_ui/button";

/** When the document itself fails: only what needs no data. */
export default function GlobalError({ error }: { error: Error & { digest?: string } }) {
  return (
    <html lang="en">
      <body>
        <title>Fairthrow: not working</title>
        <BarePage>
          <h1>Fairthrow is not working</h1>
          <p>
            What was saved before is still saved. Load the page again; if it fails again, tell the organiser,
            who can look in the server's log.
          </p>
          <RangeStopReminder />
          <p className="button-row">
            <Button look="main" onClick={() => window.location.reload()}>
              Load again
            </Button>
          </p>
          <p>The server answered 500{error.digest ? `, code ${error.digest}` : ""}.</p>
        </BarePage>
      </body>
    </html>
  );
}
