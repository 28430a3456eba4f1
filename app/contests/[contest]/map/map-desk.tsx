"use client";
/**
 * The map, what its zones touch, and the tables that say the same. Everything is drawn from data that came with
 * the page; live events bring newer ones when there is a network, and without it the last ones stay.
 */
import { useEffect, useMemo, useRef, useState } from "react";
import { Caution } from "@/app/_ui/caution";
import { SelectField } from "@/app/_ui/field";
import { useLive } from "@/app/_ui/live/use-live";
import { useStale } from "@/app/_ui/live/use-stale";
import { LocalTime } from "@/app/_ui/local-time";
import { marksOf, picturesOf } from "@/app/_ui/map/laid-out";
import { MapLegend } from "@/app/_ui/map/legend";
import { SiteMap } from "@/app/_ui/map/site-map";
import { useUnits } from "@/app/_ui/units";
import { ConflictList } from "@/app/_ui/zones/conflict-list";
import { kindsIn, type Site, sceneOf, siteOf } from "@/app/_ui/zones/scene-of";
import { StandClearList } from "@/app/_ui/zones/stand-clear-list";
import type { ContestOverview, WindHistory, WindOfDay, Zones } from "@/lib/api/contracts";
import { isLoosened } from "@/lib/zones/kinds";
import { useExpiry } from "../wind/use-expiry";
import { NoLongerHolds, WindState } from "../wind/wind-state";
import { DayWords } from "./day-words";
import { type Contours, LandingContoursPanel } from "./landing-contours";
import styles from "./map-page.module.css";
import { SiteTables } from "./site-tables";
import { ZoneCard } from "./zone-card";

/** An answer that failed to come is asked for again after this, ms; one may take some seconds. */
const AGAIN = 10_000;
const SHOWS = new Set(["layout", "machine", "conditions", "sheet", "entry"]);

export function MapDesk({
  slug,
  site: firstSite,
  zones: firstZones,
  wind: firstWind,
  at,
  sequence,
  opens,
}: {
  slug: string;
  site: Site;
  zones: Zones;
  wind: WindOfDay;
  /** When the server read them, ISO 8601. */
  at: string;
  /** Of the newest scorebook entry that these show. */
  sequence: number;
  /** Whose machines' pages the reader may open: everybody's, one entrant's, nobody's. */
  opens: string | null;
}) {
  const system = useUnits();
  const [data, setData] = useState({ site: firstSite, zones: firstZones, wind: firstWind, at });
  const [choice, setChoice] = useState("all");
  const base = `/api/v1/contests/${slug}`;

  const { stale, changed, ask } = useStale();
  const refresh = async () => {
    const newest = ask();
    try {
      const [overview, zones, wind] = await Promise.all(
        [base, `${base}/zones`, `${base}/wind-readings`].map(async (url) => {
          const response = await fetch(url, { cache: "no-store" });
          if (!response.ok) throw new Error(String(response.status));
          return response.json();
        }),
      );
      if (!newest()) return;
      setData({
        site: siteOf(overview as ContestOverview),
        zones: zones as Zones,
        wind: (wind as WindHistory).now,
        at: new Date().toISOString(),
      });
    } catch {
      // No network: what is drawn stays, and is asked for again.
    }
  };
  const again = useRef(refresh);
  again.current = refresh;
  useEffect(() => {
    if (!stale) return;
    const timer = setInterval(() => navigator.onLine && void again.current(), AGAIN);
    return () => clearInterval(timer);
  }, [stale]);
  const heard = useLive(`${base}/live`, sequence, (change, missed) => {
    if (!missed && !SHOWS.has(change.kind)) return;
    changed();
    void refresh();
  });
  useExpiry(data.wind, refresh);

  const [contours, setContours] = useState<Contours | null>(null);
  const pictures = useMemo(() => picturesOf(slug, data.site.aerialPictures), [slug, data]);
  const scene = useMemo(
    () => ({
      ...sceneOf(data.site, data.zones),
      marks: marksOf(data.site, system),
      pictures,
      contours:
        contours?.answer.features.map(({ geometry, properties }) => ({
          share: properties.share,
          geometry,
        })) ?? [],
    }),
    [data, system, pictures, contours],
  );
  const all = data.zones.features.map(({ properties }) => properties);
  const known = choice === "all" || all.some(({ machineId }) => machineId === choice);
  const chosen = known ? choice : "all";
  const zones = chosen === "all" ? all : all.filter(({ machineId }) => machineId === chosen);
  const shown = useMemo(
    () =>
      scene.zones
        .map(({ machineId }) => machineId)
        .filter((machineId) => chosen === "all" || machineId === chosen),
    [scene, chosen],
  );
  const [alone] = chosen === "all" ? [] : scene.zones.filter(({ machineId }) => machineId === chosen);
  const mayOpen = (entrantId: string) => opens === "all" || opens === entrantId;
  const loosened = data.site.features.filter((feature) => !feature.retired && isLoosened(feature));
  const kinds = kindsIn(scene);

  return (
    <>
      <WindState slug={slug} wind={data.wind} system={system} />
      <div className={styles.desk}>
        <div className={styles.picture}>
          <SelectField
            id="zones-shown"
            label="Zones shown"
            value={chosen}
            onChange={(event) => {
              setChoice(event.target.value);
              setContours(null);
            }}
            choices={[
              { value: "all", label: `All machines (${all.length})` },
              ...all.map((zone) => ({
                value: zone.machineId,
                label: `${zone.machineName}, firing point ${zone.firingPointNumber}`,
              })),
            ]}
          />
          <SiteMap scene={scene} shown={shown} system={system} describedBy="zones-table" />
          <MapLegend
            kinds={kinds}
            zones={scene.zones.length > 0}
            conflicts={scene.zones.some(({ conflicts }) => conflicts.length > 0)}
            contours={scene.contours.length > 0}
            day={Boolean(scene.day) && shown.length > 1}
            controlPoints={scene.marks.some(({ what }) => what === "control-point")}
            spotHeights={scene.marks.some(({ what }) => what === "spot-height")}
          />
          {alone && zones[0] && mayOpen(zones[0].entrantId) && (
            <LandingContoursPanel
              key={chosen}
              base={base}
              machine={zones[0]}
              origin={alone.origin}
              contours={contours}
              onContours={setContours}
              system={system}
            />
          )}
          <p className={styles.heard}>
            {heard.open ? (
              "Drawn from this contest’s own data. Changes show by themselves."
            ) : (
              <>
                No word from the server: drawn from this contest’s data as of <LocalTime iso={data.at} day />.
                The map works on without a network.
              </>
            )}
          </p>
        </div>
        <div className={styles.words}>
          <ConflictList zones={zones} loosened={loosened} stale={stale} system={system} />
          {chosen === "all" && <DayWords zones={data.zones} system={system} />}
        </div>
      </div>
      <StandClearList zones={zones} system={system} slug={slug} />
      <NoLongerHolds wind={data.wind} system={system} />
      <h2 id="zones">{chosen === "all" ? "The zones, machine by machine" : "The zone"}</h2>
      {all.length === 0 && (
        <p>
          No machine has a firing point and a bearing yet, so there is no zone to draw. The organiser places
          machines.
        </p>
      )}
      {chosen === "all" && zones.length > 0 && (
        <Caution title="failures may exceed every zone">
          <p>{data.zones.caution}</p>
        </Caution>
      )}
      <div className={styles.cards}>
        {zones.map((zone) => (
          <ZoneCard
            key={zone.machineId}
            slug={slug}
            zone={zone}
            policy={data.zones.policy}
            caution={data.zones.caution}
            system={system}
            open={chosen !== "all"}
            mayOpen={mayOpen(zone.entrantId)}
          />
        ))}
      </div>
      <SiteTables site={data.site} zones={all} system={system} />
    </>
  );
}
