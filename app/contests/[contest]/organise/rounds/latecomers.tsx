"use client";
import { WriteForm } from "@/app/_ui/write/write-form";

/** Teams that were not ready when the round was made: they may still shoot, after all others. */
export function Latecomers({
  slug,
  round,
  teams,
}: {
  slug: string;
  round: number;
  teams: readonly { id: string; number: number; team: string }[];
}) {
  if (teams.length === 0) return null;
  return (
    <WriteForm
      label={`Add to round ${round}`}
      url={`/api/v1/contests/${slug}/rounds`}
      body={() => ({ round, machineIds: teams.map(({ id }) => id) })}
      submit={`Add them at the end of round ${round}`}
      look="plain"
      done={() => <p>They are in the order now.</p>}
    >
      {() => (
        <p>
          Ready now and not in this round: {teams.map(({ number, team }) => `${number} ${team}`).join(", ")}.
        </p>
      )}
    </WriteForm>
  );
}
