/** Incidents: what failed, where pieces went, what is written of it. */
import { CONTEST, type RouteInfo } from "./shapes";

const ENTER = "enter an incident";
const SEE = "see incidents";
const ONE = `${CONTEST}/incidents/{id}`;

export const INCIDENTS: readonly RouteInfo[] = [
  {
    method: "get",
    path: `${CONTEST}/incidents`,
    summary: "All incidents, the newest first",
    who: SEE,
    answer: "Incidents",
  },
  {
    method: "post",
    path: `${CONTEST}/incidents`,
    summary: "Enter an incident with a machine, with one place where something came down if it is known",
    description:
      "The firing permit of the machine falls. A place that does not lie inside the machine's keep-out zone with all of its uncertainty, or beyond what its hazard sheet foresaw, puts the range on hold at once, however long ago it was seen; so does somebody who may be hurt, just now. The scorebook has no more of it than that one was entered for the machine.",
    who: ENTER,
    body: "IncidentRequest",
    answer: "IncidentReceipt",
    status: 201,
  },
  {
    method: "get",
    path: ONE,
    summary: "One incident: how the machine stood then, its places against its zone, the zone it would need",
    who: SEE,
    answer: "Incident",
  },
  {
    method: "post",
    path: `${ONE}/reports`,
    summary: "Correct what failed, whether anybody is hurt, or when it was",
    who: ENTER,
    body: "IncidentReportRequest",
    answer: "IncidentReceipt",
    status: 201,
  },
  {
    method: "post",
    path: `${ONE}/pieces`,
    summary: "Enter where something came down, correct a place, or take one back",
    who: ENTER,
    body: "IncidentPieceRequest",
    answer: "IncidentReceipt",
    status: 201,
    refusals: { 409: "Somebody has corrected the place meanwhile." },
  },
  {
    method: "get",
    path: `${ONE}/replays`,
    summary: "Which throws and failures of the machine lead to each of its places",
    description: "Computed when it is asked, within seconds.",
    who: SEE,
    answer: "IncidentReplays",
  },
  {
    method: "post",
    path: `${ONE}/words`,
    summary: "Write down an account, or what happened to a person",
    description: "Kept outside of the scorebook and erased on its day.",
    who: ENTER,
    body: "IncidentWordsRequest",
    answer: "IncidentReceipt",
    status: 201,
  },
  {
    method: "post",
    path: `${ONE}/words/erase`,
    summary: "Erase all that was written of an incident in words",
    who: "erase what was written of an incident",
    body: "Nothing",
    answer: "Erased",
  },
];
