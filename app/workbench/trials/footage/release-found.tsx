"use client";
/** The release that a film shows, beside the model's, and into a throw of the log. */
import { useMemo, useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { lowerFirst } from "@/app/_ui/hazard-sheet/words";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { usePreview } from "@/app/_ui/throw-pictures/use-preview";
import { type HazardRequest, trials, type tuning } from "@/lib/throw";
import { formatQuantity, formatUncertain, type UnitSystem } from "@/lib/units";
import { thrownRequest } from "../broke/ask";
import type { Throw } from "../log/log";
import { markText, whenText } from "../log/words";

const SOURCES: Record<trials.FootageSource, string> = {
  taps: "Tapping the points",
  scale: "The known length",
  level: "The camera leaning",
  timing: "The camera's clock",
  drag: "Drag",
  instant: "When it slipped between two frames",
};

export function ReleaseFound({
  found,
  request,
  efficiency,
  setting,
  throws,
  onWrite,
  system,
}: {
  found: trials.FootageResult;
  request: HazardRequest;
  efficiency: number | null;
  setting: tuning.Knob;
  throws: readonly Throw[];
  onWrite: (made: Throw, film: NonNullable<Throw["film"]>) => void;
  system: UnitSystem;
}) {
  const [chosen, setChosen] = useState("");
  const made = throws.find(({ id }) => id === chosen) ?? throws.at(-1);
  const meant = useMemo(() => (made ? thrownRequest(request, made) : request), [request, made]);
  const { preview, stale } = usePreview(meant);
  if (!found.ok)
    return (
      <Notice kind="problem" title="No release yet">
        <p>{REFUSED[found.why]}</p>
      </Notice>
    );
  const { speed, launchAngle, slingAngle, between, budget, roughness, slower, points } = found;
  const nominal = stale ? null : (preview?.nominal ?? null);
  const share = nominal && (speed.value / nominal.releaseSpeed) ** 2;
  const write = () => made && onWrite(made, { speed, launchAngle, slingAngle });
  const told = ({ value, uncertainty }: trials.Told, dimension: "speed" | "angle") =>
    formatUncertain(value, uncertainty, dimension, system);
  return (
    <>
      <h3>The release, from {points} frames</h3>
      <p data-told="release">
        <strong>
          {told(speed, "speed")} at {told(launchAngle, "angle")}
        </strong>{" "}
        above the horizontal (k = 2).{" "}
        {slingAngle
          ? `The sling stood at ${told(slingAngle, "angle")} to the line of the arm, between the frames at ${between[0].toFixed(3)} s and ${between[1].toFixed(3)} s.`
          : "Tap pivot, tip and projectile on the last frame in the sling and the first free one, and the sling's angle is told too."}
      </p>
      {slower !== null ? (
        <Notice kind="problem" title="Scale or time is wrong">
          <p>
            The projectile falls {slower > 1 ? "too slowly" : "too fast"} for gravity: as if the film played{" "}
            {slower.toFixed(slower < 3 ? 2 : 1)} times {slower > 1 ? "slower" : "faster"} than true, or the
            known length were wrong. Do not use these numbers before that is found.
          </p>
        </Notice>
      ) : null}
      {roughness !== null && roughness > 2.5 ? (
        <Notice title="The points scatter more than they should">
          <p>
            {roughness.toFixed(1)} times as much as was said of the taps: look for a frame that is tapped
            wrong, a camera that moved, or frames that were left out. The uncertainty counts it.
          </p>
        </Notice>
      ) : null}
      {nominal && share ? (
        <p data-told="against-model">
          {made ? `At the settings of throw ${throws.indexOf(made) + 1} the` : "The"} model without loss
          releases at {formatQuantity(nominal.releaseSpeed, "speed", system, { digits: 1 })} and{" "}
          {formatQuantity(nominal.launchAngle, "angle", system)}: the film has{" "}
          {formatUncertain(share, (2 * share * speed.uncertainty) / speed.value, "ratio", system)} of its
          energy
          {efficiency === null ? "" : `, the marks say ${efficiency.toFixed(2)}`}, and goes{" "}
          {formatQuantity(Math.abs(launchAngle.value - nominal.launchAngle), "angle", system)}{" "}
          {launchAngle.value < nominal.launchAngle ? "lower" : "higher"}
          {slingAngle && setting.name === "releaseAngle"
            ? `. The ${lowerFirst(setting.label)} was set to ${formatQuantity(made?.settings[setting.name] ?? setting.present, "angle", system)}`
            : ""}
          .
        </p>
      ) : null}
      <Table
        caption="What the uncertainty comes from, each by itself, standard"
        rows={trials.FOOTAGE_SOURCES}
        rowKey={(source) => source}
        columns={[
          { key: "source", head: "Source", rowHead: true, cell: (source) => SOURCES[source] },
          {
            key: "speed",
            head: "Speed",
            number: true,
            cell: (source) => formatQuantity(budget[source].speed, "speed", system, { digits: 2 }),
          },
          {
            key: "angle",
            head: "Direction",
            number: true,
            cell: (source) => formatQuantity(budget[source].angle, "angle", system, { digits: 2 }),
          },
        ]}
      />
      <details>
        <summary>What this leaves out</summary>
        <ul>
          <li>
            A camera that is not square to the plane of the throw: 10° of turn make a length in that plane 1.5
            % short, and what comes nearer larger. Stand far off and zoom in.
          </li>
          <li>A throw that leaves that plane, and a known length that lies nearer or farther than it.</li>
          <li>A rolling shutter: rows of one frame are taken up to a thirtieth of a second apart.</li>
          <li>
            A file whose frame rate is not what it says, or changes. Gravity is compared where four free
            frames or more are tapped.
          </li>
          <li>Wind on the few metres that are filmed.</li>
        </ul>
      </details>
      {made ? (
        <>
          <SelectField
            id="film-throw"
            label="Which throw it was"
            value={made.id}
            onChange={(event) => setChosen(event.target.value)}
            choices={throws.map((each, index) => ({
              value: each.id,
              label: `${index + 1}. ${markText(each, system)}, ${whenText(each.at)}`,
            }))}
          />
          <p className="button-row">
            <Button look="main" onClick={write}>
              Write the release into throw {throws.indexOf(made) + 1}
            </Button>
          </p>
        </>
      ) : (
        <p>Write a throw down, and the release can be written into it.</p>
      )}
    </>
  );
}

const REFUSED: Record<Extract<trials.FootageResult, { ok: false }>["why"], string> = {
  scale: "The two ends of the known length lie too near to each other: tap a longer one.",
  "few-points": `Tap the projectile on ${trials.FEWEST_POINTS} frames or more after the loop has slipped.`,
  order: "A frame in the sling comes after a free one: say anew from which frame on the loop has slipped.",
};
