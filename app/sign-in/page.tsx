import type { Metadata } from "next";
import Link from "next/link";
import { Account } from "../_ui/account";
import { me } from "../_ui/reading";
import { Shell } from "../_ui/shell";
import { SignInForm } from "./sign-in-form";

export const metadata: Metadata = { title: "Sign in" };

export default async function SignInPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { next } = await searchParams;
  const { badge } = await me();
  return (
    <Shell account={badge ? <Account /> : undefined}>
      <h1>Sign in with your badge</h1>
      {badge && (
        <p>
          You are signed in as {badge.label} at{" "}
          <Link href={`/contests/${badge.contestSlug}`}>{badge.contestName}</Link>. Another code takes its
          place on this device.
        </p>
      )}
      <SignInForm next={typeof next === "string" ? ownPath(next) : null} />
      <h2>No badge?</h2>
      <p>
        Standings, the site map and the calculator are open to everyone. Officials and teams get their badge
        from the organiser. A code signs in one device, once; for a second device, or after a phone has lost
        its sign-in, the organiser makes a new code for the same badge. The codes that the demo prints, and an
        organiser’s own, sign in again and again.
      </p>
    </Shell>
  );
}

/** Only a path of this site: nobody may be sent elsewhere by a link to this page. */
function ownPath(next: string): string | null {
  return /^\/(?![/\\])[\w\-./?=&%]*$/.test(next) ? next : null;
}
