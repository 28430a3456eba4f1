"use client";
/** Pins one picture to the ground, shows how well they fit, and lays it under the map before it is saved. */
import { useMemo, useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField, TextField } from "@/app/_ui/field";
import { picturesOf, pictureUrl } from "@/app/_ui/map/laid-out";
import type { MapScene } from "@/app/_ui/map/scene";
import { SiteMap } from "@/app/_ui/map/site-map";
import { Notice } from "@/app/_ui/notice";
import { useLeaveGuard } from "@/app/_ui/site-editor/use-leave-guard";
import { useUnits } from "@/app/_ui/units";
import { useWrite } from "@/app/_ui/write/use-write";
import type { AerialPictureInfo } from "@/lib/api/contracts";
import { fitPicture, type PictureFit, type PictureModel } from "@/lib/earth";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import styles from "./picture.module.css";
import { PinMap } from "./pin-map";
import { PinTable } from "./pin-table";
import { entriesOf, type KnownPlace, type PinEntry, readPin } from "./pins";

/** A new picture that has not gone up yet, or one that is stored. */
export type Subject =
  | { kind: "new"; name: string; url: string; width: number; height: number; base64: string }
  | { kind: "stored"; picture: AerialPictureInfo };

/** A slow uplink needs minutes for some megabytes, ms. */
const PATIENCE = 300_000;
const NONE: readonly string[] = [];

export function PinDesk({
  slug,
  subject,
  places,
  site,
  around,
  onDone,
  onDrop,
}: {
  slug: string;
  subject: Subject;
  places: readonly KnownPlace[];
  /** The site as it is drawn already. */
  site: MapScene;
  around: { latitude: number; longitude: number };
  onDone: (words: string) => void;
  onDrop: () => void;
}) {
  const system = useUnits();
  const stored = subject.kind === "stored" ? subject.picture : null;
  const { width, height } = stored ?? (subject as Extract<Subject, { kind: "new" }>);
  const url = subject.kind === "new" ? subject.url : pictureUrl(slug, subject.picture.id);
  const [name, setName] = useState(subject.kind === "new" ? subject.name : subject.picture.name);
  const [pins, setPins] = useState<PinEntry[]>(() => (stored ? entriesOf(stored) : []));
  const [model, setModel] = useState<"" | PictureModel>(stored?.model ?? "");
  const [opacity, setOpacity] = useState(stored?.opacity ?? 0.7);
  const [touched, setTouched] = useState(subject.kind === "new");
  const { write, sending, trouble, errorFor } = useWrite<AerialPictureInfo>();
  useLeaveGuard(touched);

  const change = (next: PinEntry[]) => {
    setTouched(true);
    setPins(next);
  };
  const read = useMemo(() => pins.map((pin) => readPin(pin, places)), [pins, places]);
  const good = useMemo(() => read.flatMap((each) => (each.ok ? [each.pin] : [])), [read]);
  const answer = useMemo(
    () => (good.length < 2 ? null : fitPicture(good, model === "" ? undefined : model)),
    [good, model],
  );
  const fit = answer?.ok ? answer.fit : null;
  let nth = 0;
  const residuals = read.map((each) => (each.ok && fit ? (fit.residuals[nth++]?.distance ?? null) : null));

  const scene = useMemo((): MapScene => {
    const asStored = {
      id: "preview",
      name: "this picture",
      mediaType: "image/jpeg",
      width,
      height,
      sha256: "",
    } as const;
    const rest = { model: model === "" ? null : model, opacity, shown: true, retired: false, createdAt: "" };
    const laid = fit ? picturesOf(slug, [{ ...asStored, ...rest, pins: good }]) : [];
    return { ...site, pictures: laid.map((picture) => ({ ...picture, url })) };
  }, [site, slug, fit, good, model, opacity, width, height, url]);

  const save = async () => {
    const body = { name, pins: good, model: model === "" ? null : model, opacity };
    const base = `/api/v1/contests/${slug}/aerial-pictures`;
    const sent =
      subject.kind === "new"
        ? await write("POST", base, { ...body, content: subject.base64 }, PATIENCE)
        : await write("PATCH", `${base}/${subject.picture.id}`, body);
    if (sent.ok)
      onDone(`${sent.data.name} is saved${sent.data.pins.length > 0 ? " and lies under the map" : ""}.`);
  };
  const unfinished = read.some((each) => !each.ok);
  return (
    <section aria-label="Pin the picture">
      <TextField
        id="picture-name"
        label="Name"
        value={name}
        onChange={(event) => {
          setTouched(true);
          setName(event.target.value);
        }}
        error={errorFor("name")}
      />
      <p>
        Find something on the picture whose coordinates are known, tap it, and say below what it is. Two pins
        lay the picture down; more, well apart and not on a line, show how true it is.
      </p>
      <div className={styles.desk}>
        <div>
          <PinMap
            url={url}
            width={width}
            height={height}
            pins={pins}
            onPin={({ x, y }) => change([...pins, { x, y, what: "", corner: 0, text: "" }])}
            onMove={(index, to) => change(pins.with(index, { ...(pins[index] as PinEntry), ...to }))}
          />
        </div>
        <div>
          <PinTable
            pins={pins}
            places={places}
            residuals={residuals}
            problems={read.map((each) => (each.ok ? null : each.message))}
            onChange={(index, changed) =>
              change(pins.with(index, { ...(pins[index] as PinEntry), ...changed }))
            }
            onRemove={(index) => change(pins.toSpliced(index, 1))}
          />
        </div>
      </div>
      <SelectField
        id="picture-model"
        label="How it is laid down"
        value={model}
        onChange={(event) => {
          setTouched(true);
          setModel(event.target.value as "" | PictureModel);
        }}
        choices={[
          { value: "", label: "As the pins allow (recommended)" },
          { value: "similarity", label: "Turned and scaled only" },
          { value: "affine", label: "Stretched too (three pins or more)" },
        ]}
      />
      {answer && !answer.ok && (
        <Notice kind="problem" title="These pins do not fit">
          <p>{answer.problem}</p>
        </Notice>
      )}
      {fit && <FitWords fit={fit} system={system} />}
      <h3>On the map</h3>
      <SiteMap scene={scene} shown={NONE} system={system} describedBy="pins" around={around} />
      <label className={styles.strength}>
        Strength when the map opens: {Math.round(opacity * 100)} %
        <input
          type="range"
          min={5}
          max={100}
          step={5}
          value={Math.round(opacity * 100)}
          onChange={(event) => {
            setTouched(true);
            setOpacity(Number(event.target.value) / 100);
          }}
        />
      </label>
      {trouble && (
        <Notice kind="problem">
          <p>{trouble}</p>
        </Notice>
      )}
      {unfinished && <p>A pin that lacks its coordinates is left out.</p>}
      <div className="button-row">
        <Button look="main" onClick={save} aria-disabled={sending || undefined}>
          {sending ? "Saving…" : "Save the picture"}
        </Button>
        <Button onClick={() => (!touched || confirm("Drop what is not saved?")) && onDrop()}>
          {stored ? "Leave it as it was" : "Drop it"}
        </Button>
      </div>
    </section>
  );
}

/** What the fit says, in words. */
export function FitWords({ fit, system }: { fit: PictureFit; system: UnitSystem }) {
  const metres = (value: number, digits: number) => formatQuantity(value, "distance", system, { digits });
  return (
    <div role="status">
      <p>
        {fit.model === "affine" ? "Stretched, turned and scaled" : "Turned and scaled"}; a pixel is{" "}
        {metres(fit.pixel, 2)} on the ground.{" "}
        {fit.checks > 0 && `The pins are off by ${metres(fit.rms, 2)} (root mean square).`}
      </p>
      {fit.warnings.map((warning) => (
        <p key={warning}>{warning}</p>
      ))}
    </div>
  );
}
