"use client";
/** The phone of a badge that has ended: what it still has goes out, and what became of it stands here. */
import { useRouter } from "next/navigation";
import { useLive } from "@/app/_ui/live/use-live";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { ENDED_WORDS, instantText } from "@/app/_ui/words";
import type { Ended, FixAnswer, HeldFixes } from "@/lib/api/contracts";
import { titleOf } from "./assign";
import { resultWords } from "./saved-panel";
import { Unsent } from "./unsent";
import { useOutbox } from "./use-outbox";
import { WhereSaved } from "./where-saved";

export function EndedDesk({
  slug,
  owner,
  how,
  at,
  delivered,
  sequence,
}: {
  slug: string;
  owner: string;
  how: Ended;
  at: string;
  delivered: HeldFixes["waiting"];
  /** Of the newest scorebook entry that this shows. */
  sequence: number;
}) {
  const router = useRouter();
  const system = useUnits();
  const { outbox, waiting } = useOutbox(slug, owner, { fix: () => router.refresh() });
  const heard = useLive(`/api/v1/contests/${slug}/live`, sequence, ({ kind }, missed) => {
    if (missed || kind === "fix") router.refresh();
  });
  const held = delivered.filter(({ fix }) => fix.held?.state === "waiting").length;
  return (
    <>
      <Notice title={`This badge ${ENDED_WORDS[how]}`}>
        <p>
          At {instantText(at)}. What was seen before that goes to the server by itself, and counts once the
          organiser or the safety officer has confirmed it. What was seen later is not taken. {GO_ON[how]}
        </p>
      </Notice>
      <WhereSaved waiting={waiting} heard={heard} held={held} />
      <Unsent waiting={waiting} outbox={outbox} mayTakeOver={false} />
      {delivered.length > 0 && (
        <>
          <h2>What became of it</h2>
          <ul>
            {delivered.map(({ fix, shot }) => (
              <li key={fix.id}>
                {titleOf(shot)}: <strong>{resultWords(fix, system)}</strong>, seen{" "}
                {instantText(fix.observedAt)}. {stateWords(fix)}
              </li>
            ))}
          </ul>
        </>
      )}
      <p>
        <a
          className="button button-plain"
          href={`/sign-in?next=${encodeURIComponent(`/contests/${slug}/judge`)}`}
        >
          Sign in with another badge
        </a>
      </p>
    </>
  );
}

const GO_ON: Record<Ended, string> = {
  revoked:
    "To go on judging, get a new badge from the organiser, and sign in with it here when nothing waits on this phone any more.",
  "past-end": "To go on judging, ask the organiser for more time: then this phone goes on by itself.",
  replaced:
    "To go on judging on this phone too, ask the organiser for a new code that adds a device to the badge.",
};

function stateWords({ held }: FixAnswer): string {
  if (!held?.decision) return "Arrived; waits to be confirmed.";
  const { by, reason } = held.decision;
  return `${held.state === "confirmed" ? "Confirmed" : "Rejected"} by ${by}: ${reason}`;
}
