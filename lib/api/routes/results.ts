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
      "A correction names the entry it replaces, which is kept, and the reason. What looks odd is recorded with flags.",
    who: "record a fix",
    body: "FixRequest",
    answer: "Fix",
    status: 201,
    refusals: {
      409: "Somebody was faster: their entry stands, as `current` beside `sent`. Send yours as a correction of it.",
    },
  },
  {
    method: "post",
    path: `${CONTEST}/rulings`,
    summary: "Rule on an entrant or on a shot",
    description: "On a shot only organisers and safety officers rule. The newest ruling of a subject counts.",
    who: "rule on an entrant",
    body: "RulingRequest",
    answer: "Ruling",
    status: 201,
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
];
