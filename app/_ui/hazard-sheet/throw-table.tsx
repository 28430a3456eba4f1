/** Throws side by side: where each lands and the instant that made it. Says what the pictures show. */
import type { Nominal, WorstThrow } from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";
import { Table } from "../table";
import { oddWords } from "./reasons";
import { angleText, distanceText, heightText, instantText, speedText } from "./words";

/** Nearer than this nothing is thrown that way: it falls where it stands, m. */
const NOTHING = 0.05;

interface Row {
  name: string;
  direction: "forwards" | "backwards" | "";
  thrown: WorstThrow | Nominal | null;
}

/** The throw as meant knows neither hang-up nor branch. */
const isWorst = (thrown: Row["thrown"]): thrown is WorstThrow => thrown !== null && "hangUp" in thrown;

export interface Throws {
  nominal: Nominal | null;
  worst: {
    forward: WorstThrow;
    backward: WorstThrow;
    firstPass: { forward: WorstThrow; backward: WorstThrow };
  };
}

export function ThrowTable({
  throws,
  system,
  caption,
}: {
  throws: Throws;
  system: UnitSystem;
  caption: string;
}) {
  const { nominal, worst } = throws;
  const rows: Row[] = [
    { name: "As meant", direction: "", thrown: nominal },
    { name: "Worst forwards", direction: "forwards", thrown: worst.forward },
    { name: "Worst backwards", direction: "backwards", thrown: worst.backward },
    { name: "No hang-up, forwards", direction: "forwards", thrown: worst.firstPass.forward },
    { name: "No hang-up, backwards", direction: "backwards", thrown: worst.firstPass.backward },
  ];
  const figure = (value: number | null | undefined, write: (value: number) => string) =>
    value === null || value === undefined ? "–" : write(value);
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
              : isWorst(thrown) && (thrown.releaseTime === null || thrown.distance < NOTHING)
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
          cell: ({ thrown }) => (isWorst(thrown) ? oddWords(thrown).join("; ") || "–" : "as declared"),
        },
      ]}
    />
  );
}
