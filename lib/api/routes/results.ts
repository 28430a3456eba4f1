/** Shots, rulings, standings and the scorebook. */
import * as contracts from "../contracts";
import { CONTEST, type RouteInfo } from "./shapes";

export const RESULTS: readonly RouteInfo[] = [
  {
    method: "post",
    path: `${CONTEST}/rounds`,
    summary: "Make the firing order of a round",
    who: "make a firing order",
    body: "RoundRequest",
    answer: "Shots",
    status: 201,
    refusals: { 409: "Every machine on the firing line has its shot already." },
  },
  {
    method: "get",
    path: `${CONTEST}/shots`,
    summary: "Shots of a round in firing order",
    query: contracts.shotsQuery,
    answer: "Shots",
  },
  {
    method: "get",
    path: `${CONTEST}/shots/{id}`,
    summary: "One shot with every fix and ruling",
    answer: "ShotHistory",
  },
  {
    method: "post",
    path: `${CONTEST}/shots/{id}/fixes`,
    summary: "Record where a shot landed, or correct it",
    description:
      "A correction names the entry it replaces, which is kept, and the reason. Without that it is one more entry of the shot: those that agree are combined by weight, those that disagree give no mark until a correction or a ruling. What looks odd, and what gives no point, is recorded with flags. A session whose badge has ended (revoked, past its end, or replaced by another device) may still deliver what was observed before that: it is held to be confirmed, as `held` in the answer says, and counts nowhere until then.",
    who: "record a fix",
    body: "FixRequest",
    answer: "Fix",
    status: 201,
    refusals: {
      403: "This badge may not, ended before this was observed, or has as many entries waiting to be confirmed as it may.",
      409: "Somebody has corrected the same entry: theirs stands, as `current` beside `sent`. Send yours as a correction of it. Or the machine was placed elsewhere meanwhile.",
    },
  },
  {
    method: "get",
    path: `${CONTEST}/held-fixes`,
    summary: "Entries of ended badges that wait to be confirmed, oldest first",
    who: "confirm an entry of an ended badge",
    answer: "HeldFixes",
  },
  {
    method: "post",
    path: `${CONTEST}/held-fixes/{id}/decision`,
    summary: "Confirm or reject an entry of an ended badge",
    description:
      "Once, for good. Confirmed, it counts as an entry of its shot from now on; afterwards it is corrected as any other.",
    who: "confirm an entry of an ended badge",
    body: "HeldDecisionRequest",
    answer: "Fix",
    status: 201,
    refusals: {
      409: "It was decided already, or cannot be confirmed as it stands: what it corrects was corrected meanwhile, a re-throw made it void, or what it was measured from was moved.",
    },
  },
  {
    method: "post",
    path: `${CONTEST}/shots/{id}/sightings`,
    summary: "Send the bearing in which a post saw a shot land",
    description:
      "Append-only, and may come late. The newest of a post counts; a null bearing takes back what it had sent. With two posts or more the shot has a rough point.",
    who: "sight a splash",
    body: "SightingRequest",
    answer: "Sighting",
    status: 201,
  },
  {
    method: "get",
    path: `${CONTEST}/sightings`,
    summary: "The shots sighted last, newest first, with their sightings and rough points",
    answer: "Splashes",
  },
  {
    method: "post",
    path: `${CONTEST}/rulings`,
    summary: "Rule on an entrant, on a shot or on a protest",
    description:
      "On a shot and on a protest only organisers and safety officers rule. The newest ruling of a subject counts. A re-throw makes what was entered before it void, until a `stands` that comes before anything is entered anew; a `stands` with `fixId` says which of several entries counts; `protestId` names the protest that is answered.",
    who: "rule on an entrant",
    body: "RulingRequest",
    answer: "Ruling",
    status: 201,
  },
  {
    method: "get",
    path: `${CONTEST}/protests`,
    summary: "Protests with the rulings that answer them, newest first",
    answer: "Protests",
  },
  {
    method: "post",
    path: `${CONTEST}/protests`,
    summary: "Enter a protest against a shot or the standings",
    description:
      "A team its own, an official for any team. After the deadline only an official, with `lateReason`.",
    who: "enter a protest",
    body: "ProtestRequest",
    answer: "Protest",
    status: 201,
    refusals: { 409: "The time for protests has ended: only an official may take it in." },
  },
  {
    method: "get",
    path: `${CONTEST}/mark-rule`,
    summary: "How landing points become marks",
    answer: "MarkRule",
  },
  {
    method: "put",
    path: `${CONTEST}/mark-rule`,
    summary: "Set how landing points become marks",
    description: "Once there are entries a reason is needed; their marks follow the new rule at once.",
    who: "set the mark rule",
    body: "MarkRuleRequest",
    answer: "MarkRule",
  },
  {
    method: "get",
    path: `${CONTEST}/standings`,
    summary: "Standings by division and overall",
    answer: "Standings",
  },
  {
    method: "get",
    path: `${CONTEST}/scorebook`,
    summary: "The scorebook, newest first",
    query: contracts.scorebookQuery,
    answer: "Scorebook",
  },
  {
    method: "get",
    path: `${CONTEST}/scorebook/file`,
    summary: "The whole scorebook as a file",
    description:
      "Oldest first, a line of JSON for each entry: sequence, previousHash, hash and body, with hash = SHA-256(previousHash, a line feed, body). `npm run scorebook:verify -- --file` checks it, and so can anyone.",
    answer: "ScorebookFile",
    mediaType: "application/x-ndjson",
  },
];
