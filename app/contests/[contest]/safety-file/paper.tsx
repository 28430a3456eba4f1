/** The safety file as it is read and printed: what is missing first, then all that it rests on. */

import { Caution } from "@/app/_ui/caution";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { contestDays, instantText } from "@/app/_ui/words";
import type { SafetyFileAnswer, SafetyGap } from "@/lib/api/contracts";
import type { SafetyFileDraft } from "@/lib/contest";
import type { UnitSystem } from "@/lib/units";
import { BarrierTable } from "../barrier-table";
import { CONSENT_STATE_WORDS, CONSENT_TITLES } from "../organise/consents/words";
import { layoutOf } from "../range-plan/plan-scale";
import { PlanSheet } from "../range-plan/plan-sheet";
import {
  ConflictWords,
  DistanceTable,
  FeatureTable,
  PointTable,
  PolicyWords,
  StandClearTable,
} from "../range-plan/plan-tables";
import { groundOf, planView } from "../range-plan/plan-view";
import { actWords } from "../scorebook/words";
import { MachineSheets } from "./machine-sheets";
import { BriefingLines, PlanWords, Signatures, WeatherWords } from "./plan-words";
import styles from "./safety-file.module.css";

/** Fits A4 and Letter inside this page's margins, with its title above, mm. */
const SHEET = layoutOf({ width: 180, height: 228 }, "portrait");

/** Zones that can still be told apart one over the other. */
const READABLE = 8;

export function SafetyPaper({
  body,
  frozen,
  system,
}: {
  body: SafetyFileDraft & { note?: string };
  frozen: SafetyFileAnswer | null;
  system: UnitSystem;
}) {
  const { range, plan } = body;
  const { contest, machines } = range;
  const ground = groundOf(range, machines);
  // A draft stands on the page that lists the frozen ones.
  const Title = frozen ? "h1" : "h2";
  return (
    <div className={styles.paper}>
      <style>{printStyle(frozen)}</style>
      <Title>
        Safety file{frozen ? ` ${frozen.number}` : ""}: {contest.name}
      </Title>
      <p>
        {[contest.place, contestDays(contest)].filter(Boolean).join(", ")}
        {body.note && (
          <>
            <br />
            {body.note}
          </>
        )}
        {contest.demo && (
          <>
            <br />
            An invented contest, to try things out.
          </>
        )}
      </p>
      {frozen ? <FrozenWords file={frozen} /> : <DraftWords sequence={range.scorebook.sequence} />}
      <Missing gaps={body.missing} />
      {frozen && <ChangedSince file={frozen} />}

      <section className={styles.page}>
        <h2>Range plan</h2>
        {ground ? (
          <PlanSheet
            plan={range}
            machines={machines}
            together={machines.length > READABLE}
            view={planView(range, ground, SHEET.map, null, system)}
            layout={SHEET}
            system={system}
            paper="A4 or Letter"
          />
        ) : (
          <p>Nothing is laid out yet.</p>
        )}
      </section>
      <h2>Keep-out distances from the firing point, its accuracy included, rounded up</h2>
      <DistanceTable machines={machines} firingPoints={range.firingPoints} system={system} />
      <Caution title="failures may exceed every zone">
        <p>{range.caution}</p>
      </Caution>
      <h2>What the zones touch</h2>
      <ConflictWords machines={machines} system={system} />
      <h2>Who stands clear when each machine fires</h2>
      <StandClearTable machines={machines} system={system} />
      <h2>Site features</h2>
      <FeatureTable plan={range} system={system} />
      {range.barriers && range.barriers.length > 0 && (
        <BarrierTable barriers={range.barriers} system={system} />
      )}
      <h2>Firing points and control points</h2>
      <PointTable plan={range} />

      <h2>Policy</h2>
      <SetBy what="The policy" set={body.policySetBy} />
      <PolicyWords plan={range} system={system} />
      <SetBy what="The wind limit" set={body.airSetBy} />

      <h2>Hazard sheets</h2>
      <MachineSheets machines={machines} firingPoints={range.firingPoints} system={system} />

      <section className={styles.page}>
        <h2>Weather limits</h2>
        <WeatherWords air={range.air} plan={plan} system={system} />
        <h2>Emergency plan</h2>
        {plan ? <PlanWords plan={plan} /> : <p>No safety plan is written.</p>}
      </section>

      <h2>Register of consents</h2>
      <Table
        caption="Register of consents"
        hideCaption
        rows={body.consents}
        rowKey={({ id }) => id}
        empty="Nothing is entered."
        columns={[
          { key: "party", head: "Who", rowHead: true, cell: ({ party }) => party },
          { key: "kind", head: "Kind", cell: ({ kind }) => CONSENT_TITLES[kind] },
          { key: "about", head: "About", cell: ({ featureName }) => featureName ?? "the whole range" },
          { key: "state", head: "State", cell: ({ state }) => CONSENT_STATE_WORDS[state] },
          { key: "given", head: "Given", cell: ({ givenOn }) => givenOn ?? "not yet" },
          { key: "until", head: "Until", cell: ({ expiresOn }) => expiresOn ?? "no end" },
          {
            key: "paper",
            head: "Paper, note",
            cell: ({ reference, note }) => [reference, note].filter(Boolean).join("; ") || "–",
          },
        ]}
      />

      <section className={styles.page}>
        <h2>Briefings and signatures</h2>
        {plan && <BriefingLines plan={plan} />}
        <Signatures />
      </section>
    </div>
  );
}

/** Loose pages must find each other again: number, hash and page at the foot. Only digits and hexadecimals. */
const printStyle = (frozen: SafetyFileAnswer | null) => `@media print {
  .masthead { display: none; }
  @page {
    @bottom-center {
      font: 8pt sans-serif;
      content: "${frozen ? `Safety file ${frozen.number}, ${frozen.hash.slice(0, 16)}` : "Safety file, draft"}, page " counter(page) " of " counter(pages);
    }
  }
}`;

function FrozenWords({ file }: { file: SafetyFileAnswer }) {
  return (
    <>
      <p>
        Frozen {instantText(file.createdAt)} by {file.by}, on scorebook entry{" "}
        {file.body.range.scorebook.sequence}. SHA-256 of its text:{" "}
        <span className={styles.hash}>{file.hash}</span>
      </p>
      {!file.holds && (
        <Caution kind="prohibition" title="do not rely on this file">
          <p>
            Its text no longer has the hash that it was frozen with, or the scorebook has another. Somebody
            changed the database.
          </p>
        </Caution>
      )}
    </>
  );
}

const DraftWords = ({ sequence }: { sequence: number }) => (
  <p>
    <strong>Draft, not frozen.</strong> As things stood at scorebook entry {sequence}; it changes with them.
  </p>
);

const GROUPS: [string, readonly SafetyGap["code"][]][] = [
  ["Site and machines", ["site", "machine", "sheet"]],
  ["Conflicts that are open", ["conflict"]],
  ["Policy and wind", ["policy", "wind"]],
  ["Safety plan", ["plan"]],
  ["Consents", ["consent"]],
  ["Signatures", ["signature"]],
];

function Missing({ gaps }: { gaps: readonly SafetyGap[] }) {
  return (
    <section aria-labelledby="missing-title">
      <h2 id="missing-title">What is missing</h2>
      {GROUPS.map(([title, codes]) => {
        const found = gaps.filter(({ code }) => codes.includes(code));
        return (
          found.length > 0 && (
            <div key={title}>
              <h3>{title}</h3>
              <ul>
                {found.map(({ text }) => (
                  <li key={text}>{text}</li>
                ))}
              </ul>
            </div>
          )
        );
      })}
    </section>
  );
}

/** Names from the frozen file itself: what is newer has none in it. */
function ChangedSince({ file }: { file: SafetyFileAnswer }) {
  const { features, firingPoints, machines } = file.body.range;
  const names = new Map([
    ...features.map(({ id, name }) => [id, name] as const),
    ...firingPoints.map(({ id, number }) => [id, `firing point ${number}`] as const),
    ...machines.map(({ id, name }) => [id, name] as const),
  ]);
  return (
    <section aria-labelledby="changed-title">
      <h2 id="changed-title">Changed since</h2>
      {file.changedSince.length === 0 ? (
        <p>Nothing that this file rests on has been changed since it was frozen.</p>
      ) : (
        <Notice title="This file no longer says how things stand">
          <ul>
            {file.changedSince.map(({ sequence, act, subjectId, by, at }) => (
              <li key={sequence}>
                {[actWords(act), names.get(subjectId)].filter(Boolean).join(": ")}, {instantText(at)} by {by}
              </li>
            ))}
          </ul>
        </Notice>
      )}
    </section>
  );
}

function SetBy({ what, set }: { what: string; set: SafetyFileDraft["policySetBy"] }) {
  if (!set) return <p>{what} is as the contest was made: no safety officer has set it.</p>;
  return (
    <p>
      {what} was set by {set.by} on {instantText(set.at)}
      {set.reason && `: ${set.reason.replace(/\.$/, "")}`}.
    </p>
  );
}
