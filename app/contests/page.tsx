import type { Metadata } from "next";
import Link from "next/link";
import { listContests } from "@/lib/contest";
import { Account } from "../_ui/account";
import { reading } from "../_ui/reading";
import { Shell } from "../_ui/shell";
import { contestDays } from "../_ui/words";

export const metadata: Metadata = { title: "Contests" };

export default async function ContestsPage() {
  const contests = await reading((db) => listContests(db));
  return (
    <Shell account={<Account />}>
      <h1>Contests</h1>
      {contests.length === 0 ? (
        <p>
          There is no contest here yet. Whoever runs this server makes the first one with the{" "}
          <Link href="/setup">setup code</Link> that it printed when it started.
        </p>
      ) : (
        <ul>
          {contests.map((contest) => (
            <li key={contest.id}>
              <p>
                <Link href={`/contests/${contest.slug}`}>
                  <strong>{contest.name}</strong>
                </Link>
                <br />
                {[contest.place, contestDays(contest)].filter(Boolean).join(", ")}
                {contest.demo && " (an invented contest, to try things out)"}
              </p>
            </li>
          ))}
        </ul>
      )}
    </Shell>
  );
}
