/**
 * The same machines set up in a general 2-D rigid-body engine (rapier2d, impulse joints, single precision). It
 * knows nothing of trebuchets: bodies, hinges, slides, a rope, a floor for the trough, a torque for a twisted skein. A
 * frame on wheels is one more body, on a slide along the ground.
 */
import RAPIER from "@dimforge/rapier2d-compat";
import { type ArmMachine, GRAVITY } from "./mechanism";

export interface RigidState {
  t: number;
  /** Sling against the arm's outward line, degrees, within ±180. */
  angle: number;
  x: number;
  y: number;
  vx: number;
  vy: number;
  /** Distance from the tip to the projectile, m. */
  reach: number;
}

let ready: Promise<void> | undefined;
export const startRigidBodies = () => {
  ready ??= RAPIER.init();
  return ready;
};

/** Follows the swing with steps of `dt`; `visit` sees every step and ends the run by returning true. */
export function swingRigidBodies(
  machine: ArmMachine,
  projectileMass: number,
  dt: number,
  until: number,
  visit: (state: RigidState) => boolean,
) {
  const world = new RAPIER.World({ x: 0, y: -GRAVITY });
  world.timestep = dt;
  const cocked = (machine.cockedAngle * Math.PI) / 180;
  const ox = -Math.cos(cocked);
  const oy = -Math.sin(cocked);
  const torsion = machine.kind === "torsion";
  const longArm = torsion ? machine.armLength : machine.longArm;
  const shortArm = torsion ? 0 : machine.shortArm;
  const slingLength = machine.slingLength ?? 0;
  const troughHeight = machine.troughHeight ?? 0;
  const troughFriction = machine.troughFriction ?? 0;
  const length = longArm + shortArm;
  const centre = machine.armCentre ?? length / 2;
  const inertia = machine.armInertia ?? (machine.armMass * length ** 2) / 12;
  const floating = machine.kind === "floating-arm";
  const fx = floating ? shortArm * ox : 0;
  const fy = floating ? machine.trackHeight : machine.pivotHeight;
  const endX = fx - shortArm * ox;
  const endY = fy - shortArm * oy;
  const tipX = fx + longArm * ox;
  const tipY = fy + longArm * oy;

  const body = (x: number, y: number, rotation: number, mass: number, turning: number) =>
    world.createRigidBody(
      RAPIER.RigidBodyDesc.dynamic()
        .setTranslation(x, y)
        .setRotation(rotation)
        .setAdditionalMassProperties(mass, { x: 0, y: 0 }, turning)
        .setCanSleep(false),
    );
  const join = (data: RAPIER.JointData, a: RAPIER.RigidBody, b: RAPIER.RigidBody) =>
    world.createImpulseJoint(data, a, b, true);
  const at = (x: number, y = 0) => ({ x, y });

  const earth = world.createRigidBody(RAPIER.RigidBodyDesc.fixed());
  // What stands on the frame stands on the ground where there are no wheels.
  let ground = earth;
  if (machine.base && machine.base !== "fixed") {
    ground = body(0, 0, 0, machine.base.frameMass, 1);
    join(RAPIER.JointData.prismatic(at(0), at(0), at(1)), earth, ground);
  }
  const toCentre = centre - shortArm;
  const arm = body(fx + toCentre * ox, fy + toCentre * oy, cocked - Math.PI, machine.armMass, inertia);
  if (machine.kind === "floating-arm") {
    // Carriage and counterweight only slide: their moments of inertia do not matter.
    const carriage = body(fx, fy, 0, machine.carriageMass, 1);
    const weight = body(endX, endY, 0, machine.counterweightMass, 1);
    join(RAPIER.JointData.prismatic(at(0), at(0), at(0, 1)), ground, weight);
    join(RAPIER.JointData.revolute(at(-centre), at(0)), arm, weight);
    join(RAPIER.JointData.revolute(at(-toCentre), at(0)), arm, carriage);
    join(RAPIER.JointData.prismatic(at(0, fy), at(0), at(1)), ground, carriage);
  } else {
    join(RAPIER.JointData.revolute(at(0, fy), at(-toCentre)), ground, arm);
    if (machine.kind === "hinged-counterweight") {
      const hanger = machine.hangerLength;
      // A point has no inertia to turn, but the engine needs one: it is kept far below M·hanger².
      const turning = Math.max(machine.counterweightInertia, machine.counterweightMass * hanger ** 2 * 1e-5);
      const weight = body(endX, endY - hanger, 0, machine.counterweightMass, turning);
      join(RAPIER.JointData.revolute(at(-centre), at(0, hanger)), arm, weight);
    } else if (!torsion) {
      const weight = body(
        endX,
        endY,
        cocked - Math.PI,
        machine.counterweightMass,
        machine.counterweightInertia,
      );
      join(RAPIER.JointData.fixed(at(-centre), 0, at(0), 0), arm, weight);
    }
  }
  const drop = tipY - troughHeight;
  const radius = 0.05;
  const load = body(tipX + Math.sqrt(slingLength ** 2 - drop ** 2), troughHeight, 0, projectileMass, 1);
  load.lockRotations(true, true);
  world.createCollider(
    RAPIER.ColliderDesc.ball(radius).setDensity(0).setFriction(troughFriction).setRestitution(0),
    load,
  );
  world.createCollider(
    RAPIER.ColliderDesc.cuboid(100, 1)
      .setDensity(0)
      .setTranslation(0, troughHeight - radius - 1)
      .setFriction(troughFriction)
      .setRestitution(0),
    ground,
  );
  join(RAPIER.JointData.rope(slingLength, at(length - centre), at(0)), arm, load);

  for (let n = 1; n * dt <= until; n++) {
    if (torsion) {
      const rotation = arm.rotation();
      const toGo =
        rotation - (rotation > 0 ? 2 * Math.PI : 0) + Math.PI + (machine.stopAngle * Math.PI) / 180;
      arm.resetTorques(true);
      arm.addTorque(-(machine.preloadTorque + machine.stiffness * toGo), true);
    }
    world.step();
    const turn = arm.rotation();
    const middle = arm.translation();
    const p = load.translation();
    const v = load.linvel();
    const sx = p.x - middle.x - (length - centre) * Math.cos(turn);
    const sy = p.y - middle.y - (length - centre) * Math.sin(turn);
    const raw = Math.atan2(sy, sx) - turn;
    const angle = ((raw - 2 * Math.PI * Math.round(raw / (2 * Math.PI))) * 180) / Math.PI;
    if (visit({ t: n * dt, angle, x: p.x, y: p.y, vx: v.x, vy: v.y, reach: Math.hypot(sx, sy) })) break;
  }
  world.free();
}
