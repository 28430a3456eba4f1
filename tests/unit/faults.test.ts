/** Failures against cases that can be reckoned by hand, and against each other. */
import { describe, expect, test } from "vitest";
import {
  type Fault,
  type FaultCode,
  faultSchema,
  type HazardRequest,
  hazardRequestSchema,
  MACHINE_KINDS,
  strengthsSchema,
} from "@/lib/throw";
import { workOut } from "@/lib/throw/case";
import { faults } from "@/lib/throw/faults/faults";
import { PieceFlights } from "@/lib/throw/faults/flights";
import type { StrengthRequest } from "@/lib/throw/loads/loads";
import { setupOf } from "@/lib/throw/setup";
import { storedEnergy } from "@/lib/throw/swing/energy";
import { SwingReleases } from "@/lib/throw/swing/releases";

const G = 9.80665;

function example(
  kind: string,
  machine: object = {},
  more: object = {},
  projectile: object = {},
): HazardRequest {
  const found = MACHINE_KINDS.find((candidate) => candidate.kind === kind);
  if (!found) throw new Error(kind);
  return hazardRequestSchema.parse({
    machine: { ...found.example, ...machine },
    projectile: { ...found.exampleProjectile, ...projectile },
    ...more,
  });
}

const faultsOf = (request: StrengthRequest) => faults(request, workOut(request));

function pick(list: readonly Fault[], code: FaultCode): Fault {
  const found = list.find((fault) => fault.code === code);
  if (!found) throw new Error(`no ${code}`);
  return found;
}

function figure(fault: Fault, code: string): number {
  const found = fault.figures.find((candidate) => candidate.code === code);
  if (!found || found.value === null) throw new Error(`no ${code}`);
  return found.value;
}

describe("dry fire", () => {
  test("a machine without a stop keeps all its stored energy", () => {
    const request = example("fixed-counterweight");
    const { machine } = request;
    if (machine.kind !== "fixed-counterweight") throw new Error("fixed");
    const list = faultsOf(request);
    const offset = (machine.longArm + machine.shortArm) / 2 - machine.shortArm;
    const moment = machine.counterweightMass * machine.shortArm - machine.armMass * offset;
    // From the short end up at the cocked angle to hanging straight down.
    const byHand = G * moment * (1 + Math.sin((machine.cockedAngle * Math.PI) / 180));
    expect(figure(pick(list, "dry-fire"), "machine-energy")).toBeCloseTo(byHand, 6);
    expect(byHand).toBeCloseTo(storedEnergy(setupOf(request)), 6);
    expect(figure(pick(list, "sling-tears"), "machine-energy-ratio")).toBeGreaterThan(1);
  });

  // Past the track the weight rises again; before it, it goes on driving into the stop.
  test.each([0.9, -0.4])("a floating arm meets its stop at %d m with the work of its weights", (at) => {
    const strengths = strengthsSchema.parse({ stop: { force: 10_000, stroke: 0.4 } });
    const request = { ...example("floating-arm", { endStop: at }), strengths } as StrengthRequest;
    const { machine } = request;
    if (machine.kind !== "floating-arm") throw new Error("floating");
    const { longArm, shortArm, armMass, counterweightMass, cockedAngle, endStop = 0 } = machine;
    const offset = (longArm + shortArm) / 2 - shortArm;
    const rise = Math.sin(Math.acos(endStop / shortArm)) + Math.sin((cockedAngle * Math.PI) / 180);
    const byHand = G * (counterweightMass * shortArm - armMass * offset) * rise;
    const list = faultsOf(request);
    const dry = pick(list, "dry-fire");
    expect(figure(dry, "arrival-energy") / byHand).toBeCloseTo(1, 6);
    // By virtual work the weights' moment about the arm pushes the carriage on with moment·cos φ / (a·sin φ) ahead of
    // the stop's rest, φ where the stop is met; it works over the stroke too.
    const phi = Math.acos(endStop / shortArm);
    const drive =
      (-G * (counterweightMass * shortArm - armMass * offset) * Math.cos(phi)) / (shortArm * Math.sin(phi));
    expect(Math.sign(drive)).toBe(-Math.sign(at));
    expect(figure(dry, "drive")).toBeCloseTo(drive, 6);
    const pushed = Math.max(0, drive);
    expect(figure(dry, "stroke-average")).toBeCloseTo(byHand / (10_000 - pushed), 5);
    expect(figure(dry, "stroke-spring")).toBeCloseTo((2 * byHand) / (10_000 - 2 * pushed), 5);
    expect(figure(dry, "force-average") / (byHand / 0.4 + pushed)).toBeCloseTo(1, 6);
    expect(figure(dry, "force-peak") / (2 * (byHand / 0.4 + pushed))).toBeCloseTo(1, 6);
    expect(dry.notes.join(" ")).toContain("The declared stop fails");
  });

  test.each(["floating-arm", "torsion"])(
    "%s: the stop takes more unloaded than after a throw or held on",
    (kind) => {
      const tears = pick(faultsOf(example(kind)), "sling-tears");
      const worst = figure(tears, "arrival-energy");
      expect(worst).toBeGreaterThanOrEqual(figure(tears, "normal-energy"));
      expect(worst).toBeGreaterThanOrEqual(figure(tears, "held-energy"));
      expect(figure(tears, "ratio")).toBeCloseTo(worst / figure(tears, "normal-energy"), 9);
    },
  );

  test("a bow keeps all its energy in the moving mass", () => {
    const draw = [
      { length: 0, force: 0 },
      { length: 1, force: 800 },
    ];
    const request = example(
      "tension",
      { draw, drawForceScale: 1, movingMass: 0.5, limbMass: undefined },
      {},
      { mass: 1.5 },
    );
    const dry = pick(faultsOf(request), "dry-fire");
    expect(figure(dry, "arrival-energy")).toBeCloseTo(400, 9);
    expect(figure(dry, "ratio")).toBeCloseTo(4, 9);
    expect(figure(pick(faultsOf(request), "limb-breaks"), "piece-speed")).toBeCloseTo(40, 9);
  });
});

describe("pieces", () => {
  test("of unknown mass fly without drag: v²/g at their best angle on level ground", () => {
    const request = example("measured");
    const { airs } = workOut(request);
    const flights = new PieceFlights(airs, { ground: "firm", angles: { tornSling: 20 } });
    const [forward, backward] = flights.flyAnywhere({ name: "piece", mass: null }, 20, 0, null);
    expect(forward.distance / (400 / G)).toBeCloseTo(1, 4);
    expect(backward.distance / (400 / G)).toBeCloseTo(1, 4);
    const search = flights.search({ name: "piece", mass: null });
    const angle = Math.PI / 6;
    const when = { time: 1, tornAt: null };
    search.offer(0, 0, 10 * Math.cos(angle), 10 * Math.sin(angle), when, 2);
    search.offer(0, 0, 5, 5, when, 3);
    const aside = search.pieces().find(({ way }) => way === "side");
    // Turned aside by 20° with its whole speed, its upward speed shrunk by the cosine.
    const time = (2 * 10 * Math.sin(angle) * Math.cos((20 * Math.PI) / 180)) / G;
    expect(aside?.distance).toBeCloseTo(10 * Math.sin((20 * Math.PI) / 180) * time, 6);
    expect(aside?.station).toBe(2);
  });

  test("of a spinning arm leave at the speed of their own centre, all round", () => {
    const request = example("spinning-arm", { plane: "horizontal" });
    const broken = pick(faultsOf(request), "arm-breaks");
    const { machine } = request;
    if (machine.kind !== "spinning-arm") throw new Error("spinning");
    for (const piece of broken.pieces) {
      expect(piece.speed).toBeLessThanOrEqual(machine.spinRate * machine.armLength * (1 + 1e-12));
    }
    expect(broken.allRound).toBe(true);
    expect(broken.reach.backward).toBe(broken.reach.forward);
  });

  test("of an arm reach both ways, and no piece is faster than the stored energy allows", () => {
    const request = example("hinged-counterweight");
    const list = faultsOf(request);
    const broken = pick(list, "arm-breaks");
    expect(broken.reach.forward).toBeGreaterThan(0);
    expect(broken.reach.backward).toBeGreaterThan(0);
    const stored = storedEnergy(setupOf(request));
    const dropped = pick(list, "counterweight-drops");
    for (const piece of [...broken.pieces, ...dropped.pieces]) {
      expect(0.5 * (piece.mass ?? 0) * piece.speed ** 2).toBeLessThanOrEqual(stored);
      expect(piece.distance + piece.runOut).toBeLessThanOrEqual(
        broken.rest[piece.way] + dropped.rest[piece.way],
      );
    }
  });

  test("the carriage leaves its track no nearer than at the stop", () => {
    const list = faultsOf(example("floating-arm"));
    const leaves = pick(list, "carriage-leaves-track");
    expect(figure(leaves, "carriage-speed")).toBeGreaterThanOrEqual(
      figure(pick(list, "dry-fire"), "carriage-speed") * 0.999,
    );
    expect(leaves.reach.forward).toBeGreaterThan(0);
  });

  test("of a projectile count hang-ups only where the policy does; failures of the machine always", () => {
    const policy = { hangUp: false, hangUpReason: "The pin is bent so that nothing can hang." };
    const [all, first] = [{}, { policy }].map((more) =>
      faultsOf(example("hinged-counterweight", {}, more, { shape: "pumpkin" })),
    );
    const reach = (list: readonly Fault[], code: FaultCode) => pick(list, code).reach;
    expect(reach(first, "projectile-bursts").backward).toBeLessThan(reach(all, "projectile-bursts").backward);
    expect(reach(first, "arm-breaks")).toEqual(reach(all, "arm-breaks"));
  });

  test("only what breaks bursts", () => {
    const codes = (shape: string) => faultsOf(example("measured", {}, {}, { shape })).map(({ code }) => code);
    expect(codes("pumpkin")).toContain("projectile-bursts");
    expect(codes("smooth-sphere")).not.toContain("projectile-bursts");
  });
});

test("a counterweight too low is seen to strike the ground, and the machine to fall as far as it is high", () => {
  const request = example("fixed-counterweight", {
    pivotHeight: 2.06,
    longArm: 3.2,
    counterweightSize: 1.2,
    cockedAngle: 40,
  });
  const list = faultsOf(request);
  const strikes = pick(list, "counterweight-strikes");
  expect(figure(strikes, "ground-gap-throw")).toBeCloseTo(2.06 - 0.9 - 1.2, 1);
  expect(strikes.notes.join(" ")).toContain("strikes the ground in the throw as meant");
  expect(pick(list, "machine-tips").reach.side).toBeGreaterThan(2.06 + 3.2);
});

test("a cannon's cap goes as far backwards as forwards, and farther than the blast", () => {
  const list = faultsOf(example("air-cannon"));
  const cap = pick(list, "cap-ejected");
  expect(cap.reach.backward).toBe(cap.reach.forward);
  expect(cap.reach.backward).toBeGreaterThan(figure(pick(list, "chamber-bursts"), "blast-distance"));
  const unweighed = pick(faultsOf(example("air-cannon", { capMass: undefined })), "cap-ejected");
  expect(unweighed.pieces).toEqual([]);
  expect(unweighed.notes.join(" ")).toContain("Weigh it");
});

test.each(MACHINE_KINDS.map(({ kind }) => kind))("%s: what is told holds the contract", (kind) => {
  for (const fault of faultsOf(example(kind, {}, {}, { shape: "irregular" }))) {
    expect(faultSchema.parse(fault)).toEqual(fault);
    expect(fault.assumptions.length).toBeGreaterThan(0);
    for (const way of ["forward", "backward", "side"] as const) {
      expect(fault.rest[way]).toBeGreaterThanOrEqual(fault.reach[way]);
    }
  }
});

test("a torn sling's worst instant is found whatever the jerks: no instant of a dense scan brings more to the stop", () => {
  const request = example("floating-arm");
  const worked = workOut(request);
  const worst = figure(pick(faults(request, worked), "sling-tears"), "arrival-energy");
  expect(worked.releases).toBeInstanceOf(SwingReleases);
  const { trace } = worked;
  if (!trace) throw new Error("swung");
  const { motion } = trace;
  // Without friction the energy left in the machine at the tear is what arrives, less that of the place of the stop.
  const ball = new Float64Array(4);
  let most = 0;
  const still = new Float64Array(16);
  const [{ from, to }] = trace.segments;
  still[0] = trace.stateAt(to - 1, 1)[0];
  const atStop = motion.energy(2, still);
  for (let step = from; step < to; step++) {
    for (let i = 0; i <= 50; i++) {
      const y = trace.stateAt(step, i / 50);
      motion.projectile(trace.phase(step), y, ball);
      const own = 0.5 * (ball[2] ** 2 + ball[3] ** 2) + G * ball[1];
      most = Math.max(most, motion.energy(trace.phase(step), y) - request.projectile.mass * own - atStop);
    }
  }
  expect(worst / most).toBeCloseTo(1, 3);
});
