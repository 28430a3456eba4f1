/** The machine as it throws: its paths, its parts at an instant, the forces on them and the bending of the arm. */
import { project } from "@/app/_ui/machine-form/drawing/projection";
import {
  type FilmInstant,
  type FilmPaths,
  type MachineInstant,
  machineKind,
  type Part,
  type Point,
  type Reel,
} from "@/lib/throw";
import {
  arrow,
  BENDING,
  type Brush,
  disc,
  ground,
  HARVEST,
  INK,
  INK_SOFT,
  LINE,
  line,
  PAPER,
  PIVOT,
  placed,
  SLING,
  STONE,
  WEIGHT,
} from "./brush";
import type { Scene } from "./layers";

export interface MachineScene extends Scene {
  /** Pixels a metre. */
  scale: number;
  /** Pixels a newton: of the sling, and of what is many times larger. */
  slingScale: number;
  forceScale: number;
  /** Pixels a newton metre. */
  momentScale: number;
}

const MARGIN = 30;
/** The largest of each up to the release, as shares of the picture's height. */
const SLING_PULL = 0.22;
const FORCE = 0.3;
const BEND = 0.16;
/** No disc is smaller, px. */
const LEAST = 5;

export function machineScene(reel: Reel, paths: FilmPaths, width: number, height: number): MachineScene {
  const { film } = reel;
  const parts = partsOf(reel);
  const cocked = reel.at(film.begin);
  const extent = extentOf(paths, cocked, parts);
  const { toPixels, scale } = project({ extent }, width, height, MARGIN);
  const { tension, pivot, moment } = film.largest;
  const forceScale = (FORCE * height) / Math.max(1e-9, pivot);
  // The push of a cup is not among the loads: it is drawn as the pivot's force is.
  const slingScale = tension > 0 ? (SLING_PULL * height) / tension : forceScale;
  const momentScale = (BEND * height) / Math.max(1e-9, moment);
  const drawn = drawnSizes(reel, scale);
  return {
    width,
    height,
    scale,
    slingScale,
    forceScale,
    momentScale,
    still: (brush) => {
      ground(brush, width, toPixels([0, 0])[1]);
      const path = (flat: readonly number[], colour: string, dash: number[] = [], wide = 2) =>
        line(brush, placed(flat, toPixels), { colour, dash, width: wide });
      path(paths.tipAfter, LINE, [2, 6], 1);
      path(paths.counterweightAfter, LINE, [2, 6], 1);
      path(paths.flight, HARVEST, [3, 5]);
      path(paths.tip, INK_SOFT, [8, 4]);
      path(paths.counterweight, INK_SOFT, [2, 4]);
      path(paths.projectile, HARVEST, [], 2.5);
    },
    moving: (brush, instant) => {
      const { machine, holder, projectile } = instant;
      const at: Point = toPixels([projectile.x, projectile.y]);
      drawParts(brush, parts, toPixels, scale, machine?.rolled ?? 0);
      if (machine) {
        drawArm(brush, instant, machine, toPixels, drawn.weight);
        if (machine.forces) {
          drawBending(brush, reel, machine, machine.forces.bending, toPixels, momentScale);
          drawForces(brush, machine, machine.forces, toPixels, forceScale, slingScale);
        }
      } else if (holder) {
        const carried = toPixels([holder.x, holder.y]);
        const gone = projectile.state !== "held";
        drawCarrier(brush, reel, parts, gone ? null : at, carried, toPixels);
      }
      if (projectile.state !== "landed") disc(brush, at, drawn.projectile, HARVEST, 1.5);
    },
  };
}

/** What of the kind's own drawing stands still; the rest is drawn as it moves. */
function partsOf({ film }: Reel): readonly Part[] {
  const { machine } = film.request;
  const { parts } = machineKind(machine.kind).drawing(machine as never);
  if (machine.kind === "spinning-arm") {
    const { armLength: radius, launchHeight } = machine;
    const axis: Point = [0, launchHeight];
    const level = machine.plane === "horizontal";
    const ring: Part[] = level ? [] : [{ type: "arc", centre: axis, radius, from: 0, to: 360 }];
    return [{ type: "frame", points: [[-0.2 * launchHeight, 0], axis, [0.2 * launchHeight, 0]] }, ...ring];
  }
  const still = film.swing
    ? ["frame", "track", "trough"]
    : ["frame", "track", "trough", "box", "circle", "arc", "beam", "rope"];
  return parts.filter(({ type }) => still.includes(type));
}

function extentOf(paths: FilmPaths, cocked: FilmInstant, parts: readonly Part[]): Point[] {
  const extent: Point[] = [
    [0, 0],
    [cocked.projectile.x, cocked.projectile.y],
  ];
  for (const flat of [
    paths.projectile,
    paths.tip,
    paths.counterweight,
    paths.tipAfter,
    paths.counterweightAfter,
  ])
    extent.push(...placed(flat, (point) => point));
  for (const part of parts) if ("points" in part) extent.push(...part.points);
  // A machine of which only the speed is known is a point: some room around it.
  if (extent.length < 4) extent.push([-2, 0], [4, cocked.projectile.y + 3]);
  return extent;
}

function drawnSizes({ film }: Reel, scale: number) {
  const { machine, projectile } = film.request;
  const { parts } = machineKind(machine.kind).drawing(machine as never);
  const weight = parts.find((part) => part.type === "weight");
  return {
    projectile: Math.max(LEAST, (projectile.diameter / 2) * scale),
    weight: weight?.type === "weight" ? Math.max(LEAST, weight.radius * scale) : 0,
  };
}

function drawParts(
  brush: Brush,
  parts: readonly Part[],
  toPixels: (point: Point) => Point,
  scale: number,
  rolled: number,
) {
  const at = ([x, y]: Point) => toPixels([x + rolled, y]);
  for (const part of parts) {
    if (part.type === "arc" || part.type === "circle") {
      const [x, y] = at(part.centre);
      brush.setLineDash(part.type === "arc" ? [6, 4] : []);
      brush.strokeStyle = LINE;
      brush.lineWidth = 1.5;
      brush.beginPath();
      brush.arc(x, y, part.radius * scale, 0, 2 * Math.PI);
      brush.stroke();
    } else if ("points" in part && part.type !== "rope") {
      const points = part.points.map(at);
      if (part.type === "box") points.push(points[0] as Point);
      const beam = part.type === "beam";
      line(brush, points, { colour: beam ? INK : LINE, width: beam ? 5 : part.type === "box" ? 2 : 4 });
    }
  }
}

function drawArm(
  brush: Brush,
  { projectile }: FilmInstant,
  machine: MachineInstant,
  toPixels: (point: Point) => Point,
  weight: number,
) {
  const [tip, shortEnd, counterweight] = [machine.tip, machine.shortEnd, machine.counterweight].map(
    toPixels,
  ) as [Point, Point, Point];
  line(brush, [shortEnd, counterweight], { width: 3 });
  if (projectile.state === "held" && machine.doing !== "cup") {
    const dash = machine.doing === "slack" ? [2, 5] : [];
    line(brush, [tip, toPixels([projectile.x, projectile.y])], { width: 2, dash });
  }
  line(brush, [tip, shortEnd], { width: 7 });
  if (weight > 0) disc(brush, counterweight, weight, STONE, 2.5);
  disc(brush, toPixels(machine.fulcrum), 5, PAPER, 3);
}

/** The moment at each station, drawn across the arm there. */
function drawBending(
  brush: Brush,
  { stations }: Reel,
  { fulcrum, tip, shortEnd, angle }: MachineInstant,
  bending: readonly number[],
  toPixels: (point: Point) => Point,
  scale: number,
) {
  const radians = (angle * Math.PI) / 180;
  const [ex, ey] = [Math.cos(radians), Math.sin(radians)];
  const edge: Point[] = stations.map((station, i) => {
    const [x, y] = toPixels([fulcrum[0] + station * ex, fulcrum[1] + station * ey]);
    const across = (bending[i] as number) * scale;
    return [x - ey * across, y - ex * across];
  });
  brush.setLineDash([]);
  brush.beginPath();
  for (const [x, y] of [toPixels(shortEnd), ...edge, toPixels(tip)]) brush.lineTo(x, y);
  brush.closePath();
  brush.fillStyle = BENDING;
  brush.fill();
  line(brush, [toPixels(shortEnd), ...edge, toPixels(tip)], { colour: HARVEST, width: 1.5 });
}

function drawForces(
  brush: Brush,
  { tip, fulcrum, counterweight }: MachineInstant,
  { onTip, onPivot, onShortEnd }: NonNullable<MachineInstant["forces"]>,
  toPixels: (point: Point) => Point,
  scale: number,
  slingScale: number,
) {
  const pixels = ([x, y]: Point, newton: number): Point => [x * newton, -y * newton];
  arrow(brush, toPixels(counterweight), pixels(onShortEnd, scale), WEIGHT, "W");
  arrow(brush, toPixels(fulcrum), pixels(onPivot, scale), PIVOT, "P");
  arrow(brush, toPixels(tip), pixels(onTip, slingScale), SLING, "S");
}

/** The arm that spins, or the cords that drive. @param projectile null once it has left them */
function drawCarrier(
  brush: Brush,
  { film }: Reel,
  parts: readonly Part[],
  projectile: Point | null,
  holder: Point,
  toPixels: (point: Point) => Point,
) {
  const { machine } = film.request;
  if (machine.kind === "spinning-arm") {
    const axis = toPixels([0, machine.launchHeight]);
    line(brush, [axis, holder], { width: 6 });
    disc(brush, axis, 5, PAPER, 3);
  }
  for (const part of parts) {
    if (part.type !== "rope") continue;
    const [from, to] = [part.points[0], part.points.at(-1)] as [Point, Point];
    line(brush, [toPixels(from), projectile ?? holder, toPixels(to)], { width: 2 });
  }
}
