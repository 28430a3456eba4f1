/** Throws side by side: where each lands and the instant that made it. Says what the pictures show. */
import type { Nominal, WorstThrow } from "@/lib/throw";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { Table } from "../table";
import { angleText, distanceText, heightText, instantText, parameterWords, speedText } from "./words";

interface Row {
  name: string;
  direction: "forwards" | "backwards" | "";
  thrown: WorstThrow | Nominal | null;
}

export interface Throws {
  nominal: Nominal | null;
  worst: {
    forward: WorstThrow;
    backward: WorstThrow;
    firstPass: { forward: WorstThrow; backward: WorstThrow };
  };
}

/** How a worst throw came about, in words. */
export function circumstances(thrown: WorstThrow, kind: string, system: UnitSystem): string {
  const corner = Object.entries(thrown.corner).map(([name, value]) => {
    const { label, dimension } = parameterWords(kind, name);
    return `${label} ${formatQuantity(value, dimension, system)}`;
  });
  return [
    thrown.afterSlack ? "after the sling had gone slack" : "",
    thrown.stop === "holds" ? "end stop met and holding" : "",
    thrown.stop === "fails" ? "end stop met and failing" : "",
    ...corner,
  ]
    .filter(Boolean)
    .join("; ");
}

export function ThrowTable({
  throws,
  kind,
  system,
  caption,
}: {
  throws: Throws;
  kind: string;
  system: UnitSystem;
  caption: string;
}) {
  const { nominal, worst } = throws;
  const rows: Row[] = [
    { name: "As meant", direction: "", thrown: nominal },
    { name: "Worst forwards", direction: "forwards", thrown: worst.forward },
    { name: "Worst backwards", direction: "backwards", thrown: worst.backward },
    { name: "Without hang-ups, forwards", direction: "forwards", thrown: worst.firstPass.forward },
    { name: "Without hang-ups, backwards", direction: "backwards", thrown: worst.firstPass.backward },
  ];
  const figure = (value: number | null | undefined, write: (value: number) => string) =>
    value === null || value === undefined ? "–" : write(value);
  const isWorst = (thrown: Row["thrown"]): thrown is WorstThrow => thrown !== null && "corner" in thrown;
  return (
    <Table
      caption={caption}
      rows={rows}
      rowKey={(row) => row.name}
      columns={[
        { key: "name", head: "Throw", rowHead: true, cell: (row) => row.name },
        {
          key: "lands",
          head: "First impact",
          number: true,
          cell: ({ thrown }) =>
            thrown === null
              ? "never let go"
              : isWorst(thrown) && thrown.releaseTime === null
                ? "none"
                : distanceText(thrown.distance, system),
        },
        {
          key: "time",
          head: "Let go after",
          number: true,
          cell: ({ thrown }) => figure(thrown?.releaseTime, instantText),
        },
        {
          key: "speed",
          head: "Speed",
          number: true,
          cell: ({ thrown }) => figure(thrown?.releaseSpeed, (value) => speedText(value, system)),
        },
        {
          key: "angle",
          head: "Angle",
          number: true,
          cell: ({ thrown }) => figure(thrown?.launchAngle, angleText),
        },
        {
          key: "height",
          head: "Height",
          number: true,
          cell: ({ thrown }) => figure(thrown?.releaseHeight, (value) => heightText(value, system)),
        },
        {
          key: "flight",
          head: "In the air",
          number: true,
          cell: ({ thrown }) => figure(thrown?.flightTime, (value) => `${value.toFixed(1)} s`),
        },
        {
          key: "how",
          head: "How",
          cell: ({ thrown }) =>
            isWorst(thrown) ? circumstances(thrown, kind, system) || "as declared" : "as declared",
        },
      ]}
    />
  );
}
