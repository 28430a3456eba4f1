"use client";
/** Which throw or failure the model leads to each place. Worked out when the page is open: it takes seconds. */
import { useEffect, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Explanations } from "@/app/_ui/replay/explanations";
import "@/app/_ui/replay/replay.css";
import type { IncidentInfo, IncidentReplays } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import { FOUND_WORDS } from "../words";

interface Props {
  slug: string;
  incident: IncidentInfo;
  system: UnitSystem;
}

const countingIn = ({ pieceList }: IncidentInfo) =>
  pieceList.filter(({ replaced, fix }) => !replaced && fix !== null);

export function ReplayPanel(props: Props) {
  const [tries, setTries] = useState(0);
  const which = countingIn(props.incident)
    .map(({ id }) => id)
    .join();
  return (
    <section aria-labelledby="replay-title">
      <h2 id="replay-title">What would explain it</h2>
      {/* Asked anew for other places, and when a person asks again. */}
      <Asked key={`${which} ${tries}`} {...props} onAgain={() => setTries((now) => now + 1)} />
    </section>
  );
}

const verdictWords = ({
  verdict,
  explanations,
}: NonNullable<IncidentReplays["replays"][number]["replay"]>) => {
  const causes = explanations.filter(({ fits }) => fits).map(({ fault }) => fault);
  if (verdict === "unexplained") return "nothing explains it";
  return causes.every((fault) => fault !== null)
    ? "a failure leads there"
    : causes.some((fault) => fault !== null)
      ? "throws and failures lead there"
      : "a throw leads there";
};

function Asked({ slug, incident, system, onAgain }: Props & { onAgain: () => void }) {
  const [answer, setAnswer] = useState<IncidentReplays | "lost" | null>(null);
  const url = `/api/v1/contests/${slug}/incidents/${incident.id}/replays`;
  useEffect(() => {
    let here = true;
    const ask = async (): Promise<IncidentReplays> => {
      const response = await fetch(url, { cache: "no-store" });
      if (!response.ok) throw new Error(String(response.status));
      return response.json();
    };
    ask().then(
      (found) => here && setAnswer(found),
      () => here && setAnswer("lost"),
    );
    return () => {
      here = false;
    };
  }, [url]);
  if (answer === null)
    return (
      <p role="status">The model is asked which throw or failure leads there. This takes some seconds.</p>
    );
  if (answer === "lost")
    return (
      <p>
        No answer came. <Button onClick={onAgain}>Ask again</Button>
      </p>
    );
  const counting = countingIn(incident);
  return counting.map((piece, index) => {
    const found = answer.replays.find(({ pieceId }) => pieceId === piece.id);
    return (
      <details key={piece.id} open={counting.length === 1 || piece.outside}>
        <summary>
          {index + 1}. {FOUND_WORDS[piece.found]}: {found?.replay ? verdictWords(found.replay) : "not asked"}
        </summary>
        {found?.replay ? (
          <Explanations
            answered={{
              replay: found.replay,
              reach: incident.stood?.reach ?? null,
              kind: incident.stood?.kind ?? "",
            }}
            system={system}
          />
        ) : (
          <p>{found?.reason}</p>
        )}
      </details>
    );
  });
}
