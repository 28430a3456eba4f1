/** The failures of a machine that is swung by its equations of motion. */
import type { Fault, Figure } from "../contracts/faults";
import type { Sweep } from "../contracts/loads";
import type { Strengths } from "../contracts/strengths";
import type { Lives } from "../loads/lives";
import { machineEnergy } from "../loads/unloaded";
import type { Instant } from "../release";
import { storedEnergy } from "../swing/energy";
import { arrivalOf, driveAlong, driveAtStop } from "./arrivals";
import { circle, farthest, type PieceFlights, reachOf } from "./flights";
import { type Gap, Poses } from "./poses";
import { type Tear, type Tears, tearsOf } from "./tears";

const figure = (code: string, label: string, value: number | null, unit: Figure["unit"]): Figure => ({
  code,
  label,
  value,
  unit,
});

const UNLOADED =
  "From that instant the machine swings on with nothing in its sling, by the same equations of motion, without friction.";
const AIR = "Pieces fly as compact as steel with the low drag of an irregular body, the gust helping.";

export class SwingFaults {
  private readonly poses: Poses;
  private readonly tears: Tears;

  constructor(
    private readonly lives: Lives,
    nominal: Instant | null,
    private readonly strengths: Strengths | undefined,
    private readonly sweep: Sweep,
    flights: PieceFlights,
  ) {
    const { pose, trace } = lives;
    this.poses = new Poses(lives, flights, nominal?.time ?? Number.POSITIVE_INFINITY);
    this.poses.addSwing();
    const start = machineEnergy(pose.motion, trace.phase(0), trace.stateAt(0, 0));
    const least = start - storedEnergy(pose.setup);
    this.tears = tearsOf(lives, nominal, least, this.poses.addRun);
  }

  list(): Fault[] {
    const { body, pose } = this.lives;
    const out = [this.slingTears(), this.dryFire(), this.armBreaks()];
    if (pose.setup.carrier.floats) out.push(this.carriageLeaves());
    if (body.counterweightMass > 0) out.push(this.counterweightDrops(), this.counterweightStrikes());
    out.push(this.machineTips());
    return out;
  }

  private slingTears(): Fault {
    const { tears } = this;
    const { worst, meant } = tears;
    return {
      code: "sling-tears",
      title: "The sling tears and the machine swings on unloaded",
      assumptions: [
        "The sling tears at the worst instant from the trigger on, before the stop is met.",
        UNLOADED,
      ],
      notes: this.stopNotes(worst),
      figures: [
        ...this.arrivalFigures(worst, meant),
        ...this.heldFigure(),
        ...this.energyFigures(tears.largest.energy, tears.largest.at),
      ],
      pieces: [],
      ...reachOf([]),
      allRound: false,
    };
  }

  private dryFire(): Fault {
    const { tears } = this;
    return {
      code: "dry-fire",
      title: "Dry fire: triggered with nothing in the sling",
      assumptions: ["The sling is empty or lets go at the trigger.", UNLOADED],
      notes: this.stopNotes(tears.dryFire),
      figures: [
        ...this.arrivalFigures(tears.dryFire, tears.meant),
        ...this.energyFigures(tears.largestDryFire, 0),
      ],
      pieces: [],
      ...reachOf([]),
      allRound: false,
    };
  }

  private heldFigure(): Figure[] {
    if (!this.lives.pose.setup.carrier.endStop) return [];
    const label = "Arrives at the stop with the projectile held to the end";
    return [figure("held-energy", label, this.tears.held, "J")];
  }

  /** What arrives at the stop, and what the stop needs for it. */
  private arrivalFigures(tear: Tear | null, meant: Tear | null): Figure[] {
    const { pose } = this.lives;
    const driven = driveAtStop(pose.setup);
    if (!driven) return [];
    const { stroke, force } = this.strengths?.stop ?? {};
    const energy = tear?.energy ?? null;
    const drive = driveAlong(driven);
    // What weight and springs still push with does work over the stroke too: E + D·s.
    const way = (braking: number) => (energy !== null && braking > drive ? energy / (braking - drive) : null);
    const meanForce = energy !== null && stroke !== undefined ? energy / stroke + drive : null;
    const ratio = tear && meant && meant.energy > 0 ? tear.energy / meant.energy : null;
    const out = [
      figure("arrival-energy", "Arrives at the stop", energy, "J"),
      figure("torn-at", "When the sling tears, from the trigger", tear?.at ?? null, "s"),
      figure("arrives-at", "When the stop is met, from the trigger", tear?.arrives ?? null, "s"),
      figure("normal-energy", "Arrives after a throw as meant", meant?.energy ?? null, "J"),
      figure("ratio", "Multiple of what arrives after a throw as meant", ratio, "ratio"),
      figure("arm-rate", "Arm's rate at the stop", tear && Math.abs(tear.rate), "rad/s"),
    ];
    if (driven.of === "carriage") {
      const speed = tear && arrivalOf(pose.setup, tear).speed;
      out.push(
        figure("carriage-speed", "Carriage's speed at the stop", speed, "m/s"),
        figure("drive", "What weight and springs go on pushing with at the stop", driven.drive, "N"),
      );
    } else
      out.push(figure("drive", "What weight and springs go on turning the arm with", driven.drive, "N·m"));
    const spring = force === undefined ? null : way(force / 2);
    out.push(
      figure(
        "stroke-average",
        "Stroke needed at the declared force, held all the way",
        force === undefined ? null : way(force),
        "m",
      ),
      figure("stroke-spring", "Stroke needed where the declared force is the peak of a spring", spring, "m"),
      figure("force-average", "Average force over the declared stroke", meanForce, "N"),
      figure(
        "force-peak",
        "Peak force of a spring over the declared stroke",
        meanForce && 2 * meanForce,
        "N",
      ),
    );
    return out;
  }

  private energyFigures(energy: number, at: number): Figure[] {
    const { largestMeant } = this.tears;
    const ratio = largestMeant !== null && largestMeant > 0 ? energy / largestMeant : null;
    return [
      figure("machine-energy", "Energy of the moving parts above the least they can reach", energy, "J"),
      figure("machine-energy-at", "When the sling tears then, from the trigger", at, "s"),
      figure("machine-energy-normal", "The same after a throw as meant", largestMeant, "J"),
      figure("machine-energy-ratio", "Multiple of that", ratio, "ratio"),
    ];
  }

  private stopNotes(tear: Tear | null): string[] {
    const driven = driveAtStop(this.lives.pose.setup);
    if (!driven) return ["There is no stop: frame, axle and hanger bear the swinging until it dies away."];
    if (!tear) return ["The stop is not reached within the horizon."];
    const { stroke, force } = this.strengths?.stop ?? {};
    const notes = [
      driven.of === "carriage"
        ? "Weight and springs go on pushing while the stop brakes: their work over the stroke is counted."
        : "Weight and springs go on turning the arm while the stop brakes: that is not counted, since where along the arm the stop catches it is not declared. A spring's peak grows by twice that torque over the distance from the pivot.",
    ];
    if (stroke !== undefined && force !== undefined) {
      const needed = 2 * (tear.energy / stroke + driveAlong(driven));
      notes.push(
        needed > force
          ? "The declared stop fails: a spring over its stroke would peak above its force."
          : driven.of === "carriage"
            ? "The declared stop holds by this reckoning; test it at lower weights first."
            : "The declared stop takes the energy by this reckoning, without what goes on turning the arm; test it at lower weights first.",
      );
    } else notes.push("Declare the stop's stroke and force to learn whether it holds.");
    return notes;
  }

  private armBreaks(): Fault {
    const pieces = farthest(
      this.poses.breaks.flatMap(({ alone, together }) => [...alone.pieces(), ...together.pieces()]),
    );
    return {
      code: "arm-breaks",
      title: "The arm breaks",
      assumptions: [
        "It breaks at any of 12 stations at any instant of the swing, held on or unloaded; the outer piece goes on at the velocity of its own centre, alone or with the projectile in its sling.",
        this.lives.body.lumps ? "Its mass is as declared by station." : "Its mass is that of a uniform rod.",
        AIR,
      ],
      notes: ["The projectile itself may come free then: the worst throws hold that."],
      figures: [],
      pieces,
      ...reachOf(pieces),
      allRound: false,
    };
  }

  private carriageLeaves(): Fault {
    const pieces = this.poses.carriage.pieces();
    return {
      code: "carriage-leaves-track",
      title: "The carriage leaves its track",
      assumptions: [
        "Carriage and arm come off the track together at any instant, stop or no stop, and fly from the track's height at the carriage's own speed.",
        AIR,
      ],
      notes: ["What still joins the arm to the counterweight is taken to break without holding it back."],
      figures: [figure("carriage-speed", "Fastest the carriage runs", this.poses.carriageSpeed, "m/s")],
      pieces,
      ...reachOf(pieces),
      allRound: false,
    };
  }

  private counterweightDrops(): Fault {
    const pieces = this.poses.counterweight.pieces();
    return {
      code: "counterweight-drops",
      title: "The counterweight comes off",
      assumptions: [
        "Hanger, hinge or drum fails at any instant of the swing, held on or unloaded, and the counterweight goes on with its own velocity.",
        AIR,
      ],
      notes: ["A drum that bursts spills where it strikes; stones roll on."],
      figures: [],
      pieces,
      ...reachOf(pieces),
      allRound: false,
    };
  }

  private counterweightStrikes(): Fault {
    const { ground, axle } = this.poses;
    const { counterweightSize } = this.lives.body;
    const gap = (code: string, label: string, { least, time }: Gap) => {
      const known = Number.isFinite(least);
      return [
        figure(code, label, known ? least : null, "m"),
        figure(`${code}-at`, "When that is, from the trigger", known ? time : null, "s"),
      ];
    };
    const notes: string[] = [];
    if (ground.throw.least <= 0) notes.push("The counterweight strikes the ground in the throw as meant.");
    else if (ground.any.least <= 0)
      notes.push(
        "The counterweight strikes the ground after the loop should have slipped or the sling has torn.",
      );
    if (axle.any.least <= 0)
      notes.push(
        "The counterweight comes as near to the axle as its own size: it strikes axle, arm or frame.",
      );
    if (counterweightSize === 0)
      notes.push("The counterweight's size is not declared: the gaps are those of its centre.");
    return {
      code: "counterweight-strikes",
      title: "The counterweight strikes ground or frame",
      assumptions: [
        "Gaps of the counterweight, a ball of its declared size, to level ground and to the axle; nothing is known of the frame's posts and braces.",
        UNLOADED,
      ],
      notes,
      figures: [
        ...gap("ground-gap-throw", "Least gap to the ground until the loop slips", ground.throw),
        ...gap("ground-gap", "Least gap to the ground, held on or unloaded", ground.any),
        ...gap("axle-gap", "Least gap to the axle, held on or unloaded", axle.any),
      ],
      pieces: [],
      ...reachOf([]),
      allRound: false,
    };
  }

  private machineTips(): Fault {
    const { base } = this.lives.machine as { base?: unknown };
    const declared =
      typeof base === "object" && base !== null ? (base as { footprint?: number }).footprint : undefined;
    const footprint = this.strengths?.frame?.footprint ?? declared ?? 0;
    const radius = this.sweep.all.height + footprint / 2;
    return {
      code: "machine-tips",
      title: "The machine tips over",
      assumptions: [
        "It falls as a whole any way, turning about an edge of its base: nothing lies farther than its highest point reached.",
        footprint > 0 ? "Half the base's length is added." : "The base's length is unknown and not added.",
      ],
      notes: [],
      figures: [figure("height", "Highest that anything of the machine reaches", this.sweep.all.height, "m")],
      pieces: [],
      reach: circle(radius),
      rest: circle(radius),
      allRound: true,
    };
  }
}
