/** The loads of a machine that is swung by its equations of motion. */
import type { ArmLoads, Jerk, Loads, Peak, SlingLoads, Stability } from "../contracts/loads";
import type { Strengths } from "../contracts/strengths";
import type { Instant } from "../release";
import { inCup } from "../swing/carrier";
import { storedEnergy } from "../swing/energy";
import type { Trace } from "../swing/trace";
import { type Bending, moduliOf, worstBending } from "./bending";
import { stationsOf } from "./body";
import { jerksOf, type StationJerk } from "./jerks";
import { type Lives, wholeOf } from "./lives";
import { armStrength, SLING_DESIGN_FACTOR, slingStiffness, slingStrength } from "./materials";
import { Peaks, type Stretch, timeOf } from "./peaks";
import { reserveOf, reserveWarning } from "./reserve";
import { machineEnergy, type Unloaded } from "./unloaded";

/** Usual design factor of pivots and lifting hardware. Source: ASME BTH-1, design category B (from memory). */
export const HARDWARE_DESIGN_FACTOR = 3;

// What is measured along a swing, each as a quantity whose largest counts.
const TENSION = 0;
const PIVOT = 1;
const DOWNRANGE = 2;
const UPRANGE = 3;
const UPWARD = 4;
const HANGER = 5;
const FRONT = 6;
const REAR = 7;
const FRICTION = 8;
const STATIONS = 9;

/** What peaks are looked for in one life of the machine; null when it has no such life. */
interface Measured {
  peaks: Peaks;
  trace: Trace;
}

export class SwingLoads {
  private readonly stations: readonly number[];
  private readonly frame: { mass: number; footprint: number; friction: number | null } | null;
  private readonly throw: Measured | null;
  private readonly after: Measured | null;
  private readonly hangUp: Measured | null;
  private readonly slung: { sling: SlingLoads | null; jerks: StationJerk[] };

  constructor(
    private readonly lives: Lives,
    private readonly nominal: Instant | null,
    private readonly strengths: Strengths | undefined,
    private readonly samples?: number,
  ) {
    const { body } = lives;
    this.stations = stationsOf(body);
    this.frame = frameOf(lives, strengths);
    this.throw = this.measured(lives.trace, lives.throw);
    this.hangUp = this.measured(lives.trace, lives.hangUp);
    this.after = lives.after && this.measured(lives.after.trace, wholeOf(lives.after));
    this.slung = inCup(lives.pose.setup) ? { sling: null, jerks: [] } : this.sling();
  }

  private measured(trace: Trace, stretches: readonly Stretch[]): Measured | null {
    const { pose } = this.lives;
    const { stations, frame } = this;
    const force = new Float64Array(2);
    const measure = (step: number, fraction: number, out: Float64Array) => {
      pose.recall(trace, step, fraction);
      out[TENSION] = pose.tension;
      pose.counterweightForce(force);
      out[HANGER] = Math.hypot(force[0], force[1]);
      pose.frameForce(force);
      out[PIVOT] = Math.hypot(force[0], force[1]);
      out[DOWNRANGE] = force[0];
      out[UPRANGE] = -force[0];
      out[UPWARD] = force[1];
      if (frame) {
        const half = frame.footprint / 2;
        const weight = -frame.mass * pose.gy;
        out[FRONT] = -(pose.frameMoment(half) + weight * half);
        out[REAR] = pose.frameMoment(-half) - weight * half;
        const down = weight - force[1];
        const level = Math.abs(force[0] + frame.mass * pose.gx);
        out[FRICTION] = down > 0 ? level / down : Number.MAX_VALUE;
      }
      for (let i = 0; i < stations.length; i++) out[STATIONS + i] = Math.abs(pose.bending(stations[i]));
    };
    const peaks = new Peaks(STATIONS + stations.length, measure, this.samples);
    for (const stretch of stretches) peaks.add(stretch);
    return stretches.length > 0 && peaks.found[TENSION].step >= 0 ? { peaks, trace } : null;
  }

  loads(): Loads {
    const { lives, strengths } = this;
    const { sling, jerks } = this.slung;
    const arm = this.arm(jerks);
    const pivot = this.pivot();
    const hanger = lives.body.counterweightMass > 0 ? this.hanger() : null;
    const stability = this.stability();
    return {
      sling,
      arm,
      pivot,
      hanger,
      stability,
      stabilityNote: this.frame
        ? "The pivot stands above the middle of the base and the frame's own weight acts there; what the trough bears is left out."
        : "Tipping and sliding cannot be told: give the frame's mass and the length of its base.",
      energyLeft: this.energyLeft(),
      spin: null,
      draw: null,
      chamber: null,
      assumptions: [
        strengths?.arm?.masses
          ? "The arm's mass as declared by station bends it; its declared centre and inertia move it."
          : "For bending the arm is a uniform rod from short end to tip.",
        "Sling and hanger are massless; bending counts, the arm's pull and shear do not.",
        "A stop that is struck loads arm and pivot with its own force on top: see the failures.",
      ],
      warnings: [
        ...reserveWarning("sling-reserve", "The sling", sling?.reserve ?? null),
        ...reserveWarning(
          "sling-reserve-hang-up",
          "When the projectile hangs up, the sling",
          sling?.hangUpReserve ?? null,
        ),
        ...reserveWarning("arm-reserve", "The arm", arm.reserve),
        ...reserveWarning("arm-reserve-hang-up", "When the projectile hangs up, the arm", arm.hangUpReserve),
        ...reserveWarning("pivot-reserve", "The pivot", pivot?.reserve ?? null),
        ...reserveWarning("hanger-reserve", "The counterweight's hanger", hanger?.reserve ?? null),
        ...stabilityWarnings(stability),
      ],
    };
  }

  private sling(): { sling: SlingLoads; jerks: StationJerk[] } {
    const { lives, strengths, stations, nominal } = this;
    const tension = { throw: peakOf(this.throw, TENSION), hangUp: peakOf(this.hangUp, TENSION) };
    const known = strengths?.sling ? slingStrength(strengths.sling) : null;
    const { stiffness, explanation: stiffnessFrom } = slingStiffness(
      strengths?.sling,
      lives.pose.setup.slingLength,
      // Chosen for the throw; where nothing pulls before the loop slips, for what comes then.
      Math.max(0, tension.throw?.value ?? 0) || (tension.hangUp?.value ?? 0),
    );
    const jerks = jerksOf(lives, nominal, stiffness, stations);
    const worst = (hangUp: boolean) => hardest(jerks.filter((jerk) => jerk.hangUp === hangUp));
    const reserve = (peak: Peak | null, jerk: Jerk | null) =>
      reserveOf(
        Math.max(peak?.value ?? 0, jerk?.peakForce ?? 0),
        known?.strength ?? null,
        SLING_DESIGN_FACTOR,
        known?.explanation ?? "Declare the rope's rating, or the breaking strength of the whole sling.",
      );
    const sling = {
      tension,
      jerks: [worst(false), worst(true)].flatMap((jerk) => {
        if (!jerk) return [];
        const { moments: _, ...told } = jerk;
        return [told];
      }),
      stiffness,
      stiffnessFrom,
      reserve: reserve(tension.throw, worst(false)),
      hangUpReserve: tension.hangUp || worst(true) ? reserve(tension.hangUp, worst(true)) : null,
    };
    return { sling, jerks };
  }

  private arm(jerks: readonly StationJerk[]): ArmLoads {
    const { stations, strengths, lives } = this;
    const sections = strengths?.arm?.sections;
    const jerk = (hangUp: boolean, i: number) =>
      Math.max(0, ...jerks.filter((one) => one.hangUp === hangUp).map(({ moments }) => moments[i]));
    const at = (measured: Measured | null, i: number) => measured?.peaks.found[STATIONS + i].value ?? 0;
    const moduli = moduliOf(stations, lives.body.longArm, sections);
    const meant = stations.map((_, i) => Math.max(at(this.throw, i), at(this.after, i), jerk(false, i)));
    const hung = stations.map((_, i) => Math.max(at(this.hangUp, i), jerk(true, i)));
    const stress = (moments: readonly number[]) =>
      Math.max(...moments.map((moment, i) => moment / (moduli[i] ?? 1)));
    const material = strengths?.arm?.material;
    const known = material && sections ? armStrength(material) : null;
    const reserve = (moments: readonly number[]) =>
      reserveOf(
        stress(moments),
        known?.strength ?? null,
        known?.designFactor ?? 2.3,
        known?.explanation ?? "Declare the arm's material and its sections at the pivot and the tip.",
      );
    return {
      moment: {
        throw: this.momentPeak(this.throw),
        after: this.momentPeak(this.after),
        hangUp: this.momentPeak(this.hangUp),
      },
      envelope: stations.map((station, i) => {
        const modulus = moduli[i];
        return {
          station,
          moment: meant[i],
          hangUpMoment: hung[i],
          stress: modulus === null ? null : Math.max(meant[i], hung[i]) / modulus,
        };
      }),
      reserve: reserve(meant),
      hangUpReserve: this.hangUp ? reserve(hung) : null,
    };
  }

  /** Where and when the arm is bent hardest in each of its lives, jerks included. */
  bendings(): Record<"throw" | "after" | "hangUp", Bending | null> {
    const { jerks } = this.slung;
    return {
      throw: this.bending(
        this.throw,
        jerks.filter(({ hangUp }) => !hangUp),
      ),
      after: this.bending(this.after, []),
      hangUp: this.bending(
        this.hangUp,
        jerks.filter(({ hangUp }) => hangUp),
      ),
    };
  }

  /** What arm, pivot and hanger bear in a run with nothing in the sling; null when it ends at once. */
  unloaded(run: Unloaded): { arm: Bending; pivot: Peak; hanger: Peak } | null {
    const measured = this.measured(run.trace, wholeOf(run));
    const arm = this.bending(measured, []);
    const [pivot, hanger] = [peakOf(measured, PIVOT), peakOf(measured, HANGER)];
    return arm && pivot && hanger && { arm, pivot, hanger };
  }

  private bending(measured: Measured | null, jerks: readonly StationJerk[]): Bending | null {
    if (!measured) return null;
    const { stations, lives, strengths } = this;
    const moduli = moduliOf(stations, lives.body.longArm, strengths?.arm?.sections);
    const peak = (i: number) => {
      const found = measured.peaks.found[STATIONS + i];
      return { value: found.value, time: timeOf(measured.trace, found) };
    };
    return worstBending(stations, moduli, peak, jerks);
  }

  private momentPeak(measured: Measured | null) {
    if (!measured) return null;
    const { found } = measured.peaks;
    let best = 0;
    for (let i = 1; i < this.stations.length; i++) {
      if (found[STATIONS + i].value > found[STATIONS + best].value) best = i;
    }
    const peak = found[STATIONS + best];
    return { value: peak.value, time: timeOf(measured.trace, peak), station: this.stations[best] };
  }

  private pivot(): Loads["pivot"] {
    const { pose } = this.lives;
    const entry = (measured: Measured | null) => {
      if (!measured) return null;
      const { trace, peaks } = measured;
      const found = peaks.found[PIVOT];
      const force = new Float64Array(2);
      pose.recall(trace, found.step, found.fraction);
      pose.frameForce(force);
      return {
        value: found.value,
        time: timeOf(trace, found),
        direction: (Math.atan2(force[1], force[0]) * 180) / Math.PI,
        downrange: Math.max(0, peaks.found[DOWNRANGE].value),
        uprange: Math.max(0, peaks.found[UPRANGE].value),
        upward: Math.max(0, peaks.found[UPWARD].value),
      };
    };
    const force = { throw: entry(this.throw), after: entry(this.after), hangUp: entry(this.hangUp) };
    return {
      force,
      reserve: this.hardware(force, this.strengths?.pivot, "the load at which the pivot fails"),
    };
  }

  private hanger(): Loads["hanger"] {
    const force = {
      throw: peakOf(this.throw, HANGER),
      after: peakOf(this.after, HANGER),
      hangUp: peakOf(this.hangUp, HANGER),
    };
    return {
      force,
      reserve: this.hardware(force, this.strengths?.hanger, "the pull at which the hanger fails"),
    };
  }

  private hardware(
    force: Record<string, { value: number } | null>,
    strength: number | undefined,
    what: string,
  ) {
    const load = Math.max(...Object.values(force).map((peak) => peak?.value ?? 0));
    const text = strength === undefined ? `Declare ${what}.` : "The declared strength, hang-ups included.";
    return reserveOf(load, strength ?? null, HARDWARE_DESIGN_FACTOR, text);
  }

  private stability(): Stability | null {
    const { frame } = this;
    if (!frame) return null;
    const lives = [this.throw, this.after, this.hangUp].filter((measured) => measured !== null);
    let front = Number.POSITIVE_INFINITY;
    let rear = Number.POSITIVE_INFINITY;
    let friction = 0;
    let time = 0;
    for (const { peaks, trace } of lives) {
      const [f, r] = [peaks.found[FRONT], peaks.found[REAR]];
      const least = Math.min(front, rear);
      front = Math.min(front, -f.value);
      rear = Math.min(rear, -r.value);
      friction = Math.max(friction, peaks.found[FRICTION].value);
      if (Math.min(front, rear) < least) time = timeOf(trace, f.value > r.value ? f : r);
    }
    const lifts = friction >= Number.MAX_VALUE;
    return {
      front,
      rear,
      time,
      friction: lifts ? null : friction,
      tips: Math.min(front, rear) < 0,
      slides: frame.friction === null ? null : lifts || friction > frame.friction,
    };
  }

  /** The stored energy less what the machine has given since the trigger. */
  private energyLeft(): number | null {
    const { nominal } = this;
    const { trace, pose } = this.lives;
    if (!nominal) return null;
    const { setup } = pose;
    const start = machineEnergy(pose.motion, trace.phase(0), trace.stateAt(0, 0));
    const then = machineEnergy(
      pose.motion,
      trace.phase(nominal.step),
      trace.stateAt(nominal.step, nominal.fraction),
    );
    return Math.max(0, storedEnergy(setup) - (start - then));
  }
}

/** Mass and footprint of the frame by the declared strengths or by the machine's base. */
function frameOf({ machine }: Lives, strengths: Strengths | undefined) {
  const declared = strengths?.frame;
  if (declared) return { ...declared, friction: declared.friction ?? null };
  const { base } = machine as { base?: unknown };
  if (typeof base !== "object" || base === null) return null;
  const { frameMass, footprint } = base as { frameMass?: number; footprint?: number };
  if (frameMass === undefined || footprint === undefined) return null;
  return { mass: frameMass, footprint, friction: null };
}

function peakOf(measured: Measured | null, quantity: number): Peak | null {
  if (!measured) return null;
  const found = measured.peaks.found[quantity];
  return { value: found.value, time: timeOf(measured.trace, found) };
}

function hardest<One extends Jerk>(jerks: readonly One[]): One | null {
  let best: One | null = null;
  for (const jerk of jerks) if (!best || jerk.peakForce > best.peakForce) best = jerk;
  return best;
}

function stabilityWarnings(found: Stability | null): Loads["warnings"] {
  const out: Loads["warnings"] = [];
  if (found?.tips) {
    const edge = found.front < found.rear ? "front" : "rear";
    const text = `The frame tips over the ${edge} edge of its base. Make the base longer, the frame heavier, or anchor it.`;
    out.push({ code: "tips", text });
  }
  if (found?.slides) {
    out.push({ code: "slides", text: "The base slides on the declared friction. Stake it or block it." });
  }
  return out;
}
