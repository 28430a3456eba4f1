export const STATES = {
  safe: "made safe",
  raising: "raising",
  armed: "armed",
  fired: "fired",
  misfired: "misfired",
} as const;
