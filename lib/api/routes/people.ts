/** Contests, who is signed in, badges, what is live. */
import * as contracts from "../contracts";
import { CONTEST, type RouteInfo, TAKEN } from "./shapes";

const WRONG_CODE = {
  401: "The code opens nothing, has signed in a device already, or its badge has ended or was revoked.",
  429: "Too many wrong codes; Retry-After says when to try again.",
};

export const PEOPLE: readonly RouteInfo[] = [
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
    refusals: { 401: "The code opens nothing.", 429: WRONG_CODE[429], ...TAKEN },
  },
  {
    method: "post",
    path: "/sign-in",
    summary: "Sign in with a badge's code",
    description:
      "Sets the session's cookie. A code signs in one device, once, unless its badge is reusable; the same request with the same Idempotency-Key is answered again.",
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
    method: "patch",
    path: `${CONTEST}/badges/{id}`,
    summary: "Set a badge's end",
    description: "Also of one that has ended: its devices go on then.",
    who: "make and revoke badges",
    body: "BadgeChange",
    answer: "Badge",
    refusals: { 409: "It was revoked." },
  },
  {
    method: "post",
    path: `${CONTEST}/badges/{id}/code`,
    summary: "Make a new code for a badge",
    description:
      "For a device that lost its sign-in, or one more. The code before works no more; the new one is shown this once.",
    who: "make and revoke badges",
    body: "CodeRequest",
    answer: "NewBadge",
    status: 201,
    refusals: { 409: "It was revoked, or has ended." },
  },
  {
    method: "get",
    path: `${CONTEST}/sign-ins`,
    summary: "Who signed in, and who tried a code that opens no more",
    query: contracts.signInsQuery,
    who: "make and revoke badges",
    answer: "SignIns",
  },
  {
    method: "post",
    path: `${CONTEST}/badges/{id}/revoke`,
    summary: "Revoke a badge",
    description:
      "Ends what its sessions may do at once; what it entered before stands. What its phones had observed before and deliver later is held to be confirmed.",
    who: "make and revoke badges",
    body: "Nothing",
    answer: "Badge",
  },
];
