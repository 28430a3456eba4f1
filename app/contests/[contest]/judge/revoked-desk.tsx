"use client";
/** The phone of a badge that was revoked: what it still has goes out, and what became of it stands here. */
import { useRouter } from "next/navigation";
import { useLive } from "@/app/_ui/live/use-live";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { instantText } from "@/app/_ui/words";
import type { FixAnswer, HeldFixes } from "@/lib/api/contracts";
import { titleOf } from "./assign";
import { resultWords } from "./saved-panel";
import { Unsent } from "./unsent";
import { useOutbox } from "./use-outbox";
import { WhereSaved } from "./where-saved";

export function RevokedDesk({
  slug,
  owner,
  revokedAt,
  delivered,
  sequence,
}: {
  slug: string;
  owner: string;
  revokedAt: string;
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
      <Notice title="This badge was revoked">
        <p>
          At {instantText(revokedAt)}. What was seen before that goes to the server by itself, and counts once
          the organiser or the safety officer has confirmed it. What was seen later is not taken. To go on
          judging, get a new badge from the organiser, and sign in with it here when nothing waits on this
          phone any more.
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

function stateWords({ held }: FixAnswer): string {
  if (!held?.decision) return "Arrived; waits to be confirmed.";
  const { by, reason } = held.decision;
  return `${held.state === "confirmed" ? "Confirmed" : "Rejected"} by ${by}: ${reason}`;
}
