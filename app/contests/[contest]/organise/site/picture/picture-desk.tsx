"use client";
/** The pictures of this contest, and the way to a new one. */
import { useRouter } from "next/navigation";
import { type ChangeEvent, useEffect, useMemo, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { FieldError } from "@/app/_ui/field";
import { marksOf } from "@/app/_ui/map/laid-out";
import type { MapScene } from "@/app/_ui/map/scene";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import { WriteForm } from "@/app/_ui/write/write-form";
import { type Site, sceneOf } from "@/app/_ui/zones/scene-of";
import type { AerialPictureInfo, ContestOverview } from "@/lib/api/contracts";
import { fitPicture } from "@/lib/earth";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { Retire } from "../../retire";
import styles from "./picture.module.css";
import { PinDesk, type Subject } from "./pin-desk";
import { knownPlaces } from "./pins";
import { reencode } from "./reencode";

export function PictureDesk({
  slug,
  site,
  mayChange,
}: {
  slug: string;
  site: Site & Pick<ContestOverview, "latitude" | "longitude">;
  mayChange: boolean;
}) {
  const system = useUnits();
  const router = useRouter();
  const [subject, setSubject] = useState<Subject | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const [done, setDone] = useState<string | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const places = useMemo(() => knownPlaces(site), [site]);
  const scene = useMemo((): MapScene => ({ ...sceneOf(site), marks: marksOf(site, system) }), [site, system]);
  const url = subject?.kind === "new" ? subject.url : null;
  useEffect(() => () => (url ? URL.revokeObjectURL(url) : undefined), [url]);

  const take = async (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    if (!file) return;
    setBusy(true);
    setDone(null);
    const made = await reencode(file);
    setBusy(false);
    setRefused(made.ok ? null : made.message);
    if (input.current) input.current.value = "";
    if (!made.ok) return;
    const { blob, width, height, base64 } = made;
    const name = file.name.replace(/\.[a-z0-9]+$/i, "").slice(0, 80) || "Picture";
    setSubject({ kind: "new", name, url: URL.createObjectURL(blob), width, height, base64 });
  };
  const finish = (words: string) => {
    setSubject(null);
    setDone(words);
    router.refresh();
  };

  if (subject)
    return (
      <PinDesk
        key={subject.kind === "new" ? subject.url : subject.picture.id}
        slug={slug}
        subject={subject}
        places={places}
        site={scene}
        around={site}
        onDone={finish}
        onDrop={() => setSubject(null)}
      />
    );
  return (
    <>
      {done && (
        <Notice kind="done" live>
          <p>{done}</p>
        </Notice>
      )}
      {mayChange && (
        <div className="field">
          <label htmlFor="picture-file">A new picture</label>
          <p className="field-help" id="picture-file-help">
            A photo from above, a scan of a plan: JPEG, PNG or WebP, at most 12 MB. It is drawn anew here
            before it goes up: where and by whom it was taken does not go with it.
          </p>
          <input
            ref={input}
            id="picture-file"
            type="file"
            accept="image/jpeg,image/png,image/webp"
            aria-describedby={`picture-file-help${refused ? " picture-file-error" : ""}`}
            aria-invalid={refused ? true : undefined}
            disabled={busy}
            onChange={take}
          />
          <FieldError id="picture-file" error={refused} />
          <p role="status">{busy ? "Reading the picture…" : ""}</p>
        </div>
      )}
      <h2>Pictures of this contest</h2>
      <Table
        caption="Pictures of this contest"
        stacks
        hideCaption
        rows={site.aerialPictures}
        rowKey={({ id }) => id}
        empty="No picture is laid under the map yet. The map needs none."
        columns={[
          { key: "name", head: "Name", rowHead: true, cell: ({ name }) => name },
          { key: "size", head: "Pixels", number: true, cell: ({ width, height }) => `${width} × ${height}` },
          { key: "fit", head: "Pins", cell: (picture) => fitText(picture, system) },
          {
            key: "change",
            head: mayChange ? "Change" : "State",
            cell: (picture) => {
              const address = `/api/v1/contests/${slug}/aerial-pictures/${picture.id}`;
              if (!mayChange)
                return picture.retired ? "retired" : picture.shown ? "shown" : "hidden at first";
              return (
                <span className={styles.rowTools}>
                  {!picture.retired && (
                    <>
                      <Button
                        aria-label={`Pin ${picture.name}`}
                        onClick={() => {
                          setDone(null);
                          setSubject({ kind: "stored", picture });
                        }}
                      >
                        Pin it
                      </Button>
                      <WriteForm
                        label={`${picture.shown ? "Hide" : "Show"} ${picture.name}`}
                        method="PATCH"
                        url={address}
                        body={() => ({ shown: !picture.shown })}
                        submit={picture.shown ? "Hide at first" : "Show at first"}
                        look="plain"
                      >
                        {() => null}
                      </WriteForm>
                    </>
                  )}
                  <Retire
                    url={address}
                    name={picture.name}
                    retired={picture.retired}
                    meaning="Retired: drawn nowhere."
                  />
                </span>
              );
            },
          },
        ]}
      />
    </>
  );
}

function fitText({ pins, model }: AerialPictureInfo, system: UnitSystem): string {
  if (pins.length === 0) return "not pinned yet";
  const answer = fitPicture(pins, model ?? undefined);
  if (!answer.ok) return answer.problem;
  const { checks, rms } = answer.fit;
  const off = formatQuantity(rms, "distance", system, { digits: 2 });
  return checks > 0 ? `${pins.length}, off by ${off}` : `${pins.length}, unchecked`;
}
