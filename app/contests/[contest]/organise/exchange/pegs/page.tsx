import { Button } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { SelectField } from "@/app/_ui/field";
import { PrintButton } from "@/app/_ui/print-button";
import { readerUnits } from "@/app/_ui/reader-units";
import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { Table } from "@/app/_ui/table";
import { pegList } from "@/lib/contest";
import { formatQuantity } from "@/lib/units";
import styles from "../exchange.module.css";

export const generateMetadata = titled("Pegs to set out");

/** m */
const SPACINGS = [5, 10, 20, 25, 50, 100, 200];

/** The choices are in the address, so a list can be linked and printed without a script. */
export default async function PegsPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  await allowed(slug, ["organiser", "safety-officer"]);
  const contest = await overview(slug);
  const asked = await searchParams;
  const every = SPACINGS.find((spacing) => String(spacing) === asked.every) ?? 25;
  const known = [...contest.controlPoints, ...contest.firingPoints].filter(({ retired }) => !retired);
  const origin = known.find(({ id }) => id === asked.from)?.id;
  const { pegs, from, origins, cutsIn } = await reading((db) => pegList(db, slug, { every, from: origin }));
  const system = await readerUnits(contest.units);
  const metres = (value: number, digits: number) => formatQuantity(value, "distance", system, { digits });
  const query = new URLSearchParams({
    format: "pegs",
    every: String(every),
    ...(origin ? { from: origin } : {}),
  });
  return (
    <>
      <h1>Pegs to set out</h1>
      <div className="no-print">
        <form method="get" aria-label="What the list counts from">
          <div className={styles.choices}>
            <SelectField
              id="pegs-from"
              name="from"
              label="Bearings and distances from"
              defaultValue={from.id ?? ""}
              choices={
                origins.length > 0
                  ? origins.map(({ id, name }) => ({ value: id, label: name }))
                  : [{ value: "", label: from.name }]
              }
            />
            <SelectField
              id="pegs-every"
              name="every"
              label="Corners of zones at most apart"
              defaultValue={String(every)}
              choices={SPACINGS.map((spacing) => ({ value: String(spacing), label: metres(spacing, 0) }))}
            />
          </div>
          <p className="button-row">
            <Button type="submit" look="main">
              Make the list
            </Button>
            <PrintButton>Print</PrintButton>
            <a className="button button-plain" href={`/api/v1/contests/${slug}/export?${query}`} download>
              CSV
            </a>
          </p>
        </form>
      </div>
      <p>
        {contest.name}. Bearings are true
        {contest.declination === 0 ? "" : `; a compass here shows ${magnetic(contest.declination)}`},
        distances horizontal on the ground, both from {from.name}.
      </p>
      <Caution kind="warning">
        <p>
          The outline of a zone counts, not the rope: straight between two pegs it runs up to{" "}
          {metres(cutsIn, 1)} inside. Hang it that much further out. Failures may go farther than any zone;
          the safety officer decides who may stand where.
        </p>
      </Caution>
      <Table
        caption="Pegs"
        rows={pegs}
        rowKey={(_, index) => index}
        empty="There is nothing to set out yet: lay out firing points and control points first."
        columns={[
          { key: "set", head: "Set", cell: () => <span className={styles.done} /> },
          { key: "name", head: "Peg", rowHead: true, cell: ({ name }) => name },
          {
            key: "bearing",
            head: "Bearing",
            number: true,
            cell: ({ bearing }) => bearingWords(bearing),
          },
          { key: "distance", head: "Distance", number: true, cell: ({ distance }) => metres(distance, 2) },
          { key: "latitude", head: "Latitude", number: true, cell: ({ latitude }) => latitude.toFixed(7) },
          {
            key: "longitude",
            head: "Longitude",
            number: true,
            cell: ({ longitude }) => longitude.toFixed(7),
          },
        ]}
      />
    </>
  );
}

/** Degrees to 0.01; what rounds up to a whole turn is north. */
const bearingWords = (bearing: number) =>
  `${((Math.round(bearing * 100) / 100) % 360).toFixed(2).padStart(6, "0")}°`;

const magnetic = (declination: number) =>
  `${Math.abs(declination).toFixed(1)}° ${declination > 0 ? "less" : "more"}`;
