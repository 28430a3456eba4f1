/**
 * Source: ASME PCC-2, Article 5.1, Mandatory Appendix II (stored energy E = 2.5·P·V·[1 − (Pa/P)^0.286], TNT =
 * E/4 266 920 J/kg) and III (least distance R ≥ max(30 m, 20·(2·TNT)^⅓) up to 135.5 MJ).
 */
import { describe, expect, test } from "vitest";
import { capWork, chamberBurst } from "@/lib/throw/faults/chamber";

const AIR = 101_325;

describe("stored energy and distance", () => {
  test("1 m³ at 11 bar absolute", () => {
    const { energy, tnt, distance } = chamberBurst(11e5, 1, 1e5);
    const byHand = 2.5 * 11e5 * (1 - (1 / 11) ** 0.286);
    expect(energy).toBeCloseTo(byHand, 6);
    expect(energy).toBeCloseTo(1.365e6, -3);
    expect(tnt).toBeCloseTo(byHand / 4_266_920, 12);
    // 20·(0.64)^⅓ = 17 m: the least of 30 m counts.
    expect(distance).toBe(30);
  });

  test("at 135.5 MJ the distance is about 80 m; beyond it the formula does not hold", () => {
    const volume = 135.4e6 / chamberBurst(11e5, 1, 1e5).energy;
    expect(chamberBurst(11e5, volume, 1e5).distance).toBeCloseTo(20 * (2 * 31.73) ** (1 / 3), 0);
    expect(chamberBurst(11e5, volume * 1.01, 1e5).distance).toBeNull();
  });

  test("no pressure above the air's, no burst", () => {
    expect(chamberBurst(AIR, 1, AIR)).toEqual({ energy: 0, tnt: 0, distance: 0 });
  });

  test("2.5 and 0.286 are those of an ideal gas of γ = 1.4, so a cap driven on takes less than all", () => {
    for (const bars of [2, 5, 10]) {
      const pressure = AIR + bars * 1e5;
      const work = capWork(pressure, 0.02, AIR);
      expect(work).toBeGreaterThan(0);
      expect(work).toBeLessThan(chamberBurst(pressure, 0.02, AIR).energy);
    }
    expect(capWork(1e6, 0.01, 0)).toBeCloseTo(2.5 * 1e4 * (1 - 2 ** -0.4), 6);
  });
});
