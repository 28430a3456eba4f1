"use client";
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { EntryLinkInfo } from "@/lib/api/contracts";

export function LinkList({ slug, links }: { slug: string; links: readonly EntryLinkInfo[] }) {
  return (
    <Table
      caption="Links"
      hideCaption
      stacks
      rows={links}
      rowKey={({ id }) => id}
      empty="No link is made yet."
      columns={[
        {
          key: "made",
          head: "Made",
          rowHead: true,
          cell: ({ createdAt }) => <LocalTime iso={createdAt} day />,
        },
        { key: "ends", head: "Until", cell: ({ endsAt }) => <LocalTime iso={endsAt} day /> },
        { key: "used", head: "Entries", cell: ({ used, most }) => `${used} of ${most}` },
        { key: "keep", head: "People’s data", cell: ({ keepDays }) => `${keepDays} days after the contest` },
        {
          key: "state",
          head: "State",
          cell: ({ id, open, endsAt }) => (
            <WriteForm
              label={open ? "Close this link" : "Open this link again"}
              method="PATCH"
              url={`/api/v1/contests/${slug}/entry-links/${id}`}
              body={() => ({ open: !open })}
              submit={open ? "Close it" : "Open it again"}
              look="plain"
            >
              {() => <p>{open ? (Date.parse(endsAt) < Date.now() ? "over" : "open") : "closed"}</p>}
            </WriteForm>
          ),
        },
      ]}
    />
  );
}
