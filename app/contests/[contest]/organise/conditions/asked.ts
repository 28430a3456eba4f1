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
    path: "angles.debris",
    label: "Debris",
    dimension: "angle",
    help: "How far to either side of the bearing, ahead and behind, pieces of a machine that breaks may go.",
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
  {
    path: "projectiles.mass.min",
    label: "Least mass thrown",
    dimension: "mass",
    optional: true,
    help: "Of the loads that the contest’s rule allows; as declared if left empty, with the largest.",
  },
  {
    path: "projectiles.mass.max",
    label: "Largest mass thrown",
    dimension: "mass",
    optional: true,
    help: "Give both or neither.",
  },
  {
    path: "projectiles.diameter.min",
    label: "Least diameter thrown",
    dimension: "length",
    optional: true,
    help: "As declared if left empty, with the largest.",
  },
  {
    path: "projectiles.diameter.max",
    label: "Largest diameter thrown",
    dimension: "length",
    optional: true,
    help: "Give both or neither.",
  },
  {
    path: "projectiles.pieceShare",
    label: "Smallest piece",
    dimension: "ratio",
    optional: true,
    help: "Share of the load that may be left in the sling when it breaks up, such as 0.4; whole if left empty.",
  },
  {
    path: "projectiles.substituteDensity",
    label: "Densest substitute",
    dimension: "density",
    optional: true,
    help: "Of a load that somebody might throw instead, as a smooth ball; none if left empty.",
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

export const policyNumbers = ({
  margin,
  angles,
  minimum,
  projectiles,
}: Policy): Record<string, number | undefined> => ({
  margin,
  "angles.aim": angles.aim,
  "angles.lean": angles.lean,
  "angles.tornSling": angles.tornSling,
  "angles.debris": angles.debris,
  "minimum.forward": minimum.forward,
  "minimum.backward": minimum.backward,
  "minimum.side": minimum.side,
  "projectiles.mass.min": projectiles?.mass?.min,
  "projectiles.mass.max": projectiles?.mass?.max,
  "projectiles.diameter.min": projectiles?.diameter?.min,
  "projectiles.diameter.max": projectiles?.diameter?.max,
  "projectiles.pieceShare": projectiles?.pieceShare,
  "projectiles.substituteDensity": projectiles?.substituteDensity,
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
