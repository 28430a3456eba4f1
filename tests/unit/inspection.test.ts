/** The arithmetic of the days before: against statics by hand, brute force, and integrals added up in small steps. */
import { describe, expect, it } from "vitest";
import {
  angleOfShare,
  bulkDensity,
  chargeFor,
  chargeFull,
  cocking,
  type Drum,
  drumVolume,
  FILL,
  FILLS,
  filledTo,
  gapIn,
  groundGaps,
  haulingPull,
  levelFeet,
  levelSlopes,
  poseOf,
  ratingFor,
  reserveOfRope,
  sideOfLean,
  standingUp,
  sway,
  trailerLoads,
  turn,
} from "@/lib/inspection";
import { anchoring, MACHINE_KINDS, type Machine } from "@/lib/throw";

const G = 9.80665;
const GALLON = 3.785411784e-3;
const example = <Kind extends Machine["kind"]>(kind: Kind) =>
  MACHINE_KINDS.find((each) => each.kind === kind)?.example as Extract<Machine, { kind: Kind }>;

describe("trailer", () => {
  const trailer = {
    axle: 3,
    empty: { mass: 200, hitch: 20 },
    items: [
      { name: "Frame", mass: 300, at: 2.6 },
      { name: "Counterweight", mass: 400, at: 3.3 },
      { name: "Arm", mass: 50, at: 1 },
    ],
  };

  it("worked by hand: 20 + 300·0.4/3 − 400·0.3/3 + 50·2/3 = 53.33 kg on the hitch", () => {
    const found = trailerLoads(trailer);
    expect(found.hitch).toBeCloseTo(20 + 40 - 40 + 100 / 3, 9);
    expect(found.axle).toBeCloseTo(950 - 160 / 3, 9);
    expect(found.share).toBeCloseTo(160 / 3 / 950, 9);
    expect(found.verdict).toBe("light");
  });

  it("balances about any point, and the told shift brings the hitch to an eighth", () => {
    const { hitch, axle, shift, gross } = trailerLoads(trailer);
    // The empty trailer's own centre follows from its hitch load.
    const centre = 3 * (1 - 20 / 200);
    for (const about of [-2, 0, 1.7, 8]) {
      const down =
        200 * (centre - about) + trailer.items.reduce((sum, { mass, at }) => sum + mass * (at - about), 0);
      expect(hitch * (0 - about) + axle * (3 - about)).toBeCloseTo(down, 8);
    }
    const moved = trailer.items.map((item) => ({ ...item, at: item.at - (shift as number) }));
    const again = trailerLoads({ ...trailer, items: moved });
    expect(again.hitch).toBeCloseTo(0.125 * gross, 9);
    expect(again.verdict).toBe("usual");
  });

  it("what has no place yet weighs, and moves nothing on hitch and axle", () => {
    const found = trailerLoads({ ...trailer, unplaced: 120 });
    const { gross, ...rest } = trailerLoads(trailer);
    expect(found).toEqual({ gross: gross + 120, ...rest });
    expect(gross).toBe(950);
  });

  it("a load far behind the axle lifts the hitch; one far ahead is heavy on it", () => {
    const at = (x: number) => trailerLoads({ ...trailer, items: [{ name: "", mass: 500, at: x }] });
    expect(at(3.5).hitch).toBeLessThan(0);
    expect(at(1).verdict).toBe("heavy");
    expect(trailerLoads({ ...trailer, items: [] })).toMatchObject({
      hitch: 20,
      share: 0.1,
      verdict: "usual",
      shift: null,
    });
  });
});

describe("how a machine rides", () => {
  it("cocked, an arm's short end is s·sin up, and its length is seen from the side", () => {
    const machine = example("fixed-counterweight");
    const { longArm, shortArm, pivotHeight, counterweightSize } = machine;
    const sin = Math.sin((40 * Math.PI) / 180);
    const cos = Math.cos((40 * Math.PI) / 180);
    expect(poseOf(machine, "cocked")?.height).toBeCloseTo(
      pivotHeight + shortArm * sin + counterweightSize,
      12,
    );
    expect(poseOf(machine, "cocked")?.length).toBeCloseTo((longArm + shortArm) * cos + counterweightSize, 12);
    expect(poseOf(machine, "level")?.length).toBeCloseTo(longArm + shortArm + counterweightSize, 12);
    expect(poseOf(example("air-cannon"), "level")).toBeNull();
  });

  it("gaps to the ground are those of circles about the pivot (brute force over every angle)", () => {
    const machine = example("hinged-counterweight");
    const { longArm, shortArm, pivotHeight, hangerLength } = machine;
    let [tip, weight] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
    for (let angle = 0; angle < 360; angle += 0.1) {
      const sin = Math.sin((angle * Math.PI) / 180);
      tip = Math.min(tip, pivotHeight + longArm * sin);
      weight = Math.min(weight, pivotHeight - shortArm * sin - hangerLength);
    }
    const gaps = groundGaps({ ...machine, counterweightSize: 0.4 });
    expect(gaps?.tipDown).toBeCloseTo(tip, 5);
    expect(gaps?.counterweight).toBeCloseTo(weight - 0.4, 5);
    expect(gaps?.tipCocked).toBeCloseTo(2.9 - 4.2 * Math.sin((40 * Math.PI) / 180), 12);
    expect(sway(0.8, -3)).toBeCloseTo(0.8 * Math.sin((3 * Math.PI) / 180), 12);
  });
});

describe("raising", () => {
  it("a beam hinged at its foot and held level by a line over a pole: T = m·g·c / (d·h / √(d² + h²))", () => {
    const [mass, centre, held, pole] = [180, 2, 3.2, 2.4];
    const found = turn(standingUp({ mass, centre, held }, G), { x: 0, y: pole });
    const lever = (held * pole) / Math.hypot(held, pole);
    if (!found.ok) throw new Error("blocked");
    expect(found.first.pull).toBeCloseTo((mass * G * centre) / lever, 8);
    expect(found.worst.phi).toBe(0);
  });

  it("what the line does over the way is what the machine stores (work added up in small steps)", () => {
    const stored = {
      "hinged-counterweight": (m: ReturnType<typeof example<"hinged-counterweight">>) =>
        G * (m.counterweightMass * m.shortArm - m.armMass * ((m.longArm + m.shortArm) / 2 - m.shortArm)),
      "floating-arm": (m: ReturnType<typeof example<"floating-arm">>) =>
        G * (m.counterweightMass * m.shortArm - m.armMass * ((m.longArm + m.shortArm) / 2 - m.shortArm)),
    };
    for (const kind of ["hinged-counterweight", "floating-arm"] as const) {
      const machine = example(kind);
      const turning = cocking(machine, G);
      if (!turning) throw new Error(kind);
      const pivot = machine.kind === "floating-arm" ? machine.trackHeight : machine.pivotHeight;
      const winch = { x: -2, y: -pivot };
      const { hold, from, to } = turning;
      const length = (phi: number) =>
        Math.hypot(hold.x * Math.cos(phi) - winch.x, hold.y * Math.sin(phi) - winch.y);
      // The pull at any angle is the largest of a way of no length there.
      const pull = (phi: number) => {
        const found = turn({ ...turning, from: phi, to: phi }, winch);
        return found.ok ? found.worst.pull : Number.NaN;
      };
      let work = 0;
      const steps = 4000;
      for (let i = 0; i < steps; i++) {
        const a = from + ((to - from) * i) / steps;
        const b = from + ((to - from) * (i + 1)) / steps;
        work += pull((a + b) / 2) * (length(a) - length(b));
      }
      const moment = stored[kind](machine as never);
      const sin = Math.sin((machine.cockedAngle * Math.PI) / 180);
      expect(work / (moment * (1 + sin)), kind).toBeCloseTo(1, 4);
      const whole = turn(turning, winch);
      if (!whole.ok) throw new Error("blocked");
      let most = 0;
      for (let i = 0; i <= 3000; i++) most = Math.max(most, pull(from + ((to - from) * i) / 3000));
      expect(whole.worst.pull / most, kind).toBeCloseTo(1, 3);
    }
  });

  it("a skein resists with its torque less the arm's weight; a line that pulls back turns nothing", () => {
    const machine = example("torsion");
    const turning = cocking(machine, G);
    if (!turning) throw new Error("torsion");
    const end = turning.resists(turning.to);
    const travel = ((machine.cockedAngle + machine.stopAngle) * Math.PI) / 180;
    const weight = G * machine.armMass * 0.8 * Math.cos((10 * Math.PI) / 180);
    expect(end).toBeCloseTo(700 + 500 * travel - weight, 6);
    expect(turn(standingUp({ mass: 100, centre: 1, held: 2 }, G), { x: 5, y: 0 }).ok).toBe(false);
    // A winch well behind the cocked tip draws it back, not down.
    const heavy = cocking(example("hinged-counterweight"), G);
    const behind = turn(heavy as NonNullable<typeof heavy>, { x: -5.2, y: -2.9 });
    expect(behind.ok ? 0 : (behind.blocked * 180) / Math.PI).toBeGreaterThan(200);
    const light = { ...example("fixed-counterweight"), counterweightMass: 20 };
    const found = turn(cocking(light, G) as never, { x: -4, y: -2 });
    expect(found).toMatchObject({ ok: true, worst: { pull: 0 } });
  });

  it("a tackle of n parts without friction divides by n; with it, part by part", () => {
    expect(haulingPull(900, 3, 1)).toBeCloseTo(300, 12);
    const pull = haulingPull(900, 3);
    expect(pull + 0.9 * pull + 0.81 * pull).toBeCloseTo(900, 9);
    const rope = { knotted: true, wet: true };
    expect(ratingFor(1000, 5, rope)).toBeCloseTo(5000 / 0.5 / 0.85, 9);
    expect(reserveOfRope(1000, ratingFor(1000, 5, rope), rope)).toBeCloseTo(5, 12);
  });

  it("a lift takes weight off friction and off what holds the frame down", () => {
    const frame = { mass: 300, footprint: 2, friction: 0.5, height: 1.5 };
    const found = anchoring(2000, frame, G, 1000);
    expect(found.level).toBeCloseTo(2000 - 0.5 * (300 * G - 1000), 9);
    expect(found.down).toBeCloseTo((2000 * 1.5 - (300 * G - 1000) * 1) / 2, 9);
    expect(anchoring(100, frame, G, 5000)).toMatchObject({ level: 100, tippingReserve: 0 });
  });
});

describe("ground", () => {
  const base = { length: 3, width: 1.8 };

  it("readings of a tilted plane give its tilt back, any one foot left out; packing makes them level", () => {
    const plane = (x: number, y: number) => 1.2 + 0.03 * x - 0.02 * y;
    const depths = {
      frontLeft: plane(1.5, -0.9),
      frontRight: plane(1.5, 0.9),
      rearLeft: plane(-1.5, -0.9),
      rearRight: plane(-1.5, 0.9),
    };
    for (const left of [null, "frontLeft", "frontRight", "rearLeft", "rearRight"] as const) {
      const read: Partial<typeof depths> = { ...depths };
      if (left) delete read[left];
      const found = levelFeet(read, base);
      expect(found?.along).toBeCloseTo(angleOfShare(0.03), 9);
      expect(found?.across).toBeCloseTo(angleOfShare(-0.02), 9);
      expect(found?.twist).toBeCloseTo(0, 12);
      expect(found?.taken).toBe(left);
      for (const foot of Object.keys(depths) as (keyof typeof depths)[])
        expect(depths[foot] - (found?.packing[foot] ?? 0)).toBeCloseTo(plane(-1.5, 0.9), 12);
    }
    expect(levelFeet({ frontLeft: 1, rearRight: 1 }, base)).toBeNull();
  });

  it("four readings off a plane tell their twist; slopes give the same packing", () => {
    const found = levelFeet({ frontLeft: 1.02, frontRight: 1, rearLeft: 1, rearRight: 1 }, base);
    expect(found?.twist).toBeCloseTo(0.01, 12);
    const slopes = levelSlopes({ along: 2, across: -1 }, base);
    expect(slopes.along).toBeCloseTo(2, 9);
    expect(slopes.packing.frontLeft).toBeCloseTo(
      3 * Math.tan((2 * Math.PI) / 180) + 1.8 * Math.tan(Math.PI / 180),
      9,
    );
    expect(slopes.packing.rearRight).toBe(0);
  });

  it("a leaning plane throws to its side as a ball flown in space with drag does (small steps)", () => {
    const [lean, launch, speed, height, drag] = [2, 42, 30, 4, 0.004];
    const [a, e] = [(lean * Math.PI) / 180, (launch * Math.PI) / 180];
    let [x, y, z] = [0.8, height * Math.cos(a), height * Math.sin(a)];
    let [vx, vy, vz] = [
      speed * Math.cos(e),
      speed * Math.sin(e) * Math.cos(a),
      speed * Math.sin(e) * Math.sin(a),
    ];
    const dt = 1e-4;
    while (y > 0) {
      const v = Math.hypot(vx, vy, vz);
      [x, y, z] = [x + vx * dt, y + vy * dt, z + vz * dt];
      [vx, vy, vz] = [vx - drag * v * vx * dt, vy - (G + drag * v * vy) * dt, vz - drag * v * vz * dt];
    }
    const side = sideOfLean({ distance: x, releaseX: 0.8, releaseHeight: height, launchAngle: launch }, lean);
    expect(side / z).toBeCloseTo(1, 4);
  });
});

describe("filling", () => {
  const BARREL = 55 * GALLON;
  const drum: Drum = { diameter: 0.572, length: BARREL / ((Math.PI / 4) * 0.572 ** 2), stands: "lying" };

  it("a 55 US gallon drum holds about 208 kg of water and about 450 kg of stone (common practice)", () => {
    expect(drumVolume(drum) * bulkDensity(FILL.water)).toBeCloseTo(208.2, 1);
    expect(drumVolume(drum) * bulkDensity(FILL["stone-and-sand"])).toBeCloseTo(450, -0.5);
  });

  it("soaked sand outweighs dry, and every fill names where its numbers are from", () => {
    expect(bulkDensity(FILL["wet-sand"]) - bulkDensity(FILL["dry-sand"])).toBeCloseTo(380, 9);
    for (const name of FILLS) if (name !== "own") expect(FILL[name].source).toMatch(/from memory|no source/);
  });

  it.each(["upright", "lying"] as const)(
    "a part-filled drum, %s: volume and centre added up in thin layers",
    (stands) => {
      const tall = { ...drum, stands };
      const height = stands === "lying" ? drum.diameter : drum.length;
      for (const share of [0.001, 0.05, 0.3, 0.5, 0.82, 1]) {
        const depth = share * height;
        const layers = 20_000;
        let [volume, moment] = [0, 0];
        for (let i = 0; i < layers; i++) {
          const h = (depth * (i + 0.5)) / layers;
          const r = drum.diameter / 2;
          const area =
            stands === "lying" ? 2 * Math.sqrt(r * r - (r - h) ** 2) * drum.length : Math.PI * r * r;
          volume += (area * depth) / layers;
          moment += (area * h * depth) / layers;
        }
        const found = filledTo(tall, depth);
        expect(found.volume / volume).toBeCloseTo(1, 4);
        expect(found.centre / (moment / volume)).toBeCloseTo(1, 4);
      }
    },
  );

  it("fills to the wanted mass, or says by how much it cannot", () => {
    const weight = { count: 2, drum, drumMass: 18, cradleMass: 40, bulk: bulkDensity(FILL["dry-sand"]) };
    const found = chargeFor(weight, 500);
    if (!found.ok) throw new Error(found.why);
    expect(found.charge.mass).toBeCloseTo(500, 1);
    expect(filledTo(drum, found.charge.depth).volume * weight.bulk * 2).toBeCloseTo(500 - 76, 1);
    expect(chargeFor(weight, 60)).toEqual({ ok: false, why: "too-heavy-empty", by: 16 });
    const full = chargeFull(weight).mass;
    const more = chargeFor(weight, full + 30);
    expect(more.ok ? 0 : more.by).toBeCloseTo(30, 6);
    expect(chargeFull(weight).centre).toBeCloseTo(drum.diameter / 2, 9);
    expect(gapIn(0.62, 0.59)).toBeCloseTo(0.015, 12);
  });
});
