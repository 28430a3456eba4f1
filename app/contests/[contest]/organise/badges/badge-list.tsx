"use client";
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import { ROLE_WORDS } from "@/app/_ui/words";
import type { BadgeInfo } from "@/lib/api/contracts";
import { type Asked, BadgeChange } from "./badge-change";
import type { Entrants } from "./badge-form";
import { type MadeBadge, NewCode } from "./new-code";

export function BadgeList({
  slug,
  contest,
  badges,
  entrants,
  own,
}: {
  slug: string;
  contest: string;
  badges: readonly BadgeInfo[];
  entrants: Entrants;
  /** Of who reads. */
  own: string;
}) {
  const [asked, setAsked] = useState<{ id: string; what: Asked | null } | null>(null);
  const [renewed, setRenewed] = useState<MadeBadge | null>(null);
  return (
    <>
      <div aria-live="polite">
        {renewed && <NewCode renewed made={renewed} contest={contest} onDone={() => setRenewed(null)} />}
      </div>
      <Table
        caption="Badges"
        stacks
        hideCaption
        rows={badges}
        rowKey={({ id }) => id}
        columns={[
          { key: "label", head: "Label", rowHead: true, cell: ({ label }) => label },
          {
            key: "role",
            head: "Role",
            cell: ({ role, entrantId }) =>
              role === "team"
                ? `team: ${entrants.find(({ id }) => id === entrantId)?.name ?? ""}`
                : ROLE_WORDS[role],
          },
          { key: "used", head: "Signed in", cell: (badge) => <Devices {...badge} /> },
          { key: "ends", head: "Ends", cell: (badge) => <Ends {...badge} /> },
          {
            key: "change",
            head: "Change",
            cell: (badge) =>
              badge.revokedAt ? (
                "none: revoked for good"
              ) : asked?.id !== badge.id ? (
                <Button
                  aria-label={`Change ${badge.label}`}
                  onClick={() => setAsked({ id: badge.id, what: null })}
                >
                  Change
                </Button>
              ) : asked.what ? (
                <BadgeChange
                  slug={slug}
                  badge={badge}
                  own={badge.id === own}
                  what={asked.what}
                  onCode={setRenewed}
                  onDone={() => setAsked(null)}
                />
              ) : (
                <span className="button-row">
                  {WAYS.map(([what, words, spoken]) => (
                    <Button
                      key={what}
                      aria-label={`${spoken} ${badge.label}`}
                      onClick={() => setAsked({ id: badge.id, what })}
                    >
                      {words}
                    </Button>
                  ))}
                </span>
              ),
          },
        ]}
      />
    </>
  );
}

const WAYS = [
  ["code", "New code", "New code for"],
  ["end", "Set the end", "Set the end of"],
  ["revoke", "Revoke", "Revoke"],
] as const;

function Devices({ signIns: { count }, devices, codeUsedAt, reusable }: BadgeInfo) {
  const now = devices === 0 ? "no device now" : devices === 1 ? "one device" : `${devices} devices`;
  const code = reusable
    ? "its code works again and again"
    : codeUsedAt
      ? "its code is used up"
      : "its code waits";
  return <>{`${count === 0 ? "not yet" : now}; ${code}`}</>;
}

function Ends({ endsAt, revokedAt }: BadgeInfo) {
  if (revokedAt)
    return (
      <>
        revoked <LocalTime iso={revokedAt} day />
      </>
    );
  if (!endsAt) return <>no end</>;
  return (
    <>
      {Date.parse(endsAt) <= Date.now() && "ended "}
      <LocalTime iso={endsAt} day />
    </>
  );
}
