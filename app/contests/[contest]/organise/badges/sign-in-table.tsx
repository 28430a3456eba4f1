"use client";
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import { ROLE_WORDS } from "@/app/_ui/words";
import type { SignIns } from "@/lib/api/contracts";

const WHAT = {
  used: "refused: the code was used before",
  revoked: "refused: the badge was revoked",
  "past-end": "refused: the badge had ended",
} as const;

export function SignInTable({ signIns }: { signIns: SignIns["signIns"] }) {
  if (signIns.length === 0) return <p>Nobody yet.</p>;
  return (
    <Table
      caption="Who signed in"
      stacks
      hideCaption
      rows={signIns}
      rowKey={({ at, badgeId }) => `${at} ${badgeId}`}
      columns={[
        { key: "label", head: "Badge", rowHead: true, cell: ({ label }) => label },
        { key: "role", head: "Role", cell: ({ role }) => ROLE_WORDS[role] },
        { key: "at", head: "When", cell: ({ at }) => <LocalTime iso={at} day /> },
        { key: "device", head: "Device", cell: ({ device }) => device },
        { key: "what", head: "What", cell: ({ refused }) => (refused ? WHAT[refused] : "signed in") },
      ]}
    />
  );
}
