import { WhoMay } from "./who-may";

/** Inside the contest's frame, so that the ways on stay in sight. */
export default function ContestForbidden() {
  return <WhoMay />;
}
