"use client";
/**
 * Laying out the site: on the map by taps, or by numbers in the table beside it. Nothing is saved before "Save";
 * what is begun stays on this device.
 */
import { Fragment, type KeyboardEvent, type ReactNode, useEffect, useMemo, useRef, useState } from "react";
import { FEATURE_KINDS } from "@/lib/zones/kinds";
import { Button } from "../button";
import { SelectField } from "../field";
import { EditTools } from "../map/edit/edit-tools";
import { joined, type Snapped, targetsOf } from "../map/edit/snap";
import { useEditLayer } from "../map/edit/use-edit-layer";
import { marksOf } from "../map/laid-out";
import { MapLegend } from "../map/legend";
import type { MapScene, ScenePicture } from "../map/scene";
import { type Opened, SiteMap } from "../map/site-map";
import { Notice } from "../notice";
import { useUnits } from "../units";
import { kindsIn, type Site, sceneOf, type Zoned } from "../zones/scene-of";
import { draftOf, type LaidOut, newDraft, POINT_ITEMS, subjectOf } from "./draft";
import type { SiteOf } from "./draft-fields";
import type { DraftPanelProps } from "./draft-panel";
import { FeatureList, type Thing } from "./feature-list";
import { PointLists } from "./point-lists";
import styles from "./site-editor.module.css";
import { useDraft } from "./use-draft";
import { useLeaveGuard } from "./use-leave-guard";

const ITEMS = [
  ...FEATURE_KINDS.map(({ kind, title }) => ({ value: kind as string, label: title })),
  ...Object.entries(POINT_ITEMS).map(([value, label]) => ({ value, label })),
];
const NOTHING_TO_CATCH = joined([]);

type EditedSite = LaidOut &
  Partial<Pick<Site, "barriers">> & {
    latitude: number;
    longitude: number;
    height: number;
    declination: number;
  };

const NO_ZONES: Zoned = { features: [] };
const NO_PICTURES: readonly ScenePicture[] = [];

export function SiteEditor({
  name,
  of,
  site,
  pictures = NO_PICTURES,
  zones = NO_ZONES,
  lastZones = zones,
  mayChange,
  panel,
  away,
  onChanged,
  onOpen,
  below,
}: {
  /** Under which what is begun stays on this device: of a contest its slug, elsewhere a name that no slug can have. */
  name: string;
  of: SiteOf;
  site: EditedSite;
  pictures?: readonly ScenePicture[];
  /** Drawn with what is laid out. */
  zones?: Zoned;
  /** Those that the map makes room for: it need not jump while a zone is worked out anew. */
  lastZones?: Zoned;
  mayChange: boolean;
  /** The panel of a draft, with its way to be saved. */
  panel: (props: DraftPanelProps) => ReactNode;
  /** The button that takes something off the map. */
  away: (thing: Thing) => ReactNode;
  onChanged?: () => void;
  /** Told when the map is there to be drawn on, and when it is gone. */
  onOpen?: (opened: Opened | null) => void;
  /** Between the map and the lists. */
  below?: ReactNode;
}) {
  const system = useUnits();
  const { draft, restored, begin, dispatch, setFields } = useDraft(name);
  const [item, setItem] = useState<string>("boundary");
  const [opened, setOpened] = useState<Opened | null>(null);
  const [snapping, setSnapping] = useState(true);
  const [said, setSaid] = useState("");
  const [done, setDone] = useState<string | null>(null);
  const desk = useRef<HTMLDivElement>(null);
  const current = mayChange ? draft : null;
  useLeaveGuard(current !== null);

  const editedId = current?.id ?? null;
  const whole = useMemo(
    (): MapScene => ({ ...sceneOf(site, lastZones), marks: marksOf(site, system), pictures }),
    [site, lastZones, system, pictures],
  );
  const drawn = useMemo(() => sceneOf(site, zones).zones, [site, zones]);
  const shown = useMemo(() => drawn.map(({ machineId }) => machineId), [drawn]);
  // What is being changed is drawn by its handles alone; the map does not jump for it.
  const scene = useMemo((): MapScene => {
    const others = <T extends { id: string }>(all: readonly T[] = []) =>
      all.filter(({ id }) => id !== editedId);
    return {
      ...whole,
      zones: drawn,
      features: others(whole.features),
      firingPoints: others(whole.firingPoints),
      marks: others(whole.marks),
    };
  }, [whole, drawn, editedId]);

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

  useEffect(() => onOpen?.(opened), [onOpen, opened]);

  const start = (next: typeof draft) => {
    if (current && !confirm("What you have drawn is not saved. Drop it and begin something else?")) return;
    setDone(null);
    setSaid("");
    begin(next);
    // Once the page has made room: on a phone the map is then at the top.
    requestAnimationFrame(() => desk.current?.scrollIntoView({ block: "start" }));
  };
  const edit = (what: string, id: string) => start(draftOf(what, id, site, system));
  /** The panel goes, with the button that was pressed: the next thing is laid out from there. */
  const close = () => {
    begin(null);
    requestAnimationFrame(() => document.getElementById("draw-what")?.focus({ preventScroll: true }));
  };
  const finish = (words: string) => {
    close();
    setDone(words);
    onChanged?.();
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
  const tools = mayChange ? { edit, away } : null;
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
            shown={shown}
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
              zones={drawn.length > 0}
              conflicts={drawn.some(({ conflicts }) => conflicts.length > 0)}
              controlPoints={scene.marks?.some(({ what }) => what === "control-point")}
              spotHeights={scene.marks?.some(({ what }) => what === "spot-height")}
            />
          )}
        </div>
        {current && (
          <Fragment key={`${current.item} ${current.id}`}>
            {panel({
              of,
              draft: current,
              restored,
              overtaken,
              known,
              site,
              dispatch,
              onFields: setFields,
              onSaved: finish,
              onDrop: () => {
                if (current.drawing.past.length === 0 || confirm("Drop what you have drawn?")) close();
              },
            })}
          </Fragment>
        )}
      </div>
      {below}
      <h2 id="site-features">Site features</h2>
      <FeatureList features={site.features} retires={of === "contest"} tools={tools} />
      <PointLists
        of={of}
        firingPoints={site.firingPoints}
        controlPoints={site.controlPoints}
        spotHeights={site.spotHeights}
        tools={tools}
      />
    </div>
  );
}

const caughtWords = (snapped: Snapped | null): string => (snapped ? `Snapped to ${snapped.of}.` : "");
