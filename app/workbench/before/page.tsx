import type { Metadata } from "next";
import { BeforeDesk } from "./before-desk";

export const metadata: Metadata = { title: "Before the day" };

export default function BeforePage() {
  return (
    <>
      <div className="no-print">
        <h1>Before the day</h1>
        <p>
          What the inspector will look at, and what must be reckoned, filled, packed and levelled before, of
          the chosen revision.
        </p>
      </div>
      <BeforeDesk />
    </>
  );
}
