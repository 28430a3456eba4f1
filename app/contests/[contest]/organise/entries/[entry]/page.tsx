import Link from "next/link";
import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { contestDays } from "@/app/_ui/words";
import { may, readEntry } from "@/lib/contest";
import { STATE_WORDS } from "../words";
import { Decide } from "./decide";
import { Declared } from "./declared";
import { PeopleTable } from "./people-table";
import { Photographs } from "./photographs";

type Props = { params: Promise<{ contest: string; entry: string }> };

export const generateMetadata = titled("An entry");

export default async function EntryPage({ params }: Props) {
  const { contest: slug, entry: id } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const contest = await overview(slug);
  const entry = await reading((db, asking) => readEntry(db, asking, slug, id));
  const { insurance, divisionId, missing, state, erasedAt } = entry;
  const blocking = missing.filter(({ blocks }) => blocks !== null);
  const mayDecide = may(who, "decide on an entry of a team", contest.id);
  return (
    <>
      <p>
        <Link href={`/contests/${slug}/organise/entries`} prefetch={false}>
          All entries
        </Link>
      </p>
      <h1>{entry.team || "An entry without a name"}</h1>
      <p>
        {STATE_WORDS[state]}.{" "}
        {contest.divisions.find((division) => division.id === divisionId)?.name ?? "No division yet"}.
        {entry.machineId && (
          <>
            {" "}
            <Link href={`/contests/${slug}/machines/${entry.machineId}`} prefetch={false}>
              Its machine in the contest
            </Link>
          </>
        )}
      </p>
      {entry.answer && <p>You answered: {entry.answer}</p>}
      {state !== "accepted" && state !== "refused" && !erasedAt && (
        <>
          <h2>What is missing</h2>
          {blocking.length === 0 ? (
            <p>Nothing is in the way of accepting it.</p>
          ) : (
            <ul aria-label="What is missing">
              {blocking.map(({ text }) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          )}
        </>
      )}
      {mayDecide && <Decide slug={slug} contest={contest.name} entry={entry} />}
      <h2>People</h2>
      {erasedAt ? (
        <p>Erased, with insurance and photographs.</p>
      ) : (
        <>
          <p>
            For the organiser and the safety officer alone; erased after{" "}
            {contestDays({ date: entry.keptUntil })}. A guardian is reached by the number beside the minor.
          </p>
          <PeopleTable slug={slug} entry={entry} mayDecide={mayDecide} />
          <h2>Insurance</h2>
          <p>
            {insurance.insurer || "No insurer yet"}, {insurance.number || "no number yet"}, valid until{" "}
            {insurance.validUntil ?? "not said"};{" "}
            {insurance.coversThrowing
              ? "it covers throwing with a machine, the team says."
              : "whether it covers throwing is not said."}
          </p>
          <h2>Photographs</h2>
          <Photographs slug={slug} entry={entry} />
        </>
      )}
      <h2>Machine{entry.machineName && `: ${entry.machineName}`}</h2>
      {entry.note && (
        <p>
          Its team says: <strong>{entry.note}</strong>
        </p>
      )}
      <Declared declaration={entry.declaration} ownNumbers={entry.ownNumbers} />
    </>
  );
}
