"use client";
import { useEffect, useState } from "react";
import { describing, FieldFrame, SelectField, TextField } from "@/app/_ui/field";
import { type Quantity, QuantityField } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { SiteGeometry } from "@/lib/api/contracts";
import { formatQuantity } from "@/lib/units";
import { FEATURE_KINDS } from "@/lib/zones/kinds";
import { readGeometry, type Shape } from "./geometry-text";

const nothing: Quantity = { text: "", value: null };

const SHAPES: Record<string, Shape> = { road: "line", "overhead-line": "line", water: "line" };

/** A feature as it is typed, not saved yet. */
export interface Preview {
  kind: string;
  name: string;
  geometry: SiteGeometry;
}

export function FeatureForm({
  slug,
  onPreview,
}: {
  slug: string;
  onPreview: (preview: Preview | null) => void;
}) {
  const system = useUnits();
  const [kind, setKind] = useState<string>("spectators");
  const [shape, setShape] = useState<Shape>("area");
  const [name, setName] = useState("");
  const [points, setPoints] = useState("");
  const [standOff, setStandOff] = useState(nothing);
  const read = readGeometry(points, shape);
  const known = FEATURE_KINDS.find((one) => one.kind === kind);
  const words = {
    id: "feature-points",
    label: "Points, one a line: latitude, longitude",
    help: "Or paste one GeoJSON feature. An area closes by itself. Drawing on the map comes later.",
    error: points.trim() !== "" && !read.ok ? read.message : null,
  };

  useEffect(() => {
    const typed = readGeometry(points, shape);
    onPreview(typed.ok ? { kind, name, geometry: typed.geometry } : null);
  }, [points, shape, kind, name, onPreview]);

  return (
    <>
      <h3>Add a feature</h3>
      <WriteForm<{ name: string }>
        label="Add a site feature"
        url={`/api/v1/contests/${slug}/features`}
        fields={["kind", "name", "standOff"]}
        body={() =>
          read.ok ? { kind, name, geometry: read.geometry, standOff: standOff.value } : read.message
        }
        submit="Add the feature"
        done={(feature) => <p>{feature.name} is on the map.</p>}
        onDone={() => {
          setName("");
          setPoints("");
          setStandOff(nothing);
        }}
      >
        {(errorFor) => (
          <>
            <SelectField
              id="feature-kind"
              label="Kind"
              help={known?.ruleText}
              value={kind}
              onChange={(event) => {
                setKind(event.target.value);
                setShape(SHAPES[event.target.value] ?? "area");
              }}
              error={errorFor("kind")}
              choices={FEATURE_KINDS.map((one) => ({ value: one.kind, label: one.title }))}
            />
            <TextField
              id="feature-name"
              label="Name"
              value={name}
              onChange={(event) => setName(event.target.value)}
              required
              error={errorFor("name")}
            />
            <SelectField
              id="feature-shape"
              label="Shape"
              value={shape}
              onChange={(event) => setShape(event.target.value as Shape)}
              choices={[
                { value: "area", label: "Area" },
                { value: "line", label: "Line" },
                { value: "point", label: "Point" },
              ]}
            />
            <FieldFrame {...words}>
              <textarea
                {...describing(words)}
                rows={6}
                spellCheck={false}
                value={points}
                onChange={(event) => setPoints(event.target.value)}
              />
            </FieldFrame>
            <QuantityField
              id="feature-stand-off"
              label="Stand-off"
              fieldName="Stand-off"
              dimension="distance"
              quantity={standOff}
              onChange={setStandOff}
              optional
              help={`How far every zone must stay away; ${formatQuantity(known?.standOff ?? 0, "distance", system)} for this kind if left empty.`}
              error={errorFor("standOff")}
            />
          </>
        )}
      </WriteForm>
    </>
  );
}
