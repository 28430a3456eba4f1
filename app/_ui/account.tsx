/** Who is signed in, in the masthead, with the way out; nobody has the link to sign in among the ways on. */
import styles from "./account.module.css";
import { me } from "./reading";
import { SignOut } from "./sign-out";
import { ROLE_WORDS } from "./words";

export async function Account() {
  const { badge } = await me();
  if (!badge) return null;
  const role = ROLE_WORDS[badge.role];
  return (
    <span className={`${styles.account} no-print`}>
      <span>
        {badge.label}
        {badge.label.toLowerCase().startsWith(role) ? "" : ` (${role})`}
      </span>
      <SignOut once={!badge.reusable} />
    </span>
  );
}
