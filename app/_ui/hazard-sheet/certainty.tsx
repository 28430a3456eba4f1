/** How sure the sheet is: the search, what matters most, ordinary dispersion, and what measured throws say. */
import type { ReactNode } from "react";
import type { Calibration, Dispersion, HazardSheet } from "@/lib/throw";
import { formatQuantity, formatUncertain, type UnitSystem } from "@/lib/units";
import { Caution } from "../caution";
import { Table } from "../table";
import { Notes } from "./breaks";
import { Fold } from "./fold";
import { distanceText, type Heading, parameterWords, percentText, withinText } from "./words";

export function Certainty({
  sheet,
  system,
  assumed,
  part: Part,
}: {
  sheet: HazardSheet;
  system: UnitSystem;
  /** Whether a parameter's tolerance was taken by default; null when the declaration is not known. */
  assumed: ((name: string) => boolean) | null;
  part: Heading;
}) {
  const { search, worst, dispersion, calibration } = sheet;
  const { varied, machines } = search;
  const stretched = Math.max(worst.forward.allowance ?? 0, worst.backward.allowance ?? 0);
  return (
    <section>
      <Part>How sure</Part>
      <p>
        {varied ? (
          varied.length === 0 ? (
            "Every dimension and mass was declared exact."
          ) : (
            <>
              {count(machines)} machines within the tolerances were tried; worst throws are stretched by up to{" "}
              <strong>{percentText(stretched)}</strong> for what that may have missed.
            </>
          )
        ) : (
          "An earlier version computed this sheet at the declared numbers alone: compute it again."
        )}{" "}
        {count(search.instants)} release instants
        {search.horizon > 0 ? ` followed for ${search.horizon.toFixed(1)} s` : ""}, {count(search.flights)}{" "}
        flights, each within {percentText(search.allowance)}. {branches(sheet)}
      </p>
      {varied && varied.length > 0 ? (
        <Fold title="What matters most">
          <VariedTable sheet={sheet} system={system} assumed={assumed} />
        </Fold>
      ) : null}
      {dispersion ? <Spread dispersion={dispersion} system={system} /> : null}
      {calibration ? (
        <Calibrated calibration={calibration} system={system} />
      ) : calibration === null ? (
        <p>No measured throw was given: nothing has checked the model against this machine.</p>
      ) : null}
    </section>
  );
}

const count = (number: number) => number.toLocaleString("en").replaceAll(",", "\u202f");

const branches = ({ search }: HazardSheet): string =>
  [
    search.slack ? "The sling goes slack: freed there, and held and caught again, were both followed." : "",
    search.endStop ? "The stop is met: holding and failing were both followed." : "",
  ]
    .filter(Boolean)
    .join(" ");

function VariedTable({
  sheet,
  system,
  assumed,
}: {
  sheet: HazardSheet;
  system: UnitSystem;
  assumed: ((name: string) => boolean) | null;
}) {
  const { kind, search, worst } = sheet;
  const value = (name: string, spread: number, amount: number | undefined) => {
    if (amount === undefined) return "as declared";
    return withinText(amount, spread, parameterWords(kind, name).dimension, system);
  };
  return (
    <Table
      caption="What matters most: how far each may differ, what it moves, and its corner in the worst throws"
      rows={search.varied}
      rowKey={({ parameter }) => parameter}
      columns={[
        {
          key: "name",
          head: "Dimension or mass",
          rowHead: true,
          cell: ({ parameter }) =>
            `${parameterWords(kind, parameter).label}${assumed?.(parameter) ? " *" : ""}`,
        },
        {
          key: "from",
          head: "From, to",
          number: true,
          cell: ({ parameter, low, high }) => {
            const { dimension } = parameterWords(kind, parameter);
            const spread = (high - low) / 2;
            return `${withinText(low, spread, dimension, system)}, ${withinText(high, spread, dimension, system)}`;
          },
        },
        {
          key: "moves",
          head: "Moves worst by",
          number: true,
          cell: ({ change }) => (Math.abs(change) < 0.001 ? "under 0.1 %" : percentText(Math.abs(change))),
        },
        {
          key: "forward",
          head: "Worst forwards at",
          number: true,
          cell: ({ parameter, low, high }) =>
            value(parameter, (high - low) / 2, worst.forward.corner[parameter]),
        },
        {
          key: "backward",
          head: "Worst backwards at",
          number: true,
          cell: ({ parameter, low, high }) =>
            value(parameter, (high - low) / 2, worst.backward.corner[parameter]),
        },
      ]}
    />
  );
}

/** 0 to 180 degrees clockwise: which way the ellipse's length lies. */
function turned(direction: number, system: UnitSystem): string {
  const off = Math.min(direction, 180 - direction);
  if (off < 0.5) return "along";
  return `${formatQuantity(off, "angle", system, { digits: 0 })} to the ${direction > 90 ? "left" : "right"} of`;
}

function Spread({ dispersion, system }: { dispersion: Dispersion; system: UnitSystem }) {
  const { draws, landed, held, impossible, spread } = dispersion;
  if (!spread) return <p>Dispersion: none of {count(draws)} ordinary throws landed.</p>;
  const { ellipse, mean, standardDeviation: deviation } = spread;
  const metres = (value: number) => distanceText(value, system);
  const lost = [
    held > 0 ? `${held} were never let go` : "",
    impossible > 0 ? `${impossible} were no possible machine` : "",
  ].filter(Boolean);
  return (
    <Fold title="Ordinary dispersion">
      <Table
        caption={`Ordinary throws, aimed exactly: ${count(landed)} of ${count(draws)} drawn landed${lost.length ? `; ${lost.join(", ")}` : ""}`}
        rows={[spread.percentiles]}
        rowKey={() => "percentiles"}
        columns={[
          { key: "what", head: "Share that lands shorter", rowHead: true, cell: () => "Distance" },
          ...spread.percentiles.map(({ share, distance }) => ({
            key: String(share),
            head: `${Math.round(share * 100)} %`,
            number: true,
            cell: (): ReactNode => metres(distance),
          })),
        ]}
      />
      <p>
        On average {metres(mean.distance.value)}; two in three within {metres(deviation.distance)} along the
        bearing and {metres(deviation.drift)} across it. {Math.round(ellipse.probability * 100)} % ellipse:{" "}
        {metres(2 * ellipse.semiMajor)} by {metres(2 * ellipse.semiMinor)}, its length{" "}
        {turned(ellipse.direction, system)} the bearing; {Math.round(ellipse.holds * 100)} % of the landings
        lie in it. Ordinary throws never make a zone smaller.
      </p>
      <div className="no-print">
        <Notes items={dispersion.assumptions} />
      </div>
    </Fold>
  );
}

const verdicts: Record<Calibration["marks"][number]["verdict"], string> = {
  unjudged: "first: nothing to judge by",
  expected: "as expected",
  short: "far short: find out why",
  alarm: "ALARM: beyond the 99 % upper prediction",
  "model-wrong": "HOLD: beyond the worst throw",
};

function Calibrated({ calibration, system }: { calibration: Calibration; system: UnitSystem }) {
  const { efficiency, standardError, scatter, next, marks, notes } = calibration;
  const metres = (value: number | null) => (value === null ? "–" : distanceText(value, system));
  return (
    <>
      <p>
        {calibration.throws} measured {calibration.throws === 1 ? "throw" : "throws"}:{" "}
        {efficiency === null
          ? "no efficiency explains them."
          : `efficiency ${standardError === null ? efficiency.toFixed(2) : formatUncertain(efficiency, standardError, "ratio", system)}${scatter === null ? "" : `, scatter ${metres(scatter)}`}.`}{" "}
        {next
          ? `The next is expected at ${metres(next.distance)}${next.upper99 === null ? "" : `; one in a hundred goes beyond ${metres(next.upper99)}`}.`
          : ""}{" "}
        {notes.join(" ")}
      </p>
      <Fold title="Every measured throw" screenOnly>
        <Table
          caption="Measured throws against the model, in the order given"
          rows={marks}
          rowKey={(_, index) => index}
          columns={[
            { key: "number", head: "Throw", rowHead: true, cell: (_, index) => index + 1 },
            { key: "distance", head: "Measured", number: true, cell: ({ distance }) => metres(distance) },
            { key: "predicted", head: "Predicted", number: true, cell: ({ predicted }) => metres(predicted) },
            { key: "upper", head: "99 % below", number: true, cell: ({ upper99 }) => metres(upper99) },
            { key: "modelled", head: "Without loss", number: true, cell: ({ modelled }) => metres(modelled) },
            { key: "verdict", head: "Verdict", cell: ({ verdict }) => verdicts[verdict] },
          ]}
        />
      </Fold>
    </>
  );
}

/** Danger first: it stands at the top of the sheet. */
export function CalibrationCaution({ calibration }: { calibration: Calibration }) {
  if (calibration.hold) {
    return (
      <Caution kind="prohibition" title="hold">
        <p>
          A measured throw went beyond the worst throw computed here: the model is wrong for this machine.
          Nobody throws with it until the safety officer has found out why.
        </p>
      </Caution>
    );
  }
  if (!calibration.alarm) return null;
  return (
    <Caution kind="warning" title="alarm">
      <p>
        A measured throw went beyond what 99 in 100 stay below. Measure the machine again before the next
        throw.
      </p>
    </Caution>
  );
}
