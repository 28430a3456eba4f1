"use client";
import Link from "next/link";
import { useRouter } from "next/navigation";
import { useLive } from "@/app/_ui/live/use-live";
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import type { EntrySummary } from "@/lib/api/contracts";
import { STATE_WORDS } from "./words";

/** Those that wait for an answer first. */
const ORDER: EntrySummary["state"][] = ["sent", "returned", "draft", "accepted", "refused"];

export function EntryList({
  slug,
  entries,
  divisions,
  sequence,
}: {
  slug: string;
  entries: readonly EntrySummary[];
  divisions: readonly { id: string; name: string }[];
  sequence: number;
}) {
  const router = useRouter();
  useLive(`/api/v1/contests/${slug}/live`, sequence, ({ kind }, missed) => {
    if ((missed || kind === "entry") && navigator.onLine) router.refresh();
  });
  return (
    <Table
      caption="Entries"
      stacks
      rows={[...entries].sort((a, b) => ORDER.indexOf(a.state) - ORDER.indexOf(b.state))}
      rowKey={({ id }) => id}
      empty="No team has begun an entry yet."
      columns={[
        {
          key: "team",
          head: "Team",
          rowHead: true,
          cell: ({ id, team }) => (
            <Link href={`/contests/${slug}/organise/entries/${id}`} prefetch={false}>
              {team || "no name yet"}
            </Link>
          ),
        },
        {
          key: "division",
          head: "Division",
          cell: ({ divisionId }) => divisions.find(({ id }) => id === divisionId)?.name ?? "–",
        },
        { key: "machine", head: "Machine", cell: ({ machineName }) => machineName || "–" },
        {
          key: "people",
          head: "People",
          cell: ({ people, minors, erasedAt }) =>
            erasedAt ? "erased" : `${people}${minors > 0 ? `, ${minors} of them minors` : ""}`,
        },
        {
          key: "missing",
          head: "Missing",
          cell: ({ missing, state }) =>
            state === "accepted" || state === "refused"
              ? "–"
              : missing.filter(({ blocks }) => blocks !== null).length || "nothing",
        },
        { key: "state", head: "State", cell: ({ state }) => STATE_WORDS[state] },
        { key: "sent", head: "Sent", cell: ({ sentAt }) => (sentAt ? <LocalTime iso={sentAt} day /> : "–") },
      ]}
    />
  );
}
