/** Who is signed in, in the masthead, with the way out. */
import Link from "next/link";
import { me } from "./reading";
import { SignOut } from "./sign-out";
import { ROLE_WORDS } from "./words";

export async function Account() {
  const { badge } = await me();
  if (!badge) {
    return (
      <Link className="button button-plain" href="/sign-in" prefetch={false}>
        Sign in
      </Link>
    );
  }
  const role = ROLE_WORDS[badge.role];
  return (
    <span className="account">
      <span>
        {badge.label}
        {badge.label.toLowerCase().startsWith(role) ? "" : ` (${role})`}
      </span>
      <SignOut />
    </span>
  );
}
