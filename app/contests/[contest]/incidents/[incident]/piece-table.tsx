"use client";
import { Button } from "@/app/_ui/button";
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import { coordinates } from "@/app/_ui/words";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { IncidentInfo } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import styles from "../incidents.module.css";
import { FOUND_WORDS, PLACE_WORDS, wayWords, zoneWords } from "../words";

/** What the map shows, in words; what was corrected or taken back stands below. */
export function PieceTable({
  id,
  slug,
  incident,
  system,
  onCorrect,
}: {
  id: string;
  slug: string;
  incident: IncidentInfo;
  system: UnitSystem;
  onCorrect: ((pieceId: string) => void) | null;
}) {
  const counting = incident.pieceList.filter(({ replaced, fix }) => !replaced && fix !== null);
  const others = incident.pieceList.filter(({ replaced }) => replaced);
  return (
    <div id={id}>
      <Table
        caption="Places, numbered as on the map"
        stacks
        rows={counting}
        rowKey={({ id: piece }) => piece}
        empty="No place is measured yet."
        columns={[
          {
            key: "what",
            head: "What",
            rowHead: true,
            cell: ({ found, place }, index) => `${index + 1}. ${FOUND_WORDS[found]}, ${PLACE_WORDS[place]}`,
          },
          { key: "way", head: "From the firing point", cell: (piece) => wayWords(piece, system) },
          {
            key: "zone",
            head: "The zone",
            cell: (piece) => (
              <>
                {piece.outside ? (
                  <strong className={styles.out}>{zoneWords(piece, system)}</strong>
                ) : (
                  zoneWords(piece, system)
                )}
                {piece.warnings.map((text) => (
                  <div key={text}>{text}</div>
                ))}
              </>
            ),
          },
          {
            key: "foreseen",
            head: "Foreseen at most",
            cell: ({ foreseen, beyondModel }) =>
              foreseen === null
                ? "Nothing is said of it"
                : `${formatQuantity(foreseen, "distance", system, { digits: 1 })}${beyondModel ? ": it went BEYOND what the model foresees" : ""}`,
          },
          {
            key: "place",
            head: "Place",
            cell: ({ latitude, longitude }) =>
              latitude !== null && longitude !== null ? coordinates({ latitude, longitude }) : "None",
          },
          {
            key: "seen",
            head: "Seen",
            cell: ({ observedAt, witness, by }) => (
              <>
                <LocalTime iso={observedAt} day />
                {witness && `, by ${witness}`}; entered by {by}
              </>
            ),
          },
          {
            key: "correct",
            head: "Put right",
            cell: ({ id: piece, found }, index) => (
              <>
                {onCorrect && (
                  <Button onClick={() => onCorrect(piece)}>
                    Correct<span className="aloud"> place {index + 1}</span>
                  </Button>
                )}
                <WriteForm
                  label={`Take place ${index + 1} back`}
                  url={`/api/v1/contests/${slug}/incidents/${incident.id}/pieces`}
                  body={() => ({ found, fix: null, replacesId: piece })}
                  submit={`Take place ${index + 1} back`}
                  look="plain"
                >
                  {() => null}
                </WriteForm>
              </>
            ),
          },
        ]}
      />
      {others.length > 0 && (
        <p>
          {others.length === 1 ? "1 place was" : `${others.length} places were`} corrected or taken back, and
          kept: {others.map((piece) => `${zoneWords(piece, system)}, by ${piece.by}`).join("; ")}.
        </p>
      )}
    </div>
  );
}
