/** The releases of a machine of which only the speed was measured: any direction within its uncertainty. */
import type { Measured } from "./machines/measured";
import type { Instant, Releases } from "./swing/releases";

/** Common practice, no source: what a video or a radar of a few throws may err by. */
const SPEED_ERROR = 0.05;
/** Nothing is known of what else the machine can do: the projectile may leave in any direction. */
const ANY_DIRECTION = 180;

export class MeasuredReleases implements Releases {
  readonly list: Instant[] = [];
  readonly nominal: Instant;
  /** m/s and m, with their uncertainties added. */
  readonly speed: number;
  readonly height: number;
  private readonly from: number;
  private readonly to: number;

  constructor(machine: Measured, tolerances: Readonly<Record<string, number>> = {}) {
    const spread = Math.min(180, tolerances.launchAngle ?? ANY_DIRECTION);
    this.speed = machine.releaseSpeed + (tolerances.releaseSpeed ?? SPEED_ERROR * machine.releaseSpeed);
    this.height = machine.launchHeight + (tolerances.launchHeight ?? 0);
    this.from = machine.launchAngle - spread;
    this.to = machine.launchAngle + spread;
    this.nominal = this.instant(machine.launchAngle, machine.releaseSpeed, machine.launchHeight, 0.5);
    const parts = Math.max(1, Math.ceil(2 * spread));
    for (let i = 0; i <= parts; i++) this.list.push(this.near(this.nominal, i / parts));
  }

  near(_instant: Instant, fraction: number): Instant {
    return this.instant(this.from + fraction * (this.to - this.from), this.speed, this.height, fraction);
  }

  private instant(degrees: number, speed: number, height: number, fraction: number): Instant {
    const angle = (degrees * Math.PI) / 180;
    return {
      time: 0,
      step: 0,
      fraction,
      segment: 0,
      x: 0,
      y: height,
      vx: speed * Math.cos(angle),
      vy: speed * Math.sin(angle),
      slingAngle: 0,
      hangUp: false,
      afterSlack: false,
      stop: "none",
    };
  }
}
