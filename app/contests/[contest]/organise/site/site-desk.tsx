"use client";
/** Laying out the site by coordinates: what is typed shows on the map before it is saved. */
import { useMemo, useState } from "react";
import { MapLegend } from "@/app/_ui/map/legend";
import type { MapScene } from "@/app/_ui/map/scene";
import { SiteMap } from "@/app/_ui/map/site-map";
import { useUnits } from "@/app/_ui/units";
import type { ContestOverview } from "@/lib/api/contracts";
import { kindTitle } from "../../map/scene-of";
import { FeatureForm, type Preview } from "./feature-form";
import { FeatureList } from "./feature-list";
import { FiringPointForm, FiringPointList } from "./firing-points";

export function SiteDesk({
  slug,
  features,
  firingPoints,
  mayChange,
}: Pick<ContestOverview, "features" | "firingPoints"> & { slug: string; mayChange: boolean }) {
  const system = useUnits();
  const [preview, setPreview] = useState<Preview | null>(null);
  const scene = useMemo((): MapScene => {
    const drawn = features
      .filter(({ retired }) => !retired)
      .map(({ id, kind, name, geometry }) => ({ id, kind, kindTitle: kindTitle(kind), name, geometry }));
    const typed = preview
      ? [{ ...preview, id: "typed", kindTitle: "", name: `${preview.name || "New"} (not saved)` }]
      : [];
    return {
      features: [...drawn, ...typed],
      firingPoints: firingPoints.map(({ id, number, name, latitude, longitude }) => ({
        id,
        number,
        name,
        at: { latitude, longitude },
      })),
      zones: [],
    };
  }, [features, firingPoints, preview]);
  const kinds = [...new Set(scene.features.map(({ kind }) => kind))].map((kind) => ({
    kind,
    title: kindTitle(kind),
  }));
  return (
    <>
      <SiteMap scene={scene} shown={NONE} system={system} describedBy="site-features" />
      <MapLegend kinds={kinds} zones={false} conflicts={false} />
      <h2 id="site-features">Site features</h2>
      <FeatureList slug={slug} features={features} mayChange={mayChange} />
      {mayChange && <FeatureForm slug={slug} onPreview={setPreview} />}
      <h2>Firing points</h2>
      <p>Where machines stand. A point from which a shot was measured is not moved: lay out a new one.</p>
      <FiringPointList slug={slug} firingPoints={firingPoints} mayChange={mayChange} />
      {mayChange && <FiringPointForm slug={slug} />}
    </>
  );
}

const NONE: readonly string[] = [];
