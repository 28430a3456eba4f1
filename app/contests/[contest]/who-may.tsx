"use client";
import { usePathname } from "next/navigation";
import { Forbidden } from "@/app/_ui/forbidden";

/** By the part of the contest that was asked for: what it is, and whose badge opens it. */
const PARTS: Record<string, { what: string; who: string }> = {
  judge: { what: "enter landing points", who: "a judge (organisers and safety officers may look)" },
  spot: { what: "send what a spotter sees", who: "a judge (organisers and safety officers may look)" },
  post: { what: "say clear at a post", who: "an official of this contest" },
  tally: { what: "keep the tally", who: "an official of this contest" },
  crew: {
    what: "say what a machine is",
    who: "the crew’s chief with the team’s badge, or the safety officer",
  },
  organise: { what: "run this contest", who: "an organiser, or for some parts the safety officer" },
  "safety-file": { what: "see the safety file", who: "an official of this contest" },
  incidents: { what: "read incidents", who: "an organiser or the safety officer; a judge may enter one" },
  placing: { what: "place the machines of this contest", who: "an organiser or a safety officer" },
  entries: { what: "see entries with their people", who: "an organiser or a safety officer" },
  badges: { what: "make and revoke badges", who: "an organiser" },
  machines: {
    what: "see this machine’s dimensions and hazard sheet",
    who: "an official of this contest or the machine’s own team",
  },
};

export function WhoMay() {
  const path = usePathname();
  const parts = path.split("/");
  const part = PARTS[parts[4] ?? ""] ?? PARTS[parts[3] ?? ""];
  return <Forbidden {...part} signInHref={`/sign-in?next=${encodeURIComponent(path)}`} />;
}
