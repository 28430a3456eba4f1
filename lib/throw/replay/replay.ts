/**
 * Accident replay: which release instant, corner of the tolerances or failure brings something down where it was
 * found. It answers with what the model allows, ordered by how much must have gone wrong, never with what happened.
 */
import { moved, nominalReasonOf, workOut } from "../case";
import { defaultPolicy, type HazardRequest, type HazardSheet, type Policy } from "../contracts";
import type { Explanation, Replay, ReplayRequest } from "../contracts/replay";
import type { Instant, Releases } from "../release";
import type { Frame } from "../setup";
import { CODE_VERSION } from "../version";
import { type Box, boxesOf, framesOf, meantFrame } from "../worst/box";
import { findWorst } from "../worst/worst";
import { skyOf } from "./airs";
import { machineParts } from "./failures";
import { type Found, needOf } from "./found";
import { Lander, type Limits } from "./landing";
import { MeantThrow } from "./meant";
import { RADIAN, type Target, targetOf } from "./target";
import { type Corner, cornerThrows, declaredThrows, type Met } from "./throws";
import { sentenceOf } from "./words";

/** Shares of the projectile that may have flown, when a piece of it was found. */
const PIECES = [
  { share: 0.5, piece: "Half of the projectile" },
  { share: 0.2, piece: "A fifth of the projectile" },
];
const WHOLE = "The projectile";
/** Flights and machines after which no further corner is tried: about a second. */
const MOST_FLIGHTS = 150_000;
const MOST_FITS = 16;
const MOST_OTHERS = 4;
/** Alike explanations in the list. */
const MOST_ALIKE = 3;

type Worst = HazardSheet["worst"];

/**
 * @param known the worst throws of the same request's sheet, where it has been made; searched for when needed without
 * @throws CannotThrow when the declared machine cannot be worked out
 */
export function replay(asked: ReplayRequest, known: Worst | null = null): Replay {
  return new Replaying(asked, known).run();
}

class Replaying {
  private readonly request: HazardRequest;
  private readonly policy: Policy;
  private readonly target: Target;
  private readonly lander: Lander;
  private readonly limits: Limits;
  private readonly found: Found[] = [];
  private machines = 0;

  constructor(
    private readonly asked: ReplayRequest,
    private readonly known: Worst | null,
  ) {
    this.request = asked.request;
    this.policy = asked.request.policy ?? defaultPolicy;
    this.target = targetOf(asked);
    this.lander = new Lander(this.target, this.policy.ground);
    const { aim, lean, tornSling } = this.policy.angles;
    this.limits = { plane: Math.min(180, aim + lean) * RADIAN, velocity: Math.min(90, tornSling) * RADIAN };
  }

  run(): Replay {
    const { asked, request } = this;
    const frame = meantFrame(request);
    const worked = workOut(request, frame);
    const nominal = worked.releases.nominal;
    const wholeToo = asked.found !== "machine";
    let worst = this.known;
    if (wholeToo) {
      const met: Met = new Set();
      this.meant(nominal, frame, worked.releases.allRound !== null);
      this.declared(worked.releases, nominal, frame, met);
      if (!this.explained()) worst = this.corners(nominal, met);
    }
    if (asked.found === "machine" || asked.found === "unknown") {
      this.found.push(...machineParts(request, worked, this.policy, frame, this.lander));
    }
    const explanations = this.ranked(nominal?.time ?? null);
    const reason = nominal ? null : nominalReasonOf(request, worked.releases, worked.trace);
    return {
      codeVersion: CODE_VERSION,
      target: {
        downrange: this.target.x,
        aside: this.target.z,
        distance: this.target.distance,
        direction: this.target.azimuth / RADIAN,
        uncertainty: this.target.uncertainty,
      },
      ...this.verdict(explanations, worst),
      explanations,
      worst: worst && { forward: worst.forward.distance, backward: worst.backward.distance },
      tried: { machines: this.machines, flights: this.lander.flown },
      notes: [...NOTES, ...(reason ? [`There is no throw as meant. ${reason}`] : [])],
    };
  }

  private explained(): boolean {
    return this.found.some(({ miss }) => miss <= this.target.uncertainty);
  }

  /** Whether the projectile, whole, may be what was found. */
  private get whole(): boolean {
    return this.asked.found !== "piece" && this.asked.found !== "machine";
  }

  private meant(nominal: Instant | null, frame: Frame, allRound: boolean): void {
    if (!nominal || !this.whole) return;
    const scene = { piece: WHOLE, load: "declared", frame } as const;
    const meant = new MeantThrow(nominal, this.lander, this.limits, scene, allRound);
    const sky = skyOf(this.request, Math.hypot(nominal.vx, nominal.vy));
    this.found.push(...meant.inAirs(sky));
    const box = boxesOf(this.request).find(({ load, frame: on }) => load === "declared" && on === frame);
    this.machines += 1;
    if (!box || box.sides.length === 0) return;
    this.machines += 2 * box.sides.length;
    this.found.push(...meant.withinTolerances(box, frame, sky.mean));
  }

  private declared(releases: Releases, nominal: Instant | null, declaredFrame: Frame, met: Met): void {
    const { request, lander, limits } = this;
    const shared = { lander, limits, nominal };
    for (const frame of framesOf(request)) {
      const let_ = frame === declaredFrame ? releases : moved(request, frame).releases;
      const groups: Met = frame === declaredFrame ? met : new Set();
      if (this.whole) {
        const scene = { piece: WHOLE, load: "declared", frame } as const;
        this.found.push(...declaredThrows(request, let_, scene, shared, groups));
      }
      for (const { share, piece } of this.piecesOf()) {
        const { mass, diameter } = request.projectile;
        const projectile = {
          mass: Math.max(0.001, share * mass),
          diameter: Math.max(0.002, Math.cbrt(share) * diameter),
          shape: "irregular" as const,
        };
        const scene = { piece, load: "piece", frame } as const;
        this.found.push(...declaredThrows({ ...request, projectile }, let_, scene, shared, new Set()));
      }
    }
  }

  private piecesOf(): typeof PIECES {
    if (this.asked.found === "piece") return PIECES;
    return this.asked.found === "unknown" ? PIECES.slice(0, 1) : [];
  }

  /** The machines that made the worst throws, and where those can reach it every side of the tolerances by itself. */
  private corners(nominal: Instant | null, met: Met): Worst {
    const { request, lander, limits, target } = this;
    const worst = this.known ?? this.searched();
    const boxes = boxesOf(
      request,
      worst.sensitive.map(({ parameter }) => parameter),
    );
    const shared = { lander, limits, nominal };
    const before: Met = new Set(met);
    const last = new Map<string, Corner>();
    for (const { distance, corner, frame, load } of throwsOf(worst)) {
      const box = boxes.find((each) => each.load === load && each.frame === frame);
      if (!box || distance === 0) continue;
      last.set(JSON.stringify([corner, frame, load]), { box, point: pointOf(box, corner) });
    }
    this.machines += last.size;
    this.found.push(...cornerThrows([...last.values()], { piece: WHOLE }, shared, met, () => true));
    // No single tolerance reaches what none of the worst corners does.
    if (target.distance > Math.max(seenOf(worst.forward), seenOf(worst.backward))) return worst;
    const sides: Corner[] = boxes
      .filter(({ load }) => load === "declared")
      .flatMap((box) =>
        box.sides.flatMap((_, i) =>
          [-1, 1].map((end) => ({ box, point: new Float64Array(box.sides.length).fill(end, i, i + 1) })),
        ),
      );
    const tried = () => {
      this.machines++;
      return lander.flown < MOST_FLIGHTS;
    };
    this.found.push(...cornerThrows(sides, { piece: WHOLE }, shared, before, tried));
    return worst;
  }

  private searched(): Worst {
    const { worst, sensitive, machines } = findWorst(this.request);
    this.machines += machines;
    return { ...worst, sensitive };
  }

  /** Those that fit by what they need, alike ones only a few times; then the nearest others. */
  private ranked(meantAt: number | null): Explanation[] {
    const { aim, lean } = this.policy.angles;
    const wanted = { piece: this.asked.found === "piece", aim: aim + lean, meantAt };
    const all = this.found
      .filter(({ miss }) => Number.isFinite(miss))
      .map((found): Explanation => {
        const fits = found.miss <= this.target.uncertainty;
        const whole = { ...found, fits, need: needOf(found, wanted), text: "" };
        return { ...whole, text: sentenceOf(whole) };
      });
    const fits = fewOf(
      all.filter((each) => each.fits).sort((a, b) => a.need - b.need),
      MOST_FITS,
      MOST_ALIKE,
    );
    const others = fewOf(
      all.filter((each) => !each.fits).sort((a, b) => a.miss - b.miss),
      MOST_OTHERS,
      1,
    );
    return [...fits, ...others];
  }

  private verdict(explanations: readonly Explanation[], worst: Worst | null) {
    const fits = explanations.filter((each) => each.fits).length;
    if (fits > 0) {
      const many =
        fits === 1
          ? "One thing that the model allows leads there"
          : `${fits} things that the model allows lead there, those that need least first`;
      const text = `${many}. None of them is proven: look for traces on the machine, and the safety officer decides whether the range holds until the cause is known.`;
      const [first] = explanations;
      // While a broken machine would explain it too, nobody stands before the machine without having looked.
      const broken = explanations.some(({ fits, cause }) => fits && cause === "fault");
      if (!broken && first.cause === "as-meant" && first.turnBy !== "torn-sling")
        return {
          verdict: "explained" as const,
          hold: false,
          text: `A throw as meant may land there. ${text}`,
        };
      return { verdict: "explained" as const, hold: true, text };
    }
    const { target } = this;
    if (this.lander.flown === 0) {
      const text =
        "No part of this kind of machine is modelled, so nothing could be tried and nothing is explained. The range holds until somebody has found out on the machine itself.";
      return { verdict: "unexplained" as const, hold: true, text };
    }
    const way = Math.cos(target.azimuth) >= 0 ? "forward" : "backward";
    const beyond = worst && target.distance > worst[way].distance + target.uncertainty;
    const barely = worst && !beyond && target.distance > seenOf(worst[way]) - target.uncertainty;
    const text = barely
      ? `It lies within the worst throw only by the ${(100 * worst[way].allowance).toFixed(1)} % that the sheet adds for what its search may have missed, and nothing that was tried leads there. The range holds; measure the place and the machine again.`
      : beyond
        ? "It lies beyond the worst throw: the model is wrong for this machine, or what was declared of it is. The range holds; measure and weigh the machine before anybody relies on its zone again."
        : "Nothing that was tried leads there: the model is wrong for this machine, or what was declared of it, of the air or of the place is. The range holds; measure the place and the machine again before anybody relies on its zone.";
    return { verdict: "unexplained" as const, hold: true, text };
  }
}

/** The farthest first impact that the search of the tolerances did see, m. */
const seenOf = ({ distance, allowance }: Worst["forward"]) => distance / (1 + allowance);

const throwsOf = ({ forward, backward, firstPass }: Worst) => [
  forward,
  backward,
  firstPass.forward,
  firstPass.backward,
];

const NOTES = [
  "The model cannot tell which of several explanations happened; their order is a judgement of how much had to go wrong, not a probability.",
  "Pieces of a machine are flown as compact as steel; a lighter one came off faster or at another instant.",
];

/** The first of a sorted list, with no more than a few of a kind. */
function fewOf(sorted: readonly Explanation[], most: number, alike: number): Explanation[] {
  const counts = new Map<string, number>();
  const out: Explanation[] = [];
  for (const each of sorted) {
    const kind = [each.cause, each.fault, each.load, each.frame, each.stop, each.afterSlack].join("/");
    const count = counts.get(kind) ?? 0;
    if (count >= alike) continue;
    counts.set(kind, count + 1);
    out.push(each);
    if (out.length === most) break;
  }
  return out;
}

/** The point of a box at which its parameters have these values. */
function pointOf(box: Box, corner: Readonly<Record<string, number>>): Float64Array {
  return Float64Array.from(box.sides, ({ name, declared, low, high }) => {
    const value = corner[name];
    if (value === undefined || value === declared) return 0;
    const share =
      value < declared ? (value - declared) / (declared - low) : (value - declared) / (high - declared);
    return Number.isFinite(share) ? Math.max(-1, Math.min(1, share)) : 0;
  });
}
