"use client";
/** The revision on the bench, declared in a contest with one tap by whoever is signed in there. */
import Link from "next/link";
import { useEffect, useState } from "react";
import { Caution } from "@/app/_ui/caution";
import { SelectField } from "@/app/_ui/field";
import { WriteForm } from "@/app/_ui/write/write-form";
import { type ContestOverview, LONGEST_NOTE, type Me } from "@/lib/api/contracts";
import { noteWithStop } from "@/lib/inspection";
import { MOST_IN_LINK } from "../alarm/carried";
import { useAlarm } from "../alarm/use-alarm";
import { carriedText } from "../alarm/words";
import { useBench } from "../bench/use-bench";

type Known =
  | { state: "asking" | "unreached" | "nobody" | "not-theirs" }
  | { state: "known"; slug: string; contest: ContestOverview; team: string | null };

export function ContestEntry() {
  const known = useContest();
  switch (known.state) {
    case "asking":
      return <p>Asking who is signed in…</p>;
    case "unreached":
      return <p>No network: a machine is entered where the server can be reached.</p>;
    case "nobody":
      return (
        <p>
          <Link href="/sign-in?next=/workbench/share">Sign in with your team&rsquo;s badge</Link>, and the
          revision on the bench can be declared in your contest from here.
        </p>
      );
    case "not-theirs":
      return <p>A machine is declared by its team, or entered by the organiser: your badge is neither.</p>;
    case "known":
      return <Declare {...known} />;
  }
}

function useContest(): Known {
  const [known, setKnown] = useState<Known>({ state: "asking" });
  useEffect(() => {
    let here = true;
    (async (): Promise<Known> => {
      const { badge } = (await (await fetch("/api/v1/me", { cache: "no-store" })).json()) as Me;
      if (!badge) return { state: "nobody" };
      if (badge.role !== "team" && badge.role !== "organiser") return { state: "not-theirs" };
      const answer = await fetch(`/api/v1/contests/${badge.contestSlug}`, { cache: "no-store" });
      if (!answer.ok) return { state: "unreached" };
      return {
        state: "known",
        slug: badge.contestSlug,
        contest: (await answer.json()) as ContestOverview,
        team: badge.entrantId,
      };
    })()
      .catch((): Known => ({ state: "unreached" }))
      .then((found) => here && setKnown(found));
    return () => {
      here = false;
    };
  }, []);
  return known;
}

const NEW = "new";

function Declare({ slug, contest, team }: Extract<Known, { state: "known" }>) {
  const { bench, revision, reading } = useBench();
  const { carried } = useAlarm();
  const machines = contest.machines.filter(
    ({ entrantId, retired }) => !retired && (team === null || entrantId === team),
  );
  const [chosen, setChosen] = useState(machines[0]?.id ?? NEW);
  const [entrant, setEntrant] = useState(contest.entrants[0]?.id ?? "");
  if (!reading.ok)
    return <p>Numbers are missing or wrong: put them right on the page Machine before it is entered.</p>;
  if (machines.length === 0 && team !== null)
    return (
      <p>
        Your team has no machine in {contest.name} yet: the organiser enters it, then it is declared here.
      </p>
    );
  const isNew = chosen === NEW;
  const { machine, projectile, tolerances, strengths } = reading.body as Record<string, unknown>;
  const declaration = {
    machine,
    projectile,
    ...(tolerances ? { tolerances } : {}),
    ...(strengths ? { strengths } : {}),
  };
  const stops = carried.map((each) => carriedText(each, "metric"));
  const own = [revision.name, revision.note].filter(Boolean).join(": ");
  const note = noteWithStop(stops.slice(0, MOST_IN_LINK), own, LONGEST_NOTE);
  const base = `/api/v1/contests/${slug}/machines`;
  return (
    <WriteForm<{ id: string; number?: number }>
      label={`Enter the revision into ${contest.name}`}
      url={isNew ? base : `${base}/${chosen}/revisions`}
      body={() =>
        isNew
          ? bench.name.trim() === ""
            ? "Give the machine a name on the page Machine first."
            : { entrantId: entrant, name: bench.name.trim(), declaration, note }
          : { declaration, note }
      }
      submit={
        (isNew ? `Enter ${bench.name || "the machine"} into ${contest.name}` : `Declare “${revision.name}”`) +
        (stops.length > 0 ? ", with its STOP" : "")
      }
      refresh={false}
      done={(answer) => (
        <p>
          Declared. Its official hazard sheet is being computed:{" "}
          <Link href={`/contests/${slug}/machines/${isNew ? answer.id : chosen}`}>look at it there</Link>.
        </p>
      )}
    >
      {() => (
        <>
          <p>
            Air, ground and policy are the contest&rsquo;s; what goes there is the machine, its projectile,
            tolerances and strengths.
          </p>
          {stops.length > 0 && (
            <Caution kind="prohibition" title="enter a machine as if its throws were understood">
              <p>
                STOP stands on its practice throws. It goes along in the note of this revision, and whoever
                inspects the machine reads it: {note}
              </p>
              <p>Answer it first if it is known why.</p>
            </Caution>
          )}
          <SelectField
            id="enter-machine"
            label={`Machine in ${contest.name}`}
            value={chosen}
            onChange={(event) => setChosen(event.target.value)}
            choices={[
              ...machines.map(({ id, name, revision: number }) => ({
                value: id,
                label: number === null ? `${name}, not declared yet` : `${name}, after revision ${number}`,
              })),
              ...(team === null ? [{ value: NEW, label: "A new machine" }] : []),
            ]}
          />
          {isNew && (
            <SelectField
              id="enter-team"
              label="Team"
              value={entrant}
              onChange={(event) => setEntrant(event.target.value)}
              choices={contest.entrants.map(({ id, number, name }) => ({
                value: id,
                label: `${number} ${name}`,
              }))}
            />
          )}
        </>
      )}
    </WriteForm>
  );
}
