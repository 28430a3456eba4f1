/** What the drawing shows, in words and numbers: distances, what is touched, features, points, policy and wind. */

import { keepOffBoth } from "@/app/_ui/kept-distance";
import { RULE_WORDS } from "@/app/_ui/site-editor/rules";
import { Table } from "@/app/_ui/table";
import { bearingText, coordinates } from "@/app/_ui/words";
import { conflictWords } from "@/app/_ui/zones/conflict-words";
import { kindTitle } from "@/app/_ui/zones/scene-of";
import { distancesOnPaper } from "@/app/_ui/zones/zone-distances";
import { namesOf, zoneless } from "@/app/_ui/zones/zoneless";
import type { PlanMachine, RangePlan } from "@/lib/api/contracts";
import { lackOfSheet } from "@/lib/api/contracts/machines";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { isLoosened, ruleOf, standOffOf } from "@/lib/zones/kinds";
import type { ZoneDistances } from "@/lib/zones/zone-distances";
import { agreedConflicts, keepOff, openConflicts } from "./plan-words";

export function DistanceTable({
  machines,
  firingPoints,
  system,
}: Pick<RangePlan, "firingPoints"> & {
  machines: readonly PlanMachine[];
  system: UnitSystem;
}) {
  const cell = (machine: PlanMachine, side: keyof ZoneDistances) => {
    const reaches = distancesOnPaper(machine, firingPoints);
    return reaches ? keepOffBoth(reaches[side], system) : "no sheet";
  };
  return (
    <Table
      caption="Keep-out distances from the firing point, its accuracy included, rounded up"
      hideCaption
      rows={machines}
      rowKey={({ id }) => id}
      empty="No machine has a firing point and a bearing yet."
      columns={[
        { key: "machine", head: "Machine", rowHead: true, cell: ({ name }) => name },
        { key: "team", head: "Team", cell: (one) => `${one.entrantNumber} ${one.entrantName}` },
        { key: "point", head: "Point", cell: ({ firingPointNumber }) => firingPointNumber },
        { key: "bearing", head: "Bearing, true", cell: ({ bearing }) => bearingText(bearing) },
        { key: "forward", head: "Forward", number: true, cell: (one) => cell(one, "forward") },
        { key: "backward", head: "Back", number: true, cell: (one) => cell(one, "backward") },
        { key: "side", head: "Side", number: true, cell: (one) => cell(one, "side") },
        {
          key: "apex",
          head: "Highest",
          number: true,
          cell: ({ apex }) => (apex === null ? "–" : keepOffBoth(apex, system)),
        },
      ]}
    />
  );
}

/** Every conflict that is open, or the sentence that there is none on this plan; then what is agreed in writing. */
export function ConflictWords({
  machines,
  system,
}: {
  machines: readonly PlanMachine[];
  system: UnitSystem;
}) {
  const open = openConflicts(machines);
  const agreed = agreedConflicts(machines);
  const drawn = machines.filter(({ exclusion }) => exclusion !== null);
  const missing = zoneless(machines);
  return (
    <>
      {missing.length > 0 && (
        <p>
          <strong>⚠ No zone is drawn for {namesOf(missing)}:</strong> what{" "}
          {missing.length === 1 ? "it touches" : "they touch"} is not known.
        </p>
      )}
      {open.length === 0 ? (
        <p>
          {drawn.length === 0
            ? "No zone is drawn yet."
            : `No protected feature on this plan is inside ${missing.length > 0 ? "one of the zones that are drawn" : "a zone"} or nearer than its stand-off without an agreement. That covers what is on the plan and what the zones assume; nothing else.`}
        </p>
      ) : (
        <>
          <p>
            <strong>Do not fire like this:</strong> turn or move the machine, close or clear the place, or
            throw less. The safety officer decides.
          </p>
          <ul>
            {open.map(({ machine, conflict }) => (
              <li key={`${machine.id} ${conflict.featureId}`}>
                <strong>
                  ⚠ {machine.name} and {conflict.name}
                </strong>{" "}
                ({kindTitle(conflict.kind).toLowerCase()}): the zone {conflictWords(conflict, system)}.
              </li>
            ))}
          </ul>
        </>
      )}
      {agreed.length > 0 && (
        <>
          <p>Agreed in writing, as the register of consents has it:</p>
          <ul>
            {agreed.map(({ machine, conflict }) => (
              <li key={`${machine.id} ${conflict.featureId}`}>
                {machine.name} and {conflict.name} ({kindTitle(conflict.kind).toLowerCase()}): the zone{" "}
                {conflictWords(conflict, system)}. The agreement{" "}
                {conflict.agreed?.expiresOn ? `ends on ${conflict.agreed.expiresOn}` : "names no end"}.
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

/** Who moves, or stays under cover, when a machine fires. */
export function StandClearTable({
  machines,
  system,
}: {
  machines: readonly PlanMachine[];
  system: UnitSystem;
}) {
  return (
    <Table
      caption="Who stands clear when each machine fires"
      hideCaption
      rows={machines}
      rowKey={({ id }) => id}
      empty="No machine has a firing point and a bearing yet."
      columns={[
        { key: "machine", head: "Machine", rowHead: true, cell: ({ name }) => name },
        {
          key: "who",
          head: "In its zone, with how deep",
          cell: ({ standClear, exclusion, state, reason }) =>
            exclusion === null
              ? `⚠ Not known, there is no zone: it must not fire. ${lackOfSheet({ state, reason })}`
              : standClear.length === 0
                ? "No firing point, shelter, post or path on this plan."
                : standClear
                    .map(
                      ({ name, machines: others, depth }) =>
                        `${name}${others.length > 0 ? ` (${others.map(({ machineName }) => machineName).join(", ")})` : ""} ${keepOff(depth, system)}`,
                    )
                    .join("; "),
        },
      ]}
    />
  );
}

/** Files frozen before anybody had to allow it hold what was asked for. */
const held = (feature: RangePlan["features"][number]) =>
  feature.allowance === undefined ? { ...feature, allowance: "as it was frozen" } : feature;

export function FeatureTable({ plan, system }: { plan: RangePlan; system: UnitSystem }) {
  return (
    <Table
      caption="Site features"
      hideCaption
      rows={plan.features.map(held)}
      rowKey={({ id }) => id}
      empty="No site feature is laid out yet."
      columns={[
        { key: "name", head: "Name", rowHead: true, cell: ({ name }) => name },
        { key: "kind", head: "Kind", cell: ({ kind }) => kindTitle(kind) },
        {
          key: "rule",
          head: "Rule",
          cell: (feature) => `${RULE_WORDS[ruleOf(feature)]}${feature.rule ? "" : ", by its kind"}`,
        },
        {
          key: "standOff",
          head: "Stand-off",
          cell: (feature) => formatQuantity(standOffOf(feature), "distance", system),
        },
        {
          key: "allowance",
          head: "Less than its kind, allowed by the safety officer",
          cell: (feature) =>
            isLoosened(feature) ? (feature.allowance ?? "not allowed: its kind’s hold") : "–",
        },
      ]}
    />
  );
}

export function PointTable({ plan }: { plan: RangePlan }) {
  const rows = [
    ...plan.firingPoints.map((point) => ({
      ...point,
      name: `Firing point ${point.number}${point.name ? `, ${point.name}` : ""}`,
    })),
    ...plan.controlPoints.map((point) => ({ ...point, name: `Control point ${point.name}` })),
  ];
  return (
    <Table
      caption="Firing points and control points"
      hideCaption
      rows={rows}
      rowKey={({ id }) => id}
      empty="No point is laid out yet."
      columns={[
        { key: "name", head: "Point", rowHead: true, cell: ({ name }) => name },
        { key: "place", head: "Latitude, longitude", cell: (point) => coordinates(point) },
      ]}
    />
  );
}

/** The policy that made the zones, and the wind for which they hold. */
export function PolicyWords({ plan, system }: { plan: RangePlan; system: UnitSystem }) {
  const { policy, air } = plan;
  const { minimum, angles } = policy;
  const angle = (value: number) => formatQuantity(value, "angle", system);
  const speed = (value: number) => formatQuantity(value, "speed", system);
  const wind = air.wind && Math.max(air.wind.speed, air.wind.gust ?? 0) > 0 ? air.wind : null;
  return (
    <ul>
      <li>
        Margin: {formatQuantity(policy.margin, "ratio", system)} times the worst first impact, then run-out on{" "}
        {policy.ground} ground.
      </li>
      <li>
        Nobody nearer than {keepOffBoth(minimum.forward, system)} ahead,{" "}
        {keepOffBoth(minimum.backward, system)} behind, {keepOffBoth(minimum.side, system)} to the side.
      </li>
      <li>
        Angles either way: aim {angle(angles.aim)}, lean and twist {angle(angles.lean)}, torn sling{" "}
        {angle(angles.tornSling)}, pieces of a machine that breaks {angle(angles.debris)}.
      </li>
      <li>
        {policy.hangUp
          ? "A projectile that hangs up and whirls on is counted."
          : `Hang-ups are left out: ${policy.hangUpReason ?? "no reason given"}`}
      </li>
      <li>
        {wind
          ? `Wind: the zones hold up to a mean of ${speed(wind.speed)} and gusts of ${speed(wind.gust ?? wind.speed)}, measured at ${formatQuantity(wind.height, "length", system)}. Above that nobody fires.`
          : "Wind: no limit is set, and the zones hold for still air only."}
      </li>
    </ul>
  );
}
