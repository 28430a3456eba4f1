"use client";
/** What is in a file: on the map and in a table, what each place becomes, and the one button that brings them in. */
import { useMemo, useState } from "react";
import type { ImportPreview } from "@/lib/api/contracts";
import { FEATURE_KINDS } from "@/lib/zones/kinds";
import { Button } from "../button";
import { SelectField } from "../field";
import { marksOf } from "../map/laid-out";
import { MapLegend } from "../map/legend";
import type { MapScene, ScenePoint } from "../map/scene";
import { SiteMap } from "../map/site-map";
import { Notice } from "../notice";
import { useUnits } from "../units";
import { kindsIn, type Site, sceneOf } from "../zones/scene-of";
import { type Choice, firstChoice, hindrance, type SeaLevel, wanted, waysOf } from "./choices";
import { PreviewTable } from "./preview-table";
import { SeaLevelField } from "./sea-level-field";

const NONE: readonly string[] = [];

/** Where the chosen places go. */
export interface Importing {
  /** All or none of them; `from`: of each, its index in the preview. */
  bringIn: (items: unknown[], from: readonly number[]) => void;
  sending: boolean;
  /** Why none came in, in a sentence. */
  trouble: string | null;
  /** By the path of what was sent: `items.3.height`. */
  errors: readonly { field: string; message: string }[];
}

export function Preview({
  site,
  middle,
  name,
  preview,
  importing: { bringIn, sending, trouble, errors },
  onCancel,
}: {
  site: Parameters<typeof sceneOf>[0] & Pick<Site, "controlPoints" | "spotHeights">;
  middle: ScenePoint;
  name: string;
  preview: ImportPreview;
  importing: Importing;
  onCancel: () => void;
}) {
  const { items, notes } = preview;
  const system = useUnits();
  const [choices, setChoices] = useState(() => items.map(firstChoice));
  const [sea, setSea] = useState<SeaLevel>({ keep: false });
  const [saidAt, setSaidAt] = useState<readonly number[]>([]);

  const change = (index: number, part: Partial<Choice>) =>
    setChoices((before) => before.map((choice, at) => (at === index ? { ...choice, ...part } : choice)));
  const sent = wanted(items, choices, sea);
  const held = choices.filter(
    (choice, index) =>
      choice.chosen && hindrance(items[index] as (typeof items)[number], choice, sea) !== null,
  ).length;
  const open = items.flatMap((item, index) =>
    item.problem === null && choices[index]?.as === "" ? [index] : [],
  );

  const scene = useMemo((): MapScene => {
    const laid = sceneOf(site, { features: [] });
    const incoming = items.flatMap(({ geometry, problem: wrong }, index) => {
      const choice = choices[index];
      if (!geometry || wrong !== null || !choice) return [];
      const kind = choice.as.split(":")[1] ?? choice.as;
      const sign = choice.chosen ? "+" : "?";
      return [{ id: `item-${index}`, kind, kindTitle: "", name: `${sign} ${choice.name}`.trim(), geometry }];
    });
    return { ...laid, features: [...laid.features, ...incoming], marks: marksOf(site, system) };
  }, [site, items, choices, system]);
  const kinds = kindsIn(scene).filter(({ kind }) => FEATURE_KINDS.some((known) => known.kind === kind));

  const confirm = () => {
    setSaidAt(sent.from);
    bringIn(sent.items, sent.from);
  };
  const whereOf = (field: string) => {
    const index = saidAt[Number(/^items\.(\d+)/.exec(field)?.[1] ?? Number.NaN)];
    const item = index === undefined ? undefined : items[index];
    return item ? `${choices[index as number]?.name || "No name"} (${item.where})` : field;
  };

  return (
    <>
      <h3>
        {name}: {items.length} {items.length === 1 ? "place" : "places"}
      </h3>
      {notes.length > 0 && (
        <Notice title="About this file">
          <ul>
            {notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </Notice>
      )}
      {items.some(({ heightFrom }) => heightFrom === "sea-level") && (
        <SeaLevelField sea={sea} onChange={setSea} />
      )}
      <SiteMap scene={scene} shown={NONE} system={system} describedBy="import-table" around={middle} />
      <p>With + comes in, with ? not yet; the rest is on the site already.</p>
      <MapLegend kinds={kinds} zones={false} conflicts={false} />
      {open.length > 1 && (
        <SelectField
          id="import-all-kinds"
          label={`What the ${open.length} places without a kind are`}
          help="Sets those whose shape fits; each can still be changed below."
          value=""
          onChange={(event) => {
            const as = event.target.value;
            setChoices((before) =>
              before.map((choice, index) =>
                open.includes(index) &&
                waysOf(items[index] as (typeof items)[number]).some(({ value }) => value === as)
                  ? { ...choice, as, chosen: true }
                  : choice,
              ),
            );
          }}
          choices={[
            { value: "", label: "Choose…" },
            ...waysOfAll(open.map((index) => items[index] as (typeof items)[number])),
          ]}
        />
      )}
      <PreviewTable items={items} choices={choices} sea={sea} onChange={change} />
      {trouble && (
        <Notice kind="problem">
          <p>{errors.length > 0 ? "Nothing was brought in. Put this right, or leave it out:" : trouble}</p>
          <ul>
            {errors.map(({ field, message }) => (
              <li key={field}>
                {whereOf(field)}: {message}
              </li>
            ))}
          </ul>
        </Notice>
      )}
      {held > 0 && (
        <p>
          {held} chosen {held === 1 ? "place is" : "places are"} held back by what stands beside{" "}
          {held === 1 ? "it" : "them"}.
        </p>
      )}
      <p className="button-row">
        <Button
          look="main"
          aria-disabled={sending || sent.items.length === 0 || undefined}
          onClick={() => {
            if (sent.items.length > 0) confirm();
          }}
        >
          {sending ? "Sending…" : `Bring in ${sent.items.length} of ${items.length}`}
        </Button>
        <Button onClick={onCancel}>Leave the site as it is</Button>
      </p>
    </>
  );
}

/** Every way that some of the places can be, once each. */
function waysOfAll(items: ImportPreview["items"]) {
  return [...new Map(items.flatMap(waysOf).map((way) => [way.value, way])).values()];
}
