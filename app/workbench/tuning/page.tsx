import type { Metadata } from "next";
import { TuningDesk } from "./tuning-desk";

export const metadata: Metadata = {
  title: "Tuning",
  description: "What each number of a machine does to its throw, and which numbers throw best within limits.",
};

export default function TuningPage() {
  return (
    <>
      <div className="no-print">
        <h1>Tuning</h1>
        <p>
          What each number does to the throw, and which numbers throw farthest or hit a mark, within what the
          machine and the site can bear. Computed in this browser, never official.
        </p>
      </div>
      <TuningDesk />
    </>
  );
}
