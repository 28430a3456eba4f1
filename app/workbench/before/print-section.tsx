"use client";
import { Button } from "@/app/_ui/button";

/** What is shown is what comes on paper. */
export function PrintSection({ what = "this section" }: { what?: string }) {
  return (
    <p className="button-row no-print">
      <Button onClick={() => print()}>Print {what}</Button>
    </p>
  );
}
