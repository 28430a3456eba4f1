/** Bearings in words: the sixteen points that people in a field say. */
const POINTS = [
  "north",
  "north-north-east",
  "north-east",
  "east-north-east",
  "east",
  "east-south-east",
  "south-east",
  "south-south-east",
  "south",
  "south-south-west",
  "south-west",
  "west-south-west",
  "west",
  "west-north-west",
  "north-west",
  "north-north-west",
] as const;

/** The nearest of the sixteen points to a bearing in degrees. */
export const compassPoint = (degrees: number): string =>
  POINTS[((Math.round(degrees / 22.5) % 16) + 16) % 16] as string;
