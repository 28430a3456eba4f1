import type { Metadata } from "next";
import { ButtonLink } from "./_ui/button";
import { Shell } from "./_ui/shell";

export const metadata: Metadata = { title: "Not found" };

export default function NotFound() {
  return (
    <Shell>
      <h1>Nothing at this address</h1>
      <p>
        The address may be mistyped, or what it named (a contest, a machine, a shot) may never have been here.
        Official entries are not deleted: look for it in its contest.
      </p>
      <p className="button-row">
        <ButtonLink href="/contests" look="main">
          All contests
        </ButtonLink>
        <ButtonLink href="/calculator">Calculator</ButtonLink>
        <ButtonLink href="/">Home</ButtonLink>
      </p>
      <p>The server answered 404.</p>
    </Shell>
  );
}
