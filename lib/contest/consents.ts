/**
 * The register of consents. Parties may be people, so what they are called stays out of the scorebook and is shown to
 * officials only; the entries carry ids, kinds, days and the feature.
 */
import {
  type ConsentGap,
  type ConsentInfo,
  type ConsentKind,
  type Consents,
  consentChange,
  consentRequest,
} from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import type { Days } from "../zones";
import { recorded } from "./consents-about";
import { daysOf, today } from "./days";
import { conflict, given, invalid, notFound, parse } from "./errors";
import { type ContestRow, contestBySlug } from "./find";
import { type Asker, mustBeAllowed } from "./roles";
import { newId } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

const KEEP = "keep the register of consents and the safety plan";
const SEE = "see consents, safety plan and safety files";

/** What everybody asks for, whatever lies on the site. Common practice, no source. */
const ALWAYS = ["landowner", "neighbour", "aerodrome", "fire-service", "insurer"] as const;

const TITLES: Record<ConsentKind, string> = {
  landowner: "landowner",
  neighbour: "neighbours",
  utility: "utility",
  road: "road authority",
  aerodrome: "local aerodrome",
  "fire-service": "fire service",
  insurer: "insurer",
  other: "others",
};

interface ConsentRow {
  id: string;
  kind: string;
  party: string;
  reference: string;
  featureId: string | null;
  givenOn: string | null;
  expiresOn: string | null;
  note: string;
  retired: boolean;
  feature: { name: string } | null;
}

/** Officials only. */
export async function listConsents(db: Database, actor: Asker, slug: string): Promise<Consents> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, SEE, contest.id);
  return consentsOf(db, contest);
}

/** The register with its gaps, for those who have been asked already. */
export async function consentsOf(db: Database, contest: ContestRow, now = today()): Promise<Consents> {
  const [rows, features] = await Promise.all([
    db.consent.findMany({ where: { contestId: contest.id }, include: { feature: true } }),
    db.siteFeature.findMany({
      where: { contestId: contest.id, retired: false, kind: { in: ["overhead-line", "road"] } },
      orderBy: { name: "asc" },
    }),
  ]);
  const consents = rows.map((row) => consentInfo(row, daysOf(contest), now)).sort(byUrgency);
  const current = consents.filter(({ retired }) => !retired);
  return {
    day: contest.date,
    lastDay: daysOf(contest).last,
    gaps: [...current.flatMap((consent) => gapOf(consent, daysOf(contest))), ...absent(current, features)],
    consents,
  };
}

export async function addConsent(call: Call, slug: string, body: unknown): Promise<Reply<ConsentInfo>> {
  const consent = parse(consentRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, KEEP, contest.id);
  mustBeInOrder(consent);
  return committed(call, contest.id, { act: "consent", contest: contest.id, consent }, async (tx, book) => {
    await mustBeHere(tx, contest.id, consent.featureId);
    const row = await tx.consent.create({
      data: { id: newId(), contestId: contest.id, ...consent },
      include: { feature: true },
    });
    await book.append("consent-added", row.id, recorded(row));
    return consentInfo(row, daysOf(contest), today());
  });
}

export async function changeConsent(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<ConsentInfo>> {
  const change = parse(consentChange, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, KEEP, contest.id);
  return committed(
    call,
    contest.id,
    { act: "change-consent", id, change },
    async (tx, book) => {
      const before = await tx.consent.findFirst({ where: { id, contestId: contest.id } });
      if (!before) throw notFound("consent");
      const data = given(change);
      if (before.lapsed && data.retired === false)
        throw conflict(
          "lapsed",
          "What this consent was about has been redrawn since. Ask again, and enter the new answer as a line of its own.",
        );
      mustBeInOrder({ ...before, ...data });
      await mustBeHere(tx, contest.id, change.featureId ?? null);
      const row = await tx.consent.update({ where: { id }, data, include: { feature: true } });
      await book.append("consent-changed", id, { from: recorded(before), to: recorded(row) });
      return consentInfo(row, daysOf(contest), today());
    },
    { status: 200 },
  );
}

function mustBeInOrder({ givenOn, expiresOn }: { givenOn: string | null; expiresOn: string | null }): void {
  if (givenOn && expiresOn && expiresOn < givenOn)
    throw invalid("expiresOn", `It cannot end on ${expiresOn}, before it was given on ${givenOn}.`);
}

async function mustBeHere(
  tx: DatabaseTransaction,
  contestId: string,
  featureId: string | null,
): Promise<void> {
  if (featureId && !(await tx.siteFeature.findFirst({ where: { id: featureId, contestId } })))
    throw invalid("featureId", "No site feature of this contest has this id.");
}

function consentInfo(row: ConsentRow, days: Days, now: string): ConsentInfo {
  const { id, party, reference, featureId, givenOn, expiresOn, note, retired } = row;
  return {
    id,
    kind: row.kind as ConsentKind,
    party,
    reference,
    featureId,
    featureName: row.feature?.name ?? null,
    givenOn,
    expiresOn,
    note,
    retired,
    state: stateOf(givenOn, expiresOn, days, now),
  };
}

function stateOf(
  givenOn: string | null,
  expiresOn: string | null,
  days: Days,
  now: string,
): ConsentInfo["state"] {
  if (!givenOn) return "missing";
  if (expiresOn && expiresOn < now) return "expired";
  if (expiresOn && expiresOn < days.last) return "too-short";
  // Who looks on the day itself must not be told that a consent of tomorrow holds.
  return givenOn > days.first ? "not-yet" : "holds";
}

const URGENCY: ConsentInfo["state"][] = ["missing", "expired", "too-short", "not-yet", "holds"];

const byUrgency = (a: ConsentInfo, b: ConsentInfo): number =>
  Number(a.retired) - Number(b.retired) ||
  URGENCY.indexOf(a.state) - URGENCY.indexOf(b.state) ||
  a.kind.localeCompare(b.kind) ||
  a.id.localeCompare(b.id);

/** What is wrong with one that stands in the register. Without the party: this goes into lists that travel. */
function gapOf(consent: ConsentInfo, { first, last }: Days): ConsentGap[] {
  const { id, kind, featureId, featureName, givenOn, expiresOn, state } = consent;
  if (state === "holds") return [];
  const about = `The consent of the ${TITLES[kind]}${featureName ? ` about ${featureName}` : ""}`;
  const text = {
    missing: `${about} has been asked for and is not given yet.`,
    expired: `${about} expired on ${expiresOn}.`,
    "too-short": `${about} ends on ${expiresOn}, before the contest ${first === last ? "on" : "is over on"} ${last}.`,
    "not-yet": `${about} holds only from ${givenOn}, after the contest ${first === last ? "on" : "begins on"} ${first}.`,
  }[state];
  return [{ kind, consentId: id, featureId, text }];
}

/** What nobody has entered at all. One that was asked for is told of already. */
function absent(
  current: readonly ConsentInfo[],
  features: readonly { id: string; kind: string; name: string }[],
): ConsentGap[] {
  const has = (kind: ConsentKind) => current.some((consent) => consent.kind === kind);
  const gap = (kind: ConsentKind, featureId: string | null, text: string) => [
    { kind, consentId: null, featureId, text },
  ];
  const lines = features.filter(({ kind }) => kind === "overhead-line");
  const roads = features.filter(({ kind }) => kind === "road");
  return [
    ...ALWAYS.filter((kind) => !has(kind)).flatMap((kind) =>
      gap(
        kind,
        null,
        `Nothing from the ${TITLES[kind]} is in the register. Ask, and enter the answer, also when it is that none is needed.`,
      ),
    ),
    ...lines
      .filter(({ id }) => !current.some((consent) => consent.kind === "utility" && consent.featureId === id))
      .flatMap(({ id, name }) =>
        gap("utility", id, `${name}: no agreement of this overhead line’s owner is in the register.`),
      ),
    ...(roads.length > 0 && !has("road")
      ? gap(
          "road",
          null,
          "Nothing from the road authority is in the register, and there are roads on the site.",
        )
      : []),
  ];
}
