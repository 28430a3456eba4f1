/** The numbers of policy and air, with the words of their fields. */
import type { Air, Policy } from "@/lib/throw";
import type { Asked } from "./quantities";

export const POLICY_ASKED: readonly Asked[] = [
  {
    path: "margin",
    label: "Margin",
    dimension: "ratio",
    help: "Multiplies every first-impact distance. 1 is no margin.",
  },
  {
    path: "angles.aim",
    label: "Aim",
    dimension: "angle",
    help: "How far off its bearing a machine may point.",
  },
  {
    path: "angles.lean",
    label: "Lean and twist",
    dimension: "angle",
    help: "Of frame and arm, either way.",
  },
  {
    path: "angles.tornSling",
    label: "Torn sling",
    dimension: "angle",
    help: "How far a projectile leaves the plane when a sling leg tears or it strikes the frame.",
  },
  {
    path: "minimum.forward",
    label: "Least forward",
    dimension: "distance",
    help: "Nobody nearer ahead, whatever the throw.",
  },
  { path: "minimum.backward", label: "Least backward", dimension: "distance", help: "Nobody nearer behind." },
  {
    path: "minimum.side",
    label: "Least to the side",
    dimension: "distance",
    help: "Nobody nearer beside it.",
  },
];

export const AIR_ASKED: readonly Asked[] = [
  {
    path: "temperature",
    label: "Temperature",
    dimension: "temperature",
    optional: true,
    help: "15 °C if left empty. Warm air is thinner: throws go farther.",
  },
  {
    path: "pressure",
    label: "Station pressure",
    dimension: "pressure",
    optional: true,
    help: "As read on the field, not brought to sea level; from the site’s height if left empty.",
  },
  {
    path: "altitude",
    label: "Altitude",
    dimension: "distance",
    optional: true,
    help: "Above the sea; serves only without a pressure.",
  },
  {
    path: "wind.speed",
    label: "Mean wind",
    dimension: "speed",
    optional: true,
    help: "The strongest mean wind in which machines may fire; still air if left empty.",
  },
  {
    path: "wind.gust",
    label: "Top gust",
    dimension: "speed",
    optional: true,
    help: "The top speed, not an addition. Worst throws take it from its worst direction.",
  },
  {
    path: "wind.height",
    label: "Anemometer height",
    dimension: "length",
    optional: true,
    help: "Above the ground; 10 m if left empty.",
  },
];

export const policyNumbers = ({ margin, angles, minimum }: Policy): Record<string, number> => ({
  margin,
  "angles.aim": angles.aim,
  "angles.lean": angles.lean,
  "angles.tornSling": angles.tornSling,
  "minimum.forward": minimum.forward,
  "minimum.backward": minimum.backward,
  "minimum.side": minimum.side,
});

/** Air may hold degrees Celsius (the contract takes both); fields hold kelvin. */
export const airNumbers = ({
  temperature,
  pressure,
  altitude,
  wind,
}: Air): Record<string, number | undefined> => ({
  temperature: temperature !== undefined && temperature <= 60 ? temperature + 273.15 : temperature,
  pressure,
  altitude,
  "wind.speed": wind?.speed,
  "wind.gust": wind?.gust,
  "wind.height": wind?.height,
});
