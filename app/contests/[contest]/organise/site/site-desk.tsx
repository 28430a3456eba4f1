"use client";
/**
 * Laying out the site: on the map by taps, or by numbers in the table beside it. Nothing is saved before "Save";
 * what is begun stays on this device.
 */
import { useRouter } from "next/navigation";
import { type KeyboardEvent, useMemo, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { EditTools } from "@/app/_ui/map/edit/edit-tools";
import { joined, type Snapped, targetsOf } from "@/app/_ui/map/edit/snap";
import { useEditLayer } from "@/app/_ui/map/edit/use-edit-layer";
import { marksOf, picturesOf } from "@/app/_ui/map/laid-out";
import { MapLegend } from "@/app/_ui/map/legend";
import type { MapScene } from "@/app/_ui/map/scene";
import { type Opened, SiteMap } from "@/app/_ui/map/site-map";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import type { ContestOverview } from "@/lib/api/contracts";
import { FEATURE_KINDS } from "@/lib/zones/kinds";
import { kindsIn, type Site, sceneOf } from "../../map/scene-of";
import { draftOf, newDraft, POINT_ITEMS, subjectOf } from "./draft";
import { DraftPanel } from "./draft-panel";
import { FeatureList } from "./feature-list";
import { PointLists } from "./point-lists";
import styles from "./site.module.css";
import { useDraft } from "./use-draft";
import { useLeaveGuard } from "./use-leave-guard";

const ITEMS = [
  ...FEATURE_KINDS.map(({ kind, title }) => ({ value: kind as string, label: title })),
  ...Object.entries(POINT_ITEMS).map(([value, label]) => ({ value, label })),
];
const NONE: readonly string[] = [];
const NOTHING_TO_CATCH = joined([]);

type Contest = Site & Pick<ContestOverview, "latitude" | "longitude" | "height" | "declination">;

export function SiteDesk({ slug, site, mayChange }: { slug: string; site: Contest; mayChange: boolean }) {
  const system = useUnits();
  const router = useRouter();
  const { draft, restored, begin, dispatch, setFields } = useDraft(slug);
  const [item, setItem] = useState<string>("boundary");
  const [opened, setOpened] = useState<Opened | null>(null);
  const [snapping, setSnapping] = useState(true);
  const [said, setSaid] = useState("");
  const [done, setDone] = useState<string | null>(null);
  const desk = useRef<HTMLDivElement>(null);
  const current = mayChange ? draft : null;
  useLeaveGuard(current !== null);

  const pictures = useMemo(() => picturesOf(slug, site.aerialPictures), [slug, site.aerialPictures]);
  const editedId = current?.id ?? null;
  const whole = useMemo(
    (): MapScene => ({ ...sceneOf(site), marks: marksOf(site, system), pictures }),
    [site, system, pictures],
  );
  // What is being changed is drawn by its handles alone; the map does not jump for it.
  const scene = useMemo((): MapScene => {
    const others = <T extends { id: string }>(all: readonly T[] = []) =>
      all.filter(({ id }) => id !== editedId);
    return {
      ...whole,
      features: others(whole.features),
      firingPoints: others(whole.firingPoints),
      marks: others(whole.marks),
    };
  }, [whole, editedId]);

  const targets = useMemo(() => {
    const point = (at: { latitude: number; longitude: number }, of: string) => ({
      corners: [{ at, of }],
      edges: [],
    });
    return joined([
      ...scene.features.map(({ geometry, name }) => targetsOf(geometry, name)),
      ...scene.firingPoints.map(({ at, number }) => point(at, `firing point ${number}`)),
      ...(scene.marks ?? []).map(({ at, what, text }) =>
        point(at, what === "control-point" ? `control point ${text}` : `height ${text}`),
      ),
    ]);
  }, [scene]);
  const known = useMemo(
    () => [
      ...site.controlPoints
        .filter(({ id, retired }) => !retired && id !== editedId)
        .map(({ id, name, latitude, longitude }) => ({
          id,
          name: `Control point ${name}`,
          at: { latitude, longitude },
        })),
      ...site.firingPoints
        .filter(({ id, retired }) => !retired && id !== editedId)
        .map(({ id, number, latitude, longitude }) => ({
          id,
          name: `Firing point ${number}`,
          at: { latitude, longitude },
        })),
    ],
    [site, editedId],
  );
  useEditLayer(opened, current?.drawing ?? null, {
    dispatch: (action) => {
      if (action.do !== "add" && action.do !== "place") setSaid("");
      dispatch(action);
    },
    targets: snapping ? targets : NOTHING_TO_CATCH,
    caught: (snapped) => setSaid(caughtWords(snapped)),
  });

  const start = (next: typeof draft) => {
    if (current && !confirm("What you have drawn is not saved. Drop it and begin something else?")) return;
    setDone(null);
    setSaid("");
    begin(next);
    // Once the page has made room: on a phone the map is then at the top.
    requestAnimationFrame(() => desk.current?.scrollIntoView({ block: "start" }));
  };
  const edit = (what: string, id: string) => start(draftOf(what, id, site, system));
  const finish = (words: string) => {
    begin(null);
    setDone(words);
    router.refresh();
  };
  const keys = (event: KeyboardEvent) => {
    const typing = event.target instanceof HTMLElement && event.target.matches("input, textarea, select");
    if (typing || !current || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
    event.preventDefault();
    dispatch({ do: event.shiftKey ? "redo" : "undo" });
  };

  const subject = current?.id ? subjectOf(current, site) : null;
  const overtaken = current?.id ? JSON.stringify(subject) !== current.base : false;
  const kinds = kindsIn(scene);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: undo by keyboard wherever in the desk the focus is
    <div onKeyDown={keys} ref={desk}>
      {done && (
        <Notice kind="done" live>
          <p>{done}</p>
        </Notice>
      )}
      {mayChange && !current && (
        <div className={styles.begin}>
          <SelectField
            id="draw-what"
            label="Lay out something new"
            value={item}
            onChange={(event) => setItem(event.target.value)}
            choices={ITEMS}
          />
          <Button look="main" onClick={() => start(newDraft(item))}>
            Draw it
          </Button>
        </div>
      )}
      <div className={current ? `${styles.desk} ${styles.drawing}` : styles.desk}>
        <div className={styles.picture}>
          <SiteMap
            scene={scene}
            whole={whole}
            shown={NONE}
            system={system}
            describedBy={current ? "corners" : "site-features"}
            around={site}
            onOpen={setOpened}
          />
          {current && (
            <EditTools
              drawing={current.drawing}
              dispatch={(action) => {
                setSaid("");
                dispatch(action);
              }}
              snapping={snapping}
              onSnapping={setSnapping}
              said={said}
            />
          )}
          {!current && (
            <MapLegend
              kinds={kinds}
              zones={false}
              conflicts={false}
              controlPoints={scene.marks?.some(({ what }) => what === "control-point")}
              spotHeights={scene.marks?.some(({ what }) => what === "spot-height")}
            />
          )}
        </div>
        {current && (
          <DraftPanel
            key={`${current.item} ${current.id}`}
            slug={slug}
            draft={current}
            restored={restored}
            overtaken={overtaken}
            known={known}
            site={site}
            dispatch={dispatch}
            onFields={setFields}
            onSaved={finish}
            onDrop={() => {
              if (current.drawing.past.length === 0 || confirm("Drop what you have drawn?")) begin(null);
            }}
          />
        )}
      </div>
      <h2 id="site-features">Site features</h2>
      <FeatureList slug={slug} features={site.features} onEdit={mayChange ? edit : null} />
      <PointLists
        slug={slug}
        firingPoints={site.firingPoints}
        controlPoints={site.controlPoints}
        spotHeights={site.spotHeights}
        onEdit={mayChange ? edit : null}
      />
    </div>
  );
}

const caughtWords = (snapped: Snapped | null): string => (snapped ? `Snapped to ${snapped.of}.` : "");
