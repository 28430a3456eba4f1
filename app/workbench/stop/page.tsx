import type { Metadata } from "next";
import { StopDesk } from "./stop-desk";

export const metadata: Metadata = { title: "Stop designer" };

export default function StopPage() {
  return (
    <>
      <div className="no-print">
        <h1>Stop designer</h1>
        <p>
          From the energy that arrives to the way, the force, the bolts, the anchors, and a drop test that
          proves it. The largest that the chosen revision sends to its stop is taken first.
        </p>
      </div>
      <StopDesk />
    </>
  );
}
