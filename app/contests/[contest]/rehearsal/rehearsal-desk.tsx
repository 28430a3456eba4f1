"use client";
/** Starts and ends a rehearsal, and shows how soon hold was called in those that were played. */
import { useCallback, useState } from "react";
import { Button } from "@/app/_ui/button";
import { useLive } from "@/app/_ui/live/use-live";
import { Notice } from "@/app/_ui/notice";
import { PrintButton } from "@/app/_ui/print-button";
import { useWrite } from "@/app/_ui/write/use-write";
import type { Rehearsal } from "@/lib/api/contracts";
import { Runs } from "./runs";
import { StartForm } from "./start-form";

export function RehearsalDesk({ slug, first }: { slug: string; first: Rehearsal }) {
  const [seen, setSeen] = useState(first);
  const url = `/api/v1/contests/${slug}/rehearsal`;
  const read = useCallback(async () => {
    const answer = await fetch(url, { cache: "no-store" });
    if (answer.ok) setSeen((await answer.json()) as Rehearsal);
  }, [url]);
  const again = useCallback(() => void read().catch(() => {}), [read]);
  useLive(`/api/v1/contests/${slug}/live`, first.sequence, again, again);
  const { write, sending, trouble } = useWrite<Rehearsal>();
  const end = async () => {
    const sent = await write("POST", `${url}/end`, {});
    if (sent.ok) setSeen(sent.data);
  };
  return (
    <>
      {trouble && <Notice kind="problem">{trouble}</Notice>}
      {seen.playing ? (
        <section aria-labelledby="playing">
          <h2 id="playing">It is being played</h2>
          <p>
            What happens stands above, on every page of this contest. Call hold there; the safety officer
            lifts it on the page Range.
          </p>
          <Button wide className="button-big" aria-disabled={sending || undefined} onClick={() => void end()}>
            End the rehearsal
          </Button>
        </section>
      ) : (
        <StartForm url={url} posts={seen.posts} onStarted={setSeen} />
      )}
      {seen.runs.length > 0 && (
        <>
          <Runs runs={seen.runs} playing={seen.playing} />
          <PrintButton>Print what came of it</PrintButton>
        </>
      )}
    </>
  );
}
