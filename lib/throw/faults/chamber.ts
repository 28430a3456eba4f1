/** The failures of a chamber under gas pressure, and of what closes it. */
import type { Fault, Figure } from "../contracts/faults";
import { adiabaticWork } from "../machines/chamber";
import type { FormulaParts } from "../machines/kind";
import { circle, type PieceFlights, reachOf } from "./flights";

/** J of stored energy that count as 1 kg of TNT. Source: ASME PCC-2, Article 5.1, Appendix II. */
const TNT = 4_266_920;
/** Stored energy up to which the fixed distance formula holds, J. Source: ASME PCC-2, Article 5.1, Appendix III. */
const LARGEST = 135.5e6;
/** Share of the burst's energy that one fragment of the cap's mass takes. Common practice, no source. */
const FRAGMENT_SHARE = 0.2;

export interface ChamberBurst {
  /** Energy that the gas gives when the chamber bursts, J. */
  energy: number;
  /** The same as kg of TNT. */
  tnt: number;
  /** Least distance for the blast, m: nothing for fragments. Null above the energy that the formula holds for. */
  distance: number | null;
}

/**
 * Stored energy and blast distance of a chamber of air or nitrogen.
 * Source: ASME PCC-2, Article 5.1, Appendix II: E = 2.5·P·V·[1 − (Pa/P)^0.286]; Appendix III: R ≥ max(30 m,
 * 20·(2·TNT)^⅓) up to 135.5 MJ.
 * @param pressure absolute, Pa; @param volume m³; @param around of the air, Pa
 */
export function chamberBurst(pressure: number, volume: number, around: number): ChamberBurst {
  if (!(pressure > around)) return { energy: 0, tnt: 0, distance: 0 };
  const energy = 2.5 * pressure * volume * (1 - (around / pressure) ** 0.286);
  const tnt = energy / TNT;
  return { energy, tnt, distance: energy > LARGEST ? null : Math.max(30, 20 * Math.cbrt(2 * tnt)) };
}

/**
 * Work of the gas on a cap that it drives off until it has doubled its volume, less that against the air, J: the
 * stroke is the chamber's own length, whatever its width.
 */
export function capWork(pressure: number, volume: number, around: number): number {
  const area = 1;
  return Math.max(
    0,
    adiabaticWork({ volume, pressure, area, length: volume / area, atmosphere: around, friction: 0 }),
  );
}

export function chamberFaults(parts: FormulaParts, around: number, flights: PieceFlights): Fault[] {
  const { chamberPressure, chamberVolume, capMass, muzzleHeight = 0 } = parts;
  if (chamberPressure === undefined || chamberVolume === undefined) return [];
  const pressure = chamberPressure + around;
  const burst = chamberBurst(pressure, chamberVolume, around);
  const work = capWork(pressure, chamberVolume, around);
  const weighed = capMass !== undefined && capMass > 0;
  const speedOf = (energy: number) => (weighed ? Math.sqrt((2 * energy) / capMass) : null);
  const thrown = (name: string, energy: number) => {
    const speed = speedOf(energy);
    if (speed === null || !weighed) return [];
    return flights.flyAnywhere({ name, mass: capMass }, speed, muzzleHeight, null);
  };
  const around360 = (pieces: ReturnType<typeof thrown>, least: number) => {
    const { reach, rest } = reachOf(pieces);
    const reached = Math.max(least, reach.forward, reach.backward);
    return {
      pieces,
      reach: circle(reached),
      rest: circle(Math.max(reached, rest.forward, rest.backward)),
      allRound: true,
    };
  };
  const figure = (code: string, label: string, value: number | null, unit: Figure["unit"]): Figure => ({
    code,
    label,
    value,
    unit,
  });
  const unweighed = weighed
    ? []
    : ["The mass of the chamber's cap is not declared: how far it flies cannot be told. Weigh it."];
  const beyond =
    burst.distance === null
      ? [
          "The stored energy is beyond what the distance formula holds for: an engineer must set the distance.",
        ]
      : [];
  const body =
    "Pieces fly as compact as steel with the low drag of an irregular body, any way that carries them farthest.";
  return [
    {
      code: "chamber-bursts",
      title: "The chamber bursts",
      assumptions: [
        "ASME PCC-2, Article 5.1: all the gas expands at once; its distance is for the blast alone.",
        `One fragment as heavy as the cap takes ${100 * FRAGMENT_SHARE} % of the energy.`,
        body,
      ],
      notes: [
        ...beyond,
        ...unweighed,
        "Brittle plastics throw many sharp light fragments; never use pipe not rated for compressed gas.",
      ],
      figures: [
        figure("burst-energy", "Energy of the burst", burst.energy, "J"),
        figure("tnt", "As TNT", burst.tnt, "kg"),
        figure("blast-distance", "Least distance for the blast", burst.distance, "m"),
        figure("fragment-speed", "Speed of the fragment", speedOf(FRAGMENT_SHARE * burst.energy), "m/s"),
      ],
      ...around360(
        thrown("Fragment as heavy as the cap", FRAGMENT_SHARE * burst.energy),
        burst.distance ?? 0,
      ),
    },
    {
      code: "cap-ejected",
      title: "The cap, or what closes the chamber, is shot off",
      assumptions: [
        "The gas drives the cap until it has doubled its volume, and nothing else holds it; most of them go backwards.",
        body,
      ],
      notes: unweighed,
      figures: [
        figure("cap-work", "Work of the gas on the cap", work, "J"),
        figure("cap-speed", "Speed of the cap", speedOf(work), "m/s"),
      ],
      ...around360(thrown("Cap", work), 0),
    },
    {
      code: "barrel-ejected",
      title: "Barrel or valve is shot off",
      assumptions: [
        "As the cap: the same work of the gas on a part no lighter than the cap. A lighter valve flies faster: weigh it and declare the lighter mass as the cap's.",
        body,
      ],
      notes: unweighed,
      figures: [figure("barrel-speed", "Speed of a part as heavy as the cap", speedOf(work), "m/s")],
      ...around360(thrown("Barrel or valve as light as the cap", work), 0),
    },
  ];
}
