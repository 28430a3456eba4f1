import Link from "next/link";
import { ButtonLink } from "@/app/_ui/button";
import { LocalTime } from "@/app/_ui/local-time";
import { overview, reading, titled } from "@/app/_ui/reading";
import { Table } from "@/app/_ui/table";
import { listIncidents } from "@/lib/contest";
import { KeepFresh } from "../clearance/keep-fresh";
import styles from "./incidents.module.css";
import { HURT_WORDS, PART_WORDS, titleOf } from "./words";

export const generateMetadata = titled("Incidents");

/** What went wrong, for the organiser and the safety officer alone. */
export default async function IncidentsPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const { incidents } = await reading((db, who) => listIncidents(db, who, slug));
  const { sequence } = await overview(slug);
  const base = `/contests/${slug}/incidents`;
  return (
    <>
      <KeepFresh slug={slug} sequence={sequence} />
      <h1>Incidents</h1>
      <p>
        Only the organiser and the safety officer read this. The public scorebook has of each that one was
        entered for a machine, and nothing of people.
      </p>
      <p className="button-row">
        <ButtonLink href={`${base}/new`} look="main">
          Enter an incident
        </ButtonLink>
        <ButtonLink href={`${base}/paper`}>Form to fill in by hand</ButtonLink>
      </p>
      <Table
        caption="The newest first"
        hideCaption
        stacks
        rows={incidents}
        rowKey={({ id }) => id}
        empty="No incident is entered."
        columns={[
          {
            key: "incident",
            head: "Incident",
            rowHead: true,
            cell: ({ id, ...incident }) => (
              <Link href={`${base}/${id}`} prefetch={false}>
                {titleOf(incident)}
              </Link>
            ),
          },
          {
            key: "failed",
            head: "What failed",
            cell: ({ part, hurt }) => `${PART_WORDS[part]}. ${HURT_WORDS[hurt]}.`,
          },
          {
            key: "pieces",
            head: "Pieces",
            cell: ({ pieces, outside }) =>
              outside > 0 ? (
                <strong className={styles.out}>
                  {outside} of {pieces} count as OUTSIDE the zone
                </strong>
              ) : pieces === 0 ? (
                "None measured"
              ) : (
                `${pieces} inside the zone`
              ),
          },
          {
            key: "seen",
            head: "Seen",
            cell: ({ observedAt, by, witness }) => (
              <>
                <LocalTime iso={observedAt} day />
                {witness && `, by ${witness}`}; entered by {by}
              </>
            ),
          },
        ]}
      />
    </>
  );
}
