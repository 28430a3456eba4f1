"use client";
/** What is being laid out, beside the map: its fields, its corners as numbers, and the buttons that save or drop it. */
import { useEffect, useRef, useState } from "react";
import { Button } from "../button";
import { LongTextField, SelectField } from "../field";
import { AddByNumbers, type KnownPoint } from "../map/edit/add-by-numbers";
import { CornerTable } from "../map/edit/corner-table";
import { cornersOf, type DrawAction, drawnOf, geometryOf, type Shape } from "../map/edit/model";
import { Notice } from "../notice";
import { useUnits } from "../units";
import { type Draft, type Fields, itemTitle, type LaidRequest, requestOf, shapesOf } from "./draft";
import { DraftFields, type SiteOf } from "./draft-fields";
import { readGeometry } from "./geometry-text";

const SHAPE_WORDS: Record<Shape, string> = { area: "Area", line: "Line", point: "Point" };

/** Where a draft goes when it is saved. */
export interface Saving {
  /** Answers what it is called once it is kept, or null. */
  save: (request: LaidRequest) => Promise<{ name?: string; number?: number } | null>;
  sending: boolean;
  /** Why it was not kept, in a sentence. */
  trouble: string | null;
  /** Of the fields of the body, by their path. */
  errors: readonly { field: string; message: string }[];
}

export interface DraftPanelProps {
  of: SiteOf;
  draft: Draft;
  /** It came back from before a reload. */
  restored: boolean;
  /** What it changes was changed by somebody else meanwhile. */
  overtaken: boolean;
  known: readonly KnownPoint[];
  site: { height: number; declination: number };
  dispatch: (action: DrawAction) => void;
  onFields: (changed: Partial<Fields>) => void;
  onSaved: (words: string) => void;
  onDrop: () => void;
}

export function DraftPanel({
  of,
  draft,
  restored,
  overtaken,
  known,
  site,
  dispatch,
  onFields,
  onSaved,
  onDrop,
  saving: { save: keep, sending, trouble, errors },
}: DraftPanelProps & { saving: Saving }) {
  const system = useUnits();
  const [notYet, setNotYet] = useState<string | null>(null);
  const panel = useRef<HTMLFormElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const { drawing, fields, item, id } = draft;
  const title = itemTitle(item);
  const shapes = shapesOf(item);
  const shape = geometryOf(drawing.now);
  const enough = cornersOf(drawing).length > (drawing.now.shape === "area" ? 2 : 1);

  useEffect(() => {
    // The map stays where it is: on a phone it stands above.
    if (!restored) heading.current?.focus({ preventScroll: true });
  }, [restored]);
  useEffect(() => {
    if (errors.length > 0) panel.current?.querySelector<HTMLElement>("[aria-invalid='true']")?.focus();
  }, [errors]);

  const save = async () => {
    const request = requestOf(draft, system, of === "yard");
    if (typeof request === "string") {
      setNotYet(request);
      return;
    }
    setNotYet(null);
    const kept = await keep(request);
    if (!kept) return;
    const called = kept.name || (kept.number ? String(kept.number) : "");
    onSaved(`${title}${called ? ` ${called}` : ""} is saved and on the map.`);
  };
  const elsewhere = errors.filter(({ field }) => field.startsWith("geometry") || /tude$/.test(field));
  const errorFor = (name: string) => errors.find(({ field }) => field === name)?.message ?? null;
  return (
    <form
      ref={panel}
      aria-label={id ? `Change ${title}` : `New ${title}`}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <h2 ref={heading} tabIndex={-1}>
        {id ? `Change ${title.toLowerCase()} ${fields.name || fields.number}` : `New ${title.toLowerCase()}`}
      </h2>
      {restored && (
        <Notice title="Not saved yet">
          <p>
            This drawing was begun here before and is kept on this device. Go on with it, save it or drop it.
          </p>
        </Notice>
      )}
      {overtaken && (
        <Notice title="Changed meanwhile">
          <p>Somebody else has changed or retired it since you began. Saving replaces what they did.</p>
        </Notice>
      )}
      {(notYet ?? trouble) && (
        <Notice kind="problem">
          <p>{notYet ?? trouble}</p>
          {!notYet && elsewhere.map(({ field, message }) => <p key={field}>{message}</p>)}
        </Notice>
      )}
      {shapes.length > 1 && (
        <SelectField
          id="feature-shape"
          label="Shape"
          value={drawing.now.shape}
          onChange={(event) => dispatch({ do: "shape", shape: event.target.value as Shape })}
          choices={shapes.map((each) => ({ value: each, label: SHAPE_WORDS[each] }))}
        />
      )}
      <DraftFields of={of} draft={draft} onChange={onFields} errorFor={errorFor} />
      <h3>{drawing.now.shape === "point" ? "Where it is" : "Its corners"}</h3>
      {!shape.ok && enough && (
        <Notice title="Look at the shape">
          <p>{shape.message}</p>
        </Notice>
      )}
      <CornerTable drawing={drawing} dispatch={dispatch} />
      <AddByNumbers
        drawing={drawing}
        dispatch={dispatch}
        known={known}
        declination={site.declination}
        height={site.height}
      />
      {drawing.now.shape !== "point" && (
        <Paste shape={drawing.now.shape} shapes={shapes} dispatch={dispatch} />
      )}
      <div className="button-row">
        <Button type="submit" look="main" aria-disabled={sending || undefined}>
          {sending ? "Saving…" : "Save"}
        </Button>
        <Button onClick={onDrop}>{id ? "Drop the change" : "Drop it"}</Button>
      </div>
    </form>
  );
}

/** A list of points from elsewhere, all at once. */
function Paste({
  shape,
  shapes,
  dispatch,
}: {
  shape: Shape;
  shapes: readonly Shape[];
  dispatch: (action: DrawAction) => void;
}) {
  const [text, setText] = useState("");
  const read = readGeometry(text, shape);
  const drawn = read.ok ? drawnOf(read.geometry) : null;
  const fits = drawn !== null && shapes.includes(drawn.shape);
  const unfit =
    drawn && !fits ? "Shape: this kind is not drawn so. Choose another shape, or another kind." : null;
  const words = {
    id: "feature-points",
    label: "Points, one a line: latitude, longitude",
    help: "Or one GeoJSON feature. They take the place of the corners above; undo brings those back.",
    error: text.trim() === "" ? null : read.ok ? unfit : read.message,
  };
  return (
    <details>
      <summary>Paste points</summary>
      <LongTextField
        {...words}
        rows={5}
        spellCheck={false}
        value={text}
        onChange={(event) => setText(event.target.value)}
      />
      <Button
        disabled={!fits}
        onClick={() => {
          if (!drawn) return;
          dispatch({ do: "replace", drawn });
          setText("");
        }}
      >
        Use these points
      </Button>
    </details>
  );
}
