import type { Metadata } from "next";
import { TrialsDesk } from "./trials-desk";

export const metadata: Metadata = {
  title: "Practice throws",
  description: "What a machine threw in the yard, what that says of it, and the setting to try next.",
};

export default function TrialsPage() {
  return (
    <>
      <div className="no-print">
        <h1>Practice throws</h1>
        <p>
          Write down every throw, the bad ones too. Together they say what the machine really does, and what
          to set next. Kept in this browser, never official.
        </p>
      </div>
      <TrialsDesk />
    </>
  );
}
