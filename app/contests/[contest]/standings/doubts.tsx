/** What of these standings is not settled: close calls, entries that disagree or wait, protests, reopened rounds. */
import { Notice } from "@/app/_ui/notice";
import type { Standings } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { roundWords } from "./round-words";

export function Doubts({
  slug,
  standings,
  system,
}: {
  slug: string;
  standings: Standings;
  system: UnitSystem;
}) {
  const { disputes, divisions, overall, results } = standings;
  const nameOf = new Map(overall.map(({ entrantId, name }) => [entrantId, name]));
  const waiting = results.flatMap(({ round, toConfirm }) =>
    toConfirm.map((id) => ({
      id,
      round,
      entrantId: overall.find(({ marks }) => marks.some(({ shotId }) => shotId === id))?.entrantId ?? "",
    })),
  );
  const length = (value: number) => formatQuantity(value, "distance", system, { digits: 2 });
  const calls = divisions.flatMap((division) =>
    division.closeCalls.map((call) => ({ ...call, division: division.name })),
  );
  const shot = (id: string, words: string) => <a href={`/contests/${slug}/shots/${id}`}>{words}</a>;
  return (
    <>
      {calls.length > 0 && (
        <Notice title="Too close to call">
          <ul>
            {calls.map(({ division, ranks, entrantIds: [a, b], shotIds: [first, second], ...call }) => (
              <li key={`${first} ${second}`}>
                {division}, places {ranks[0]} and {ranks[1]}: {shot(first, nameOf.get(a) ?? "")} and{" "}
                {shot(second, nameOf.get(b) ?? "")} are {length(call.difference)} apart, and that is known to
                ± {length(call.uncertainty)} (k = 2). Measure both landing points again from their pegs before
                the result is published.
              </li>
            ))}
          </ul>
        </Notice>
      )}
      {disputes.length > 0 && (
        <Notice title="Entries disagree">
          <ul>
            {disputes.map(({ shotId, entrantId, round, text }) => (
              <li key={shotId}>
                {shot(shotId, `Round ${round}, ${nameOf.get(entrantId) ?? ""}`)}: no mark until one entry is
                corrected or ruled to count. {text}
              </li>
            ))}
          </ul>
        </Notice>
      )}
      {waiting.length > 0 && (
        <Notice title="To be confirmed">
          <ul>
            {waiting.map(({ id, round, entrantId }) => (
              <li key={id}>
                {shot(id, `Round ${round}, ${nameOf.get(entrantId) ?? ""}`)}: an entry of an ended badge does
                not count until an official has confirmed it.
              </li>
            ))}
          </ul>
        </Notice>
      )}
      {results.length > 0 && (
        <ul aria-label="State of the rounds">
          {results.map((result) => (
            <li key={result.round}>{roundWords(result)}</li>
          ))}
        </ul>
      )}
    </>
  );
}
