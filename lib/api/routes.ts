/** Every route of /api/v1 in one table: what it is for, who may, what it takes and gives. The OpenAPI document is it. */
import { z } from "zod";
import type { Act } from "../contest/roles";
import {
  dispersionRequestSchema,
  dispersionSchema,
  hazardRequestSchema,
  hazardSheetSchema,
  replayRequestSchema,
  replaySchema,
} from "../throw/contracts";
import * as contracts from "./contracts";

/** Named shapes: requests as they may be sent, answers as they are given. */
export const REQUESTS = {
  HazardRequest: hazardRequestSchema,
  DispersionRequest: dispersionRequestSchema,
  ReplayRequest: replayRequestSchema,
  ContestRequest: contracts.contestRequest,
  SetupRequest: contracts.setupRequest,
  SignInRequest: contracts.signInRequest,
  DivisionRequest: contracts.divisionRequest,
  EntrantRequest: contracts.entrantRequest,
  FiringPointRequest: contracts.firingPointRequest,
  FiringPointMove: contracts.firingPointMove,
  FeatureRequest: contracts.featureRequest,
  FeatureChange: contracts.featureChange,
  MachineRequest: contracts.machineRequest,
  RevisionRequest: contracts.revisionRequest,
  PlacementRequest: contracts.placementRequest,
  PolicyRequest: contracts.policyRequest,
  AirRequest: contracts.airRequest,
  RoundRequest: contracts.roundRequest,
  FixRequest: contracts.fixRequest,
  RulingRequest: contracts.rulingRequest,
  BadgeRequest: contracts.badgeRequest,
  /** Where the address and the key say all. */
  Nothing: z.strictObject({}),
} as const;

export const ANSWERS = {
  Problem: contracts.problemSchema,
  HazardSheet: hazardSheetSchema,
  Dispersion: dispersionSchema,
  Replay: replaySchema,
  ContestList: z.object({ contests: z.array(contracts.contestSummarySchema) }),
  Contest: contracts.contestOverviewSchema,
  NewContest: contracts.newContestSchema,
  Me: contracts.meSchema,
  Division: contracts.divisionSchema,
  Entrant: contracts.entrantSchema,
  FiringPoint: contracts.firingPointSchema,
  Feature: contracts.featureSchema,
  Machine: contracts.machineSchema,
  MachinePage: contracts.machinePageSchema,
  Revision: contracts.revisionSchema,
  Sheet: contracts.sheetAnswerSchema,
  Policy: z.object({ policy: contracts.contestPolicySchema }),
  Air: contracts.airRequest.pick({ air: true }),
  Zones: contracts.zonesSchema,
  Shots: contracts.shotsSchema,
  ShotHistory: contracts.shotHistorySchema,
  Fix: contracts.fixAnswerSchema,
  Ruling: contracts.rulingSchema,
  Standings: contracts.standingsSchema,
  Scorebook: contracts.scorebookSchema,
  BadgeList: z.object({ badges: z.array(contracts.badgeSchema) }),
  Badge: contracts.badgeSchema,
  NewBadge: contracts.newBadgeSchema,
  LiveChange: contracts.liveChangeSchema,
  Document: z.looseObject({ openapi: z.string() }),
} as const;

export interface RouteInfo {
  method: "get" | "post" | "put" | "patch";
  /** Below /api/v1. */
  path: string;
  summary: string;
  description?: string;
  /** The line of the role table; open to all without one. */
  who?: Act;
  body?: keyof typeof REQUESTS;
  query?: z.ZodObject;
  answer: keyof typeof ANSWERS;
  /** 200 without one. */
  status?: 200 | 201;
  /** application/json without one. */
  mediaType?: string;
  /** Changes nothing, so it needs no key though it is no GET. */
  keyless?: true;
  /** Whoever accepts text/event-stream gets events `progress`, then `answer` or `problem`. */
  tellsProgress?: true;
  /** Refusals beyond those that every such route has. */
  refusals?: Record<number, string>;
}

const TAKEN = { 409: "Another one has this name or number." };
const WRONG_CODE = {
  401: "The code opens nothing, or was revoked.",
  429: "Too many wrong codes; Retry-After says when to try again.",
};
const BUSY = {
  503: "Too many ask at once, or this machine takes too long; Retry-After says when to try again.",
};
const LAY_OUT = "lay out divisions, entrants, firing points and site features";
const SEE_MACHINE = "see a machine's declaration and sheet";
const CONTEST = "/contests/{contest}";
const MACHINE = `${CONTEST}/machines/{id}`;

export const ROUTES: readonly RouteInfo[] = [
  {
    method: "post",
    path: "/hazard",
    summary: "Compute a hazard sheet",
    description:
      "Stateless, for anyone, without a key. How far one machine throws as meant and on its worst day, and from where people must stay away. What it does not model is in `notModelled`. Failures may go farther: the safety officer and local codes decide.",
    body: "HazardRequest",
    answer: "HazardSheet",
    keyless: true,
    tellsProgress: true,
    refusals: BUSY,
  },
  {
    method: "post",
    path: "/dispersion",
    summary: "Compute where ordinary throws land",
    description:
      "Stateless, for anyone, without a key. Seeded draws within the tolerances and the wind, each let go as meant: percentiles, the ellipse, chances of crossing a line or entering an area with their standard errors. The same request gives the same numbers. It is no worst case and never makes a zone smaller.",
    body: "DispersionRequest",
    answer: "Dispersion",
    keyless: true,
    refusals: BUSY,
  },
  {
    method: "post",
    path: "/replay",
    summary: "Ask what explains where something landed",
    description:
      "Stateless, for anyone, without a key. Release instants, corners of the tolerances and failures of one machine that bring its projectile, a piece of it or a part of the machine down at a place, those first that need least to go wrong. Several may fit and none is proven; when nothing fits, the model or what was declared is wrong and the range holds.",
    body: "ReplayRequest",
    answer: "Replay",
    keyless: true,
    refusals: BUSY,
  },
  {
    method: "get",
    path: "/openapi.json",
    summary: "This document",
    answer: "Document",
  },
  { method: "get", path: "/contests", summary: "All contests", answer: "ContestList" },
  {
    method: "post",
    path: "/contests",
    summary: "Make another contest",
    description: "Its first organiser's badge comes with it; the code is shown this once.",
    who: "create another contest",
    body: "ContestRequest",
    answer: "NewContest",
    status: 201,
    refusals: TAKEN,
  },
  {
    method: "post",
    path: "/setup",
    summary: "Make the first contest",
    description: "With the setup code that the terminal shows at the start. It works once.",
    body: "SetupRequest",
    answer: "NewContest",
    status: 201,
    refusals: { ...WRONG_CODE, ...TAKEN },
  },
  {
    method: "post",
    path: "/sign-in",
    summary: "Sign in with a badge's code",
    description: "Sets the session's cookie.",
    body: "SignInRequest",
    answer: "Me",
    refusals: WRONG_CODE,
  },
  { method: "post", path: "/sign-out", summary: "Sign out", body: "Nothing", answer: "Me" },
  { method: "get", path: "/me", summary: "Who is signed in", answer: "Me" },
  {
    method: "get",
    path: CONTEST,
    summary: "A contest with everything laid out and entered",
    answer: "Contest",
  },
  {
    method: "post",
    path: `${CONTEST}/divisions`,
    summary: "Add a division",
    who: LAY_OUT,
    body: "DivisionRequest",
    answer: "Division",
    status: 201,
    refusals: TAKEN,
  },
  {
    method: "post",
    path: `${CONTEST}/entrants`,
    summary: "Add an entrant",
    who: LAY_OUT,
    body: "EntrantRequest",
    answer: "Entrant",
    status: 201,
    refusals: TAKEN,
  },
  {
    method: "post",
    path: `${CONTEST}/firing-points`,
    summary: "Add a firing point",
    who: LAY_OUT,
    body: "FiringPointRequest",
    answer: "FiringPoint",
    status: 201,
    refusals: TAKEN,
  },
  {
    method: "patch",
    path: `${CONTEST}/firing-points/{id}`,
    summary: "Move a firing point",
    who: LAY_OUT,
    body: "FiringPointMove",
    answer: "FiringPoint",
    refusals: { 409: "Shots from there have been measured." },
  },
  {
    method: "post",
    path: `${CONTEST}/features`,
    summary: "Add a site feature",
    who: LAY_OUT,
    body: "FeatureRequest",
    answer: "Feature",
    status: 201,
  },
  {
    method: "patch",
    path: `${CONTEST}/features/{id}`,
    summary: "Change or retire a site feature",
    description: "What it was before stays in the scorebook.",
    who: LAY_OUT,
    body: "FeatureChange",
    answer: "Feature",
  },
  {
    method: "post",
    path: `${CONTEST}/machines`,
    summary: "Enter a machine",
    who: "enter a machine",
    body: "MachineRequest",
    answer: "Machine",
    status: 201,
    refusals: TAKEN,
  },
  {
    method: "get",
    path: MACHINE,
    summary: "A machine with its revisions and sheets",
    who: SEE_MACHINE,
    answer: "MachinePage",
  },
  {
    method: "post",
    path: `${MACHINE}/revisions`,
    summary: "Declare a new revision of a machine",
    description: "Append-only. The sheet of the one before is stale from now on.",
    who: "declare a machine revision",
    body: "RevisionRequest",
    answer: "Revision",
    status: 201,
  },
  {
    method: "patch",
    path: `${MACHINE}/placement`,
    summary: "Place a machine at a firing point with a bearing",
    who: "place a machine",
    body: "PlacementRequest",
    answer: "Machine",
  },
  {
    method: "get",
    path: `${MACHINE}/sheet`,
    summary: "The current hazard sheet of a machine",
    description: "Waits some seconds for one that is missing; `state` says what there is.",
    who: SEE_MACHINE,
    answer: "Sheet",
  },
  {
    method: "put",
    path: `${CONTEST}/policy`,
    summary: "Set the margins and angles",
    who: "set the policy",
    body: "PolicyRequest",
    answer: "Policy",
  },
  {
    method: "put",
    path: `${CONTEST}/air`,
    summary: "Set the air and the strongest wind in which machines may fire",
    who: "set the air",
    body: "AirRequest",
    answer: "Air",
  },
  {
    method: "get",
    path: `${CONTEST}/zones`,
    summary: "Keep-out zones of every placed machine, and what they touch",
    answer: "Zones",
    mediaType: "application/geo+json",
  },
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
  {
    method: "get",
    path: `${CONTEST}/live`,
    summary: "What changes, as server-sent events",
    description:
      "Events `change` carry a LiveChange as data and its sequence as id; events `heartbeat` come every few seconds. Last-Event-ID is understood.",
    query: contracts.liveQuery,
    answer: "LiveChange",
    mediaType: "text/event-stream",
    refusals: { 503: "Too many pages listen already." },
  },
  {
    method: "get",
    path: `${CONTEST}/badges`,
    summary: "Badges of a contest",
    who: "make and revoke badges",
    answer: "BadgeList",
  },
  {
    method: "post",
    path: `${CONTEST}/badges`,
    summary: "Make a badge",
    description: "The code is shown this once.",
    who: "make and revoke badges",
    body: "BadgeRequest",
    answer: "NewBadge",
    status: 201,
  },
  {
    method: "post",
    path: `${CONTEST}/badges/{id}/revoke`,
    summary: "Revoke a badge",
    description: "Ends its sessions at once; what it entered before stands.",
    who: "make and revoke badges",
    body: "Nothing",
    answer: "Badge",
  },
];
