/**
 * D. B. Siano, Trebuchet Mechanics (2006): range efficiency = range / (2·(M/m)·drop), below 1 on level ground
 * without air, the drop being that of the counterweight to its lowest point.
 */
import { describe, expect, it } from "vitest";
import { hazardSheet, machineKind } from "@/lib/throw";
import type { SwingMachine } from "./independent/mechanism";
import { randomCase } from "./independent/random-machines";
import { exactRequest } from "./independent/request";

const dropOf = (machine: SwingMachine) =>
  machine.shortArm * (1 + Math.sin((machine.cockedAngle * Math.PI) / 180));

describe("the counterweight bound", () => {
  it.each(["hinged-counterweight", "fixed-counterweight", "floating-arm"] as const)(
    "holds for a %s",
    (kind) => {
      const example = machineKind(kind).example as SwingMachine;
      // A light arm: the bound counts the counterweight alone.
      const machine = { ...example, armMass: example.armMass / 10 };
      const load = { ...machineKind(kind).exampleProjectile, drag: 0 };
      const sheet = hazardSheet(exactRequest(machine, load, 0));
      const bound = 2 * (machine.counterweightMass / load.mass) * dropOf(machine);
      if (!sheet.nominal) throw new Error("no throw");
      const efficiency = sheet.nominal.distance / bound;
      expect(efficiency).toBeGreaterThan(0.3);
      expect(efficiency).toBeLessThan(1);
      // What energy forbids is close to the bound, and above it for the height of the release and the arm's fall.
      expect(sheet.ceiling.distance).toBeGreaterThan(sheet.worst.forward.distance);
      expect(sheet.ceiling.distance).toBeGreaterThan(0.9 * bound);
    },
  );

  it("ceiling is the energy of the counterweight and the arm in the projectile", () => {
    for (let seed = 1; seed <= 12; seed++) {
      const { machine, projectile } = randomCase(seed);
      const sheet = hazardSheet({ ...exactRequest(machine, projectile, 0), horizon: 0.1 });
      const c = (machine.cockedAngle * Math.PI) / 180;
      const armCentre = machine.armCentre ?? (machine.longArm + machine.shortArm) / 2;
      const moment =
        machine.counterweightMass * machine.shortArm - machine.armMass * (armCentre - machine.shortArm);
      const energy = 9.80665 * (moment * Math.sin(c) + Math.abs(moment));
      const speed = Math.sqrt((2 * energy) / projectile.mass);
      expect(Math.abs(sheet.ceiling.speed / speed - 1)).toBeLessThan(1e-6);
      const fulcrum = machine.kind === "floating-arm" ? machine.trackHeight : machine.pivotHeight;
      const reach = machine.longArm + machine.slingLength;
      const flight = (speed / 9.80665) * Math.sqrt(speed ** 2 + 2 * 9.80665 * (fulcrum + reach));
      expect(sheet.ceiling.distance).toBeGreaterThan(flight);
      // At most the horizontal reach beyond it: arm, sling and, for a floating arm, the way of its fulcrum.
      expect(sheet.ceiling.distance).toBeLessThan(flight + reach + machine.shortArm + 1e-6);
    }
  });
});
