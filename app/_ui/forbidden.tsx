/** What a page says to someone whose role may not do this, signed in or not. */
import { ButtonLink } from "./button";

export function Forbidden({
  what,
  who,
  signInHref = "/sign-in",
}: {
  /** What was asked for: "change the site map". */
  what?: string;
  /** Who may: "the organiser". */
  who?: string;
  signInHref?: string;
}) {
  return (
    <>
      <h1>Not with this badge</h1>
      <p>
        {what ? `To ${what}` : "To do this"} takes the badge of {who ?? "another role"}. Nothing was changed.
        Sign in with that badge, or ask who holds it.
      </p>
      <p className="button-row">
        <ButtonLink href={signInHref} look="main">
          Sign in
        </ButtonLink>
        <ButtonLink href="/contests">All contests</ButtonLink>
      </p>
      <p>The server answered 403.</p>
    </>
  );
}
