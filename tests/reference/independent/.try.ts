import { fixedCounterweight } from "@/lib/throw/machines/fixed-counterweight";
import { startRigidBodies, swingRigidBodies } from "./rigid-body-engine";
import { simulate } from "./swing";
import { bruteForce } from "./worst";

await startRigidBodies();
const machine = { ...fixedCounterweight.example, troughFriction: 0 };
const s = simulate(machine, 2.5);
const w = bruteForce(s, 0);
const b = w.backward;
const P = s.mechanism.projectile;
console.log(
  b.distance,
  b.t,
  b.slackSeen,
  b.state!.v[P.x],
  b.state!.v[P.y],
  Math.hypot(b.state!.v[P.x], b.state!.v[P.y]),
  Math.atan2(b.state!.v[P.y], b.state!.v[P.x]) * 57.29578,
);
for (const n of [2000, 4000, 8000, 16000]) {
  let last: any;
  swingRigidBodies(machine, 2.5, 1 / n, b.t + 0.5 / n, (q) => {
    last = q;
    return false;
  });
  console.log(n, last.t, last.vx, last.vy, last.reach);
}
