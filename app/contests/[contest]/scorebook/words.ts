/** Scorebook entries in words. What is hashed stands beside them, so nothing hangs on these. */
import { bearingText } from "@/app/_ui/words";
import type { ScorebookEntryInfo } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";

const ACTS: Record<string, string> = {
  "contest-created": "Contest made",
  "contest-changed": "Particulars of the contest changed",
  "division-added": "Division made",
  "entrant-added": "Team entered",
  "firing-point-added": "Firing point laid out",
  "firing-point-moved": "Firing point moved",
  "firing-point-changed": "Firing point named or retired",
  "feature-added": "Site feature laid out",
  "feature-changed": "Site feature changed",
  "protection-allowed": "Looser protection allowed",
  "allowance-withdrawn": "Looser protection taken back",
  "barrier-signed": "Barrier signed for",
  "barrier-retired": "Barrier retired",
  "control-point-added": "Control point laid out",
  "control-point-changed": "Control point changed",
  "spot-height-added": "Height of the ground entered",
  "spot-height-changed": "Height of the ground changed",
  "aerial-picture-added": "Aerial picture laid underneath",
  "aerial-picture-changed": "Aerial picture changed",
  "machine-entered": "Machine entered",
  "machine-changed": "Machine named or retired",
  "revision-declared": "Machine revision declared",
  "machine-placed": "Machine placed",
  "machine-inspected": "Machine inspected",
  "permit-signed": "Firing permit signed",
  "permit-withdrawn": "Firing permit taken back",
  "alarm-raised": "Alarm: a throw went too far",
  "incident-entered": "Incident entered",
  "incident-added": "Incident: more entered",
  "incident-noted": "Incident: more written down",
  "incident-erased": "Incident: what was written erased",
  "policy-set": "Policy set",
  "air-set": "Air set",
  "wind-read": "Wind read",
  "sheet-computed": "Hazard sheet computed",
  "round-made": "Firing order of a round made",
  "order-planned": "Firing order of the day planned",
  "turn-moved": "Turn moved in the firing order",
  "machine-times-set": "Times of a machine set",
  "fix-recorded": "Landing point entered",
  "fix-corrected": "Landing point corrected",
  "fix-held": "Landing point of an ended badge arrived, to confirm",
  "held-fix-confirmed": "Landing point of an ended badge confirmed",
  "held-fix-rejected": "Landing point of an ended badge rejected",
  "sighting-made": "Splash sighted by a spotter",
  "ruling-made": "Ruling",
  "protest-entered": "Protest entered",
  "mark-rule-set": "Mark rule set",
  "consent-added": "Consent entered",
  "consent-changed": "Consent changed",
  "safety-plan-set": "Safety plan set",
  "safety-file-frozen": "Safety file frozen",
  "hold-called": "Hold",
  "hold-late": "Hold that came late: not applied",
  "hold-lifted": "Hold lifted",
  "range-hot": "Range hot",
  "range-cold": "Range cold",
  "range-times-set": "Times of the range set",
  "post-clear": "Post said clear",
  "post-not-clear": "Post said not clear",
  "list-ticked": "Stand-clear list ticked",
  "tag-out": "Tag out",
  "tag-in": "Tag in",
  "tag-from-paper": "Tag out and in, from paper",
  "names-erased": "Names of the tally erased",
  "machine-state": "Machine’s state",
  "approach-named": "One person named who approaches a misfire",
  "rehearsal-started": "Rehearsal started",
  "rehearsal-cue": "Rehearsal: something went wrong, as played",
  "rehearsal-ended": "Rehearsal ended",
  "entry-link-made": "Link for teams to enter made",
  "entry-link-changed": "Link for teams to enter changed",
  "entry-sent": "Entry of a team sent",
  "entry-returned": "Entry of a team sent back to be completed",
  "entry-accepted": "Entry of a team accepted",
  "entry-refused": "Entry of a team refused",
  "guardian-form-seen": "Form signed by a guardian seen",
  "people-erased": "People’s data of an entry erased",
  "badge-made": "Badge made",
  "badge-code-made": "New code for a badge",
  "badge-end-set": "End of a badge set",
  "badge-revoked": "Badge revoked",
};

export const actWords = (act: string): string => ACTS[act] ?? act;

/** What an id stands for: names live outside the chain. */
export type NameOf = (id: unknown) => string | null;

type Body = Record<string, unknown>;

const text = (value: unknown): string => (typeof value === "string" ? value : "");

/** One line of what an entry says, from its hashed body and the names that its ids stand for. */
export function bodyWords(entry: ScorebookEntryInfo, nameOf: NameOf, system: UnitSystem): string {
  let body: Body;
  try {
    body = JSON.parse(entry.body) as Body;
  } catch {
    return "The text of this entry is no JSON any more.";
  }
  const distance = (value: unknown) =>
    typeof value === "number" ? formatQuantity(value, "distance", system, { digits: 2 }) : null;
  const fix = body.fix as { outcome?: unknown } | undefined;
  const parts = [
    nameOf(body.shot) ?? nameOf(body.machine) ?? nameOf(body.entrant) ?? nameOf(body.subject),
    fix && (distance(body.mark) ?? text(fix.outcome)),
    typeof body.bearing === "number" && entry.act === "sighting-made" && bearingText(body.bearing),
    typeof body.round === "number" && entry.act === "round-made" && `round ${body.round}`,
    typeof body.number === "number" && entry.act.startsWith("permit-") && `permit ${body.number}`,
    typeof body.outcome === "string" && body.outcome.replaceAll("-", " "),
    entry.act === "alarm-raised" && distance(body.distance),
    typeof body.decision === "string" && body.decision,
    typeof body.to === "string" &&
      entry.act === "machine-state" &&
      (body.to === "safe" ? "made safe" : body.to),
    typeof body.role === "string" && body.role.replace("-", " "),
    typeof body.kind === "string" && body.kind.replace("-", " "),
    Array.isArray(body.flags) && body.flags.length > 0 && `flagged ${body.flags.join(", ")}`,
    typeof body.reason === "string" && `reason: ${body.reason}`,
  ];
  return parts.filter(Boolean).join(" · ");
}
