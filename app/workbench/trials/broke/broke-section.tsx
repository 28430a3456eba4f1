"use client";
/** What broke, where the pieces went, and which fault explains it. */
import Link from "next/link";
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField, TextField } from "@/app/_ui/field";
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import { useNewestAnswer } from "@/app/_ui/newest-answer";
import { Notice } from "@/app/_ui/notice";
import { quantityOf } from "@/app/_ui/quantity-field";
import { Explanations } from "@/app/_ui/replay/explanations";
import { LandingFields } from "@/app/_ui/replay/landing-fields";
import { type LandingForm, readLanding, startingLanding } from "@/app/_ui/replay/landing-form";
import { directionText } from "@/app/_ui/replay/words";
import { useUnits } from "@/app/_ui/units";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Replay, ReplayRequest } from "@/lib/throw";
import { localMinute } from "../entry/throw-form";
import { corrected, type Log, MOST_PIECES, PARTS, type Piece, requestOf, type Throw } from "../log/log";
import { markText, PART_LABELS, whenText } from "../log/words";
import { explained, pieceAsked } from "./ask";
import { newest } from "./newest";

const replayWorker = () => new Worker(new URL("./replay-worker.ts", import.meta.url));

const FOUND_WORDS: Record<Piece["found"], string> = {
  projectile: "the projectile, whole",
  piece: "a piece of the projectile",
  machine: "a part of the machine",
  unknown: "something nobody can name",
};

export function BrokeSection({
  log,
  throws,
  change,
}: {
  log: Log;
  throws: readonly Throw[];
  change: (log: Log, did: string) => void;
}) {
  const system = useUnits();
  const [chosen, setChosen] = useState("");
  const made = throws.find(({ id }) => id === chosen) ?? newest(throws);
  const [asked, setAsked] = useState<ReplayRequest | null>(null);
  const { answer, question, failure, stale } = useNewestAnswer<ReplayRequest, Replay>(
    asked,
    replayWorker,
    explained,
    0,
  );
  if (!made) return <p>Write the throw down first; then say here what was found where.</p>;
  const number = throws.indexOf(made) + 1;
  return (
    <>
      <SelectField
        id="broke-throw"
        label="Throw"
        value={made.id}
        onChange={(event) => {
          setChosen(event.target.value);
          setAsked(null);
        }}
        choices={throws.map((each, index) => ({
          value: each.id,
          label: `${index + 1}. ${markText(each, system)}, ${whenText(each.at)}`,
        }))}
      />
      {made.pieces.length > 0 ? (
        <ul>
          {made.pieces.map((piece, index) => (
            <li key={`${index}-${piece.distance}`}>
              {piece.part ? `${PART_LABELS[piece.part]}: ` : ""}
              {FOUND_WORDS[piece.found]}, {piece.place === "rest" ? "came to rest" : "struck"}{" "}
              {distanceText(piece.distance, system)} from the firing point, {directionText(piece.direction)},
              within {distanceText(piece.uncertainty, system)}
              {piece.note ? `. ${piece.note}` : ""}.
              <p className="button-row">
                <Button onClick={() => setAsked(pieceAsked(requestOf(log, made), made, piece))}>
                  Find what explains it<span className="aloud">, piece {index + 1}</span>
                </Button>
                {piece.part ? (
                  <Link className="button" href={`/workbench/strength#part-${piece.part}`}>
                    What may break: {PART_LABELS[piece.part].toLowerCase()}
                  </Link>
                ) : null}
                <Button
                  onClick={() =>
                    change(
                      corrected(
                        log,
                        { ...made, pieces: made.pieces.filter((_, at) => at !== index) },
                        localMinute(new Date()),
                      ),
                      `A piece of throw ${number} is removed.`,
                    )
                  }
                >
                  Remove<span className="aloud"> piece {index + 1}</span>
                </Button>
              </p>
            </li>
          ))}
        </ul>
      ) : null}
      <PieceEntry
        // A form of its own for every piece.
        key={`${made.id}-${made.pieces.length}`}
        made={made}
        full={made.pieces.length >= MOST_PIECES}
        onWrite={(piece) => {
          const pieces = [...made.pieces, piece];
          change(
            corrected(log, { ...made, pieces }, localMinute(new Date())),
            `A piece of throw ${number} is written down.`,
          );
          setAsked(pieceAsked(requestOf(log, made), made, piece));
        }}
      />
      {failure ? (
        <Notice kind="problem" title="Not computed">
          <p>{failure}</p>
        </Notice>
      ) : null}
      <p role="status">{asked && stale && !failure ? "Searching for what explains it…" : ""}</p>
      {asked && answer && question && !stale ? (
        <section aria-labelledby="explained-title" data-told="explained">
          <h3 id="explained-title">What the model says of it</h3>
          <p>
            It says what may have happened, never what did. Where nothing explains it, it stays unknown: then
            nobody throws.
          </p>
          <Explanations
            answered={{ replay: answer, reach: null, kind: question.request.machine.kind }}
            system={system}
          />
        </section>
      ) : null}
    </>
  );
}

/** A projectile that was seen to land is proposed as what was found; other pieces are not. */
function proposedLanding({ result, distance, aside, pieces }: Throw, system: UnitSystem): LandingForm {
  const start = startingLanding(system);
  if (distance === null || pieces.length > 0) return start;
  const along = result === "backwards" ? -distance : distance;
  const direction = (Math.atan2(aside ?? 0, along) * 180) / Math.PI;
  return {
    ...start,
    found: "projectile",
    quantities: {
      ...start.quantities,
      distance: quantityOf(Math.hypot(along, aside ?? 0), "distance", system),
      direction: quantityOf(direction, "angle", system),
    },
  };
}

function PieceEntry({
  made,
  full,
  onWrite,
}: {
  made: Throw;
  full: boolean;
  onWrite: (piece: Piece) => void;
}) {
  const system = useUnits();
  const [landing, setLanding] = useState<LandingForm>(() => proposedLanding(made, system));
  const [part, setPart] = useState<"" | (typeof PARTS)[number]>("");
  const [note, setNote] = useState("");
  const [errors, setErrors] = useState<Readonly<Record<string, string>>>({});
  if (full) return <p>{MOST_PIECES} pieces are as many as a throw holds.</p>;
  const write = () => {
    const read = readLanding(landing, system);
    setErrors(read.ok ? {} : read.errors);
    if (!read.ok) {
      document.getElementById(`landing-${Object.keys(read.errors)[0]}`)?.focus();
      return;
    }
    const { distance, direction, downrange = 0, aside = 0, uncertainty = 1 } = read.landing;
    onWrite({
      part: part === "" ? null : part,
      found: landing.found,
      place: landing.place,
      distance: distance ?? Math.hypot(downrange, aside),
      direction: direction ?? (Math.atan2(aside, downrange) * 180) / Math.PI,
      uncertainty,
      note: note.trim(),
    });
  };
  return (
    <details>
      <summary>Write down a piece and where it was found</summary>
      <SelectField
        id="piece-part"
        label="Which part failed"
        help="What was seen; “not known” where nobody saw it."
        value={part}
        onChange={(event) => setPart(event.target.value as typeof part)}
        choices={[
          { value: "", label: "not known" },
          ...PARTS.map((value) => ({ value, label: PART_LABELS[value] })),
        ]}
      />
      <LandingFields landing={landing} onChange={setLanding} errors={errors} />
      <TextField
        id="piece-note"
        label="What it was, how it looks"
        optional
        maxLength={300}
        value={note}
        onChange={(event) => setNote(event.target.value)}
      />
      <p className="button-row">
        <Button look="main" onClick={write}>
          Write it down and find what explains it
        </Button>
      </p>
    </details>
  );
}
