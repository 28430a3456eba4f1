import { canonical, sha256 } from "../scorebook";

/** Shows later that a row is what was entered, and tells nobody who has no row what that was. */
export const saltedHash = (salt: string, content: object): string =>
  sha256(`${salt}\n${canonical(JSON.parse(JSON.stringify(content)))}`);
