/** Site features: laying them out, which is the organiser's, and what of their protection the safety officer allows. */
import type { z } from "zod";
import {
  featureAllowance,
  featureChange,
  featureRequest,
  type featureSchema,
  type SiteGeometry,
} from "../api/contracts";
import { isLoosened } from "../zones";
import { retireConsentsAbout } from "./consents-about";
import { conflict, parse } from "./errors";
import { contestBySlug, featureIn } from "./find";
import { fitting, mustKeepRule } from "./fitting";
import { contestToLayOut } from "./layout";
import { mustBeAllowed } from "./roles";
import { canonical, newId } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

export type FeatureInfo = z.infer<typeof featureSchema>;
type FeatureRow = Omit<Awaited<ReturnType<typeof featureIn>>, "contestId">;

export async function addFeature(call: Call, slug: string, body: unknown): Promise<Reply<FeatureInfo>> {
  const feature = parse(featureRequest, body);
  const contest = await contestToLayOut(call, slug);
  const geometry = fitting(contest, feature.kind, feature.geometry);
  return committed(call, contest.id, { act: "feature", contest: contest.id, feature }, async (tx, book) => {
    const { kind, name, standOff, rule } = feature;
    mustKeepRule(kind, rule);
    const row = await tx.siteFeature.create({
      data: {
        id: newId(),
        contestId: contest.id,
        kind,
        name,
        geometry: JSON.stringify(geometry),
        standOff,
        rule,
      },
    });
    await book.append("feature-added", row.id, { kind, name, geometry, standOff, rule });
    return featureInfo(row);
  });
}

/**
 * What it was before stays in the scorebook. Retiring is how a feature is taken off the map. What was allowed of its
 * protection was allowed as it lay: with another rule, stand-off or shape it is to be allowed again.
 */
export async function changeFeature(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<FeatureInfo>> {
  const change = parse(featureChange, body);
  const contest = await contestToLayOut(call, slug);
  return committed(
    call,
    contest.id,
    { act: "change-feature", id, change },
    async (tx, book) => {
      const before = await featureIn(tx, contest.id, id);
      const {
        name = before.name,
        standOff = before.standOff,
        rule = before.rule,
        retired = before.retired,
      } = change;
      mustKeepRule(before.kind, rule);
      const geometry = change.geometry
        ? JSON.stringify(fitting(contest, before.kind, change.geometry))
        : before.geometry;
      const same = standOff === before.standOff && rule === before.rule && geometry === before.geometry;
      const allowance = same ? before.allowance : null;
      const row = await tx.siteFeature.update({
        where: { id },
        data: { name, standOff, rule, retired, geometry, allowance },
      });
      await book.append("feature-changed", id, { from: contents(before), to: contents(row) });
      if (geometry !== before.geometry) await retireConsentsAbout(tx, book, id);
      return featureInfo(row);
    },
    { status: 200 },
  );
}

/** Lets a feature be protected less than its kind is by itself, or takes that back. The safety officer's alone. */
export async function allowProtection(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<FeatureInfo>> {
  const asked = parse(featureAllowance, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "allow a looser protection", contest.id);
  return committed(
    call,
    contest.id,
    { act: "allowance", id, asked },
    async (tx, book) => {
      const before = featureInfo(await featureIn(tx, contest.id, id));
      const { name, rule, standOff } = before;
      if (asked.allowed && !isTheSame(asked, before))
        throw conflict(
          "changed-meanwhile",
          `${name} was changed while you read it, and nothing was allowed. Look at it again.`,
        );
      if (asked.allowed && !isLoosened(before))
        throw conflict(
          "nothing-to-allow",
          `${name} is protected as much as its kind: there is nothing to allow.`,
        );
      if (!asked.allowed && !before.allowance)
        throw conflict(
          "not-allowed-yet",
          `Nothing has been allowed for ${name}: there is nothing to take back.`,
        );
      const { reason } = asked;
      const row = await tx.siteFeature.update({
        where: { id },
        data: { allowance: asked.allowed ? reason : null },
      });
      await book.append(asked.allowed ? "protection-allowed" : "allowance-withdrawn", id, {
        rule,
        standOff,
        reason,
      });
      return featureInfo(row);
    },
    { status: 200 },
  );
}

function isTheSame(
  read: Extract<z.output<typeof featureAllowance>, { allowed: true }>,
  now: FeatureInfo,
): boolean {
  const { rule, standOff, geometry } = read;
  return rule === now.rule && standOff === now.standOff && canonical(geometry) === canonical(now.geometry);
}

function contents(row: Omit<FeatureRow, "id" | "kind">) {
  const { name, standOff, rule, allowance, retired } = row;
  return { name, standOff, rule, allowance, retired, geometry: JSON.parse(row.geometry) as unknown };
}

export function featureInfo(row: FeatureRow): FeatureInfo {
  const { id, name, standOff, allowance, retired } = row;
  return {
    id,
    kind: row.kind as FeatureInfo["kind"],
    name,
    geometry: JSON.parse(row.geometry) as SiteGeometry,
    standOff,
    rule: row.rule as FeatureInfo["rule"],
    allowance,
    retired,
  };
}
