import type { Metadata } from "next";
import { LoadsDesk } from "./loads-desk";

export const metadata: Metadata = { title: "What may break" };

export default function StrengthPage() {
  return (
    <>
      <div className="no-print">
        <h1>What may break</h1>
        <p>
          Every part of the chosen revision against what you say it bears: in the throw, swinging on unloaded,
          in a hang-up, in a dry fire and after a sling that tears. What is not declared has no reserve.
        </p>
      </div>
      <LoadsDesk />
    </>
  );
}
