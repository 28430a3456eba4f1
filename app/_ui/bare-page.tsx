/** A frame without data, for pages that must show even when nothing else works. */
import type { ReactNode } from "react";
import { Mark } from "./mark";

export function BarePage({ children }: { children: ReactNode }) {
  return (
    <>
      <header className="masthead">
        <div className="masthead-inner">
          <a className="brand" href="/">
            <Mark />
            Fairthrow
          </a>
        </div>
      </header>
      <main className="page" id="main">
        {children}
      </main>
    </>
  );
}

/** Said wherever the program fails: it is never what stops a range. */
export function RangeStopReminder() {
  return (
    <p>
      If the range is live, stop it with horn, flag and radio. This page never replaces them, and a page that
      fails says nothing about the range.
    </p>
  );
}
