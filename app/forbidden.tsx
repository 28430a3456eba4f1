import type { Metadata } from "next";
import { Forbidden } from "./_ui/forbidden";
import { Shell } from "./_ui/shell";

export const metadata: Metadata = { title: "Not allowed" };

/** Shown by next/navigation's forbidden(), with status 403. */
export default function ForbiddenPage() {
  return (
    <Shell>
      <Forbidden />
    </Shell>
  );
}
