/**
 * What is looked at before a machine throws: each line with its reason, and only the lines that apply. The team goes
 * through it at home, the inspector on the day.
 */
import type { Machine } from "../../throw";
import type { Figure } from "./figures";
import * as of from "./figures";
import type { Known } from "./known";

export interface Line {
  /** Never changes its meaning: what was found is kept under it. */
  id: string;
  title: string;
  /** What to do with hand and eye. */
  look: string;
  reason: string;
  applies: (machine: Machine) => boolean;
  figures: (known: Known) => Figure[];
  /** The parts of a declaration on which a finding stands: it falls when a number in them changes. */
  standsOn: readonly string[];
}

const always = () => true;
const none = (): Figure[] => [];
const isOneOf =
  (...kinds: Machine["kind"][]) =>
  ({ kind }: Machine) =>
    kinds.includes(kind);

const weighted = isOneOf("hinged-counterweight", "fixed-counterweight", "floating-arm");
const armed = (machine: Machine) => weighted(machine) || machine.kind === "torsion";
const turning = (machine: Machine) => armed(machine) || machine.kind === "spinning-arm";
const slung = (machine: Machine) => "slingLength" in machine && machine.slingLength !== undefined;

const MACHINE = ["machine", "projectile"] as const;

export const LINES: readonly Line[] = [
  {
    id: "structure",
    title: "Structure and joints",
    look: "Every bolt, weld, lashing and wedge by hand; cracks at bolt holes; bracing that has moved; ground under the feet.",
    reason: "Each throw pushes the frame to and fro, and joints work loose from throw to throw.",
    applies: always,
    figures: of.pivotFigures,
    standsOn: [...MACHINE, "strengths.pivot"],
  },
  {
    id: "arm",
    title: "Arm",
    look: "Rot, insect holes, cracks along or across the grain, knots near the pivot, laminations or cloth that part, dents in tube. Bend it by hand and listen.",
    reason: "An arm that breaks throws its outer piece, and what follows it, anywhere.",
    applies: turning,
    figures: of.armFigures,
    standsOn: [...MACHINE, "strengths.arm"],
  },
  {
    id: "springs",
    title: "Skeins or springs",
    look: "Chafed strands, rust, wedges and washers that can fly; the same twist on both sides.",
    reason: "They stay loaded as long as the machine stands, also when nobody has cocked it.",
    applies: isOneOf("torsion"),
    figures: of.springFigures,
    standsOn: ["machine"],
  },
  {
    id: "limbs",
    title: "Limbs, cords and springs",
    look: "Cracks and lifted splinters in limbs, worn serving, cuts in rubber, knots and hooks that can come off.",
    reason:
      "What parts at full draw flies at whoever drew it; a dry fire gives all the energy back to the limbs.",
    applies: isOneOf("tension"),
    figures: of.drawFigures,
    standsOn: ["machine"],
  },
  {
    id: "hub",
    title: "Hub, shaft, bearings and balance",
    look: "Play in the bearings, keys and bolts of the hub, the balance weight and how it is held, the motor's stop.",
    reason: "The pull at the hub turns with the arm, and grows with the square of the speed.",
    applies: isOneOf("spinning-arm"),
    figures: of.hubFigures,
    standsOn: MACHINE,
  },
  {
    id: "sling",
    title: "Sling and rope",
    look: "Chafe, cut strands, knots, stitches of the pouch, both legs of one length; the rope's label with its strength.",
    reason: "A sling that tears sends the projectile wherever it points at that instant, backwards too.",
    applies: slung,
    figures: of.slingFigures,
    standsOn: [...MACHINE, "strengths.sling", "tolerances.slingLength"],
  },
  {
    id: "pin",
    title: "Release pin",
    look: "Smooth, straight, not turning in the arm; the loop slips at the declared angle when swung by hand.",
    reason: "A bent or rough pin holds the loop: the projectile goes up, or comes back.",
    applies: (machine) => slung(machine) || machine.kind === "spinning-arm",
    figures: of.pinFigures,
    standsOn: ["machine.releaseAngle", "machine.slingLength", "tolerances.releaseAngle"],
  },
  {
    id: "trigger",
    title: "Trigger and its safety pin",
    look: "The pin goes in before anybody comes near, holds with the trigger pulled, and comes out last, from afar.",
    reason: "Whoever loads or hooks the sling stands where the machine will move.",
    applies: always,
    figures: none,
    standsOn: ["machine"],
  },
  {
    id: "projectiles",
    title: "Projectiles",
    look: "Weigh and measure every one that is to be thrown. Whole, dry, nothing put inside.",
    reason: "The zones are those of the declared projectile: another one flies elsewhere.",
    applies: always,
    figures: of.projectileFigures,
    standsOn: ["projectile", "tolerances.mass", "tolerances.diameter"],
  },
  {
    id: "counterweight",
    title: "Counterweight and how it is held",
    look: "Weighed, lid shut, nothing loose in it; hinge, shackles and bolts pinned; a second holding beside the first.",
    reason: "It is the largest energy on the field, and passes near the ground and the frame at speed.",
    applies: weighted,
    figures: of.weightFigures,
    standsOn: [...MACHINE, "strengths.hanger", "tolerances.counterweightMass"],
  },
  {
    id: "clearances",
    title: "Running clearances",
    look: "Turn it slowly by hand through its whole way: hanger to frame, wheels to track, tip to ground and to trough.",
    reason: "What touches at rest strikes at speed, breaks, or throws a wheel off its track.",
    applies: turning,
    figures: of.gapFigures,
    standsOn: ["machine"],
  },
  {
    id: "end-stops",
    title: "End stops for a dry fire",
    look: "The stop that was proven by a drop test; its bolts; what is behind it when it breaks.",
    reason: "With nothing in the sling the arm or the carriage keeps all the energy, and overruns.",
    applies: armed,
    figures: of.stopFigures,
    standsOn: [...MACHINE, "strengths.stop"],
  },
  {
    id: "winch",
    title: "Winch and cable",
    look: "Ratchet, brake, broken wires, hooks with their latches; a second holding before anybody goes under the arm.",
    reason: "A line that parts while the machine is drawn whips, and lets it go.",
    applies: (machine) => armed(machine) || machine.kind === "tension",
    figures: of.winchFigures,
    standsOn: ["machine"],
  },
  {
    id: "guards",
    title: "Guards",
    look: "Ropes or boards around all that moves, behind it and beside it too; motors and shafts covered.",
    reason: "People step nearer while it is cocked, and an arm reaches farther than it looks.",
    applies: (machine) => machine.kind !== "air-cannon",
    figures: of.sweepFigures,
    standsOn: ["machine"],
  },
  {
    id: "chamber",
    title: "Chamber and its papers",
    look: "Who built it, for which pressure, from what; the dated pressure test; no plastic pipe that is not made for gas.",
    reason: "A chamber that bursts throws its pieces all round, with no direction to keep clear of.",
    applies: isOneOf("air-cannon"),
    figures: of.chamberFigures,
    standsOn: ["machine", "strengths.chamberRating"],
  },
  {
    id: "relief-valve",
    title: "Relief valve and gauge",
    look: "Set below the rating, not blocked, dated; a gauge that was compared with another one.",
    reason: "A compressor that is left on fills until something gives.",
    applies: isOneOf("air-cannon"),
    figures: of.chamberFigures,
    standsOn: ["machine.chamberPressure", "machine.ratedPressure", "strengths.chamberRating"],
  },
  {
    id: "valve",
    title: "Valve, cap and barrel",
    look: "How cap and valve are held, threads in full, barrel fixed to the frame; a way to empty it without a shot.",
    reason: "A cap or a valve that is shot off flies backwards, towards the crew.",
    applies: isOneOf("air-cannon"),
    figures: of.capFigures,
    standsOn: ["machine"],
  },
  {
    id: "anchoring",
    title: "Anchoring",
    look: "Pegs, ties and ballast as reckoned, in ground that was tried; wheels chocked unless they are meant to roll.",
    reason: "A frame that slides or lifts aims anew during the throw.",
    applies: always,
    figures: of.anchorFigures,
    standsOn: [...MACHINE, "strengths.frame"],
  },
  {
    id: "level",
    title: "Level ground",
    look: "A level along and across at the firing point, again after the first throws: feet sink.",
    reason: "A lean throws to the side of it, and a counterweight swings to that side.",
    applies: always,
    figures: of.leanFigures,
    standsOn: ["machine.leanAlong", "machine.leanAcross", "tolerances.leanAlong", "tolerances.leanAcross"],
  },
  {
    id: "crew",
    title: "Crew places",
    look: "A place for everybody, none ahead, behind or beside within the zone; who counts them before each throw.",
    reason: "The crew is nearer than anybody, and looks at the machine instead of around.",
    applies: always,
    figures: of.sweepFigures,
    standsOn: MACHINE,
  },
  {
    id: "lanyard",
    title: "Length of the lanyard",
    look: "Long enough to stand at the crew place behind its screen; it runs free, and cannot be caught by what moves.",
    reason: "Whoever pulls it must stand outside of all that swings, and of what breaks.",
    applies: always,
    figures: of.sweepFigures,
    standsOn: MACHINE,
  },
  {
    id: "transport",
    title: "Transport and raising",
    look: "Height on the trailer, ties, weight on the hitch; who directs while it is raised, nobody under it.",
    reason:
      "More is lifted and driven than thrown: lines over the road, a trailer that sways, a frame that falls.",
    applies: always,
    figures: none,
    standsOn: ["machine", "strengths.frame"],
  },
];

export const linesFor = (machine: Machine): Line[] => LINES.filter(({ applies }) => applies(machine));
