/** What stands before anything else after a throw that did not go as meant. */
import { Caution } from "@/app/_ui/caution";
import type { Result } from "./log/log";

const AFTER: Partial<Record<Result, { title: string; text: string }>> = {
  "no-release": {
    title: "the last throw did not let go",
    text: "What hangs in the sling, and a machine that swings, may throw yet. Everybody stays beyond the keep-out zone, on all sides, until it stands still and has been made safe.",
  },
  misfire: {
    title: "the last throw misfired",
    text: "It is still armed and may throw by itself. Everybody stays beyond the keep-out zone until whoever is in charge of it has made it safe, alone and from the side that the crew agreed on.",
  },
  backwards: {
    title: "the last throw went backwards",
    text: "Nobody throws again until it is known why, and until whoever inspects the machine has looked at pin, loop and sling. Nobody stands behind it at any throw.",
  },
  "straight-up": {
    title: "the last throw went straight up",
    text: "Such a throw comes down on its own crew. Nobody throws again until it is known why, and the crew stands under cover or beyond the keep-out zone.",
  },
  broke: {
    title: "something broke",
    text: "Make it safe, with the counterweight down or held. Find every piece and say below where it lay. Nobody throws again until whoever knows such work by trade has looked at what broke and at what it loaded.",
  },
};

export function AfterThrow({ result }: { result: Result | undefined }) {
  const said = result && AFTER[result];
  if (!said) return null;
  return (
    <Caution kind="warning" title={said.title}>
      <p>{said.text}</p>
    </Caution>
  );
}
