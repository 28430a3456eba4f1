/** The air, the wind and the ground for which the numbers on a paper were reckoned: those taken for granted too. */
import { type FieldSpec, terrainFields } from "@/app/_ui/machine-form/form/fields";
import { at } from "@/app/_ui/machine-form/form/specs";
import { Table } from "@/app/_ui/table";
import { airProperties } from "@/lib/earth";
import type { HazardRequest } from "@/lib/throw";
import { formatQuantity, type UnitSystem } from "@/lib/units";

interface Row {
  label: string;
  text: string;
}

export function PaperConditions({ request, system }: { request: HazardRequest; system: UnitSystem }) {
  return (
    <Table
      caption="Wind, air and ground it was reckoned for"
      rows={conditionRows(request, system)}
      rowKey={({ label }) => label}
      columns={[
        { key: "label", head: "What", rowHead: true, cell: ({ label }) => label },
        { key: "text", head: "Taken as", cell: ({ text }) => text },
      ]}
    />
  );
}

export function conditionRows({ air = {}, terrain }: HazardRequest, system: UnitSystem): Row[] {
  const { wind } = air;
  const { temperature, pressure } = airProperties(air);
  const speed = (value: number) => formatQuantity(value, "speed", system);
  const calm = !wind || (wind.speed === 0 && !wind.gust);
  /** Nobody entered it. */
  const taken = (given: unknown) => (given === undefined ? " (usual, none was given)" : "");
  const ground = ({ path, label, dimension }: FieldSpec): Row[] => {
    const value = at({ terrain }, path);
    return typeof value === "number" && value !== 0
      ? [{ label, text: formatQuantity(value, dimension, system) }]
      : [];
  };
  const uneven = terrainFields.flatMap(ground);
  return [
    { label: "Mean wind", text: calm ? "still air" : speed(wind.speed) },
    { label: "Top gust", text: calm ? "none" : speed(wind.gust ?? wind.speed) },
    ...(calm
      ? []
      : [
          {
            label: "Wind blows towards, from the bearing",
            text: formatQuantity(wind.direction, "angle", system),
          },
          { label: "Anemometer height", text: formatQuantity(wind.height, "length", system) },
        ]),
    {
      label: "Air temperature",
      text: `${formatQuantity(temperature, "temperature", system)}${taken(air.temperature)}`,
    },
    {
      label: "Station pressure",
      text: `${formatQuantity(pressure, "pressure", system)}${
        air.pressure === undefined && air.altitude !== undefined
          ? ` (from the altitude, ${formatQuantity(air.altitude, "distance", system)})`
          : taken(air.pressure)
      }`,
    },
    ...(uneven.length > 0 ? uneven : [{ label: "Landing ground", text: "level with the machine" }]),
  ];
}
