"use client";
/** Where something came down, by any way to measure; a correction names the place that it replaces. */
import { useState } from "react";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { Notice } from "@/app/_ui/notice";
import { SeenFields, seenIn } from "@/app/_ui/seen-fields";
import { useUnits } from "@/app/_ui/units";
import { WriteForm } from "@/app/_ui/write/write-form";
import { check } from "@/lib/api/check";
import type { IncidentReceipt } from "@/lib/api/contracts";
import { type FixMethod, fixSchema } from "@/lib/survey";
import { type Complaints, fieldsOf, rawOf, type Values } from "../judge/draft";
import { formField, type Stand } from "../judge/entry";
import { MethodChoice } from "../judge/method-choice";
import { MethodFields } from "../judge/method-fields";
import type { Pegs } from "./stand";
import { FOUND_WORDS, PLACE_WORDS, zoneWords } from "./words";

type Found = keyof typeof FOUND_WORDS;
type Place = keyof typeof PLACE_WORDS;

export function PieceForm({
  slug,
  incidentId,
  stand,
  pegs,
  replaces = null,
  onDone,
}: {
  slug: string;
  incidentId: string;
  stand: Stand;
  pegs: Pegs;
  replaces?: string | null;
  onDone?: () => void;
}) {
  const system = useUnits();
  const [found, setFound] = useState<Found>("unknown");
  const [place, setPlace] = useState<Place>("rest");
  const [method, setMethod] = useState<FixMethod>("position");
  const [values, setValues] = useState<Values>({});
  const [complaints, setComplaints] = useState<Complaints>({});
  const fields = fieldsOf(method);
  const read = () => {
    const wrong: Complaints = {};
    const raw = { outcome: "landed", method, ...rawOf(fields, values, pegs.declination, system, wrong) };
    const checked = check(fixSchema, raw);
    const draft = { outcome: "landed", method, values: {}, reason: "" } as const;
    if (!checked.ok)
      for (const { field, message } of checked.errors) wrong[formField(field, draft)] ??= message;
    setComplaints(wrong);
    return checked.ok && Object.keys(wrong).length === 0 ? checked.value : null;
  };
  return (
    <WriteForm<IncidentReceipt>
      label={replaces ? "Correct this place" : "Where something came down"}
      url={`/api/v1/contests/${slug}/incidents/${incidentId}/pieces`}
      body={(form) => {
        const fix = read();
        return fix
          ? { found, place, fix, ...seenIn(form), ...(replaces && { replacesId: replaces }) }
          : "Put right what is marked below.";
      }}
      submit={replaces ? "Correct this place" : "Enter this place"}
      onDone={() => {
        setValues({});
        onDone?.();
      }}
      done={({ piece, held }) => (
        <>
          <p>{piece ? `${zoneWords(piece, system)}.` : "Entered."}</p>
          {piece?.warnings.map((text) => (
            <p key={text}>{text}</p>
          ))}
          {held && <p>The range is on hold for it. Only the safety officer lifts it.</p>}
        </>
      )}
    >
      {() => (
        <>
          <ChoiceTiles
            id="piece-found"
            legend="What came down there?"
            value={found}
            onChange={setFound}
            choices={(Object.keys(FOUND_WORDS) as Found[]).map((value) => ({
              value,
              label: FOUND_WORDS[value],
            }))}
          />
          <ChoiceTiles
            id="piece-place"
            legend="The place is"
            value={place}
            onChange={setPlace}
            choices={(Object.keys(PLACE_WORDS) as Place[]).map((value) => ({
              value,
              label: PLACE_WORDS[value],
            }))}
          />
          <MethodChoice usual="position" method={method} onChange={setMethod} />
          <MethodFields
            key={method}
            fields={fields}
            values={values}
            onChange={setValues}
            complaints={complaints}
            shot={stand}
            range={pegs}
          />
          <details>
            <summary>Written on paper first</summary>
            <SeenFields id="piece" />
          </details>
          {Object.keys(complaints).length > 0 && (
            <Notice kind="problem">
              <ul>
                {Object.values(complaints).map((text) => (
                  <li key={text}>{text}</li>
                ))}
              </ul>
            </Notice>
          )}
        </>
      )}
    </WriteForm>
  );
}
