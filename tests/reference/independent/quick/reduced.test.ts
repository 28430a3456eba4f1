/** The quick simulator against the free bodies: the same machines held, rolling, leaning, with cups and slings. */
import { expect, it } from "vitest";
import { airDensity, dragPerMass } from "../flight";
import type { ArmMachine } from "../mechanism";
import { PRESSURE, TEMPERATURE } from "../request";
import { simulate } from "../swing";
import { bruteForce } from "../worst";
import { fairRequest } from "./fair-machines";
import { searchInstants } from "./search";
import { QuickSwing } from "./swing";

const KINDS = ["hinged-counterweight", "fixed-counterweight", "floating-arm", "torsion"];
const GRAVITY = 9.80665;

/** The first pass: later whirling doubles every error several times over. */
it.each(Array.from({ length: 12 }, (_, i) => i))("lets go as the free bodies do, machine %d", (seed) => {
  const request = fairRequest(seed, KINDS);
  const load = request.projectile;
  const rolling = seed % 3 === 0;
  const machine = {
    ...request.machine,
    leanAlong: seed % 2 === 0 ? 3 : 0,
    base: rolling ? { frameMass: 30 * load.mass, footprint: 1 } : "fixed",
  } as ArmMachine;
  const k = dragPerMass(airDensity(TEMPERATURE, PRESSURE), load.drag?.low ?? 0, load.diameter, load.mass);
  const still = { gravity: GRAVITY, drag: k, lift: 0, wind: 0, anemometer: 10, below: 0, fall: 0 };
  const long = machine.kind === "torsion" ? machine.armLength : machine.longArm;
  const horizon = 5 * Math.sqrt(long / GRAVITY);
  const quick = new QuickSwing(machine, load.mass, { rolling, horizon, resolution: 200 }).run();
  const found = searchInstants(quick, { forward: [still], backward: [still] });
  const own = bruteForce(simulate(machine, load.mass, { rolling, horizon, resolution: 600 }), k, 4);
  for (const end of ["firstForward", "firstBackward", "forward", "backward"] as const) {
    const share = end.startsWith("first") ? 1e-5 : 1e-4;
    const error = Math.abs(found[end].distance - own[end].distance);
    expect(error, `${machine.kind} ${end}`).toBeLessThan(share * Math.max(1, own[end].distance));
  }
});
