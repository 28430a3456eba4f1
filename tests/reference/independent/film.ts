/**
 * A throw as a camera in a field sees it and as a person taps it: flown in space with drag, lift and wind by small fixed
 * Runge-Kutta steps, seen through a pinhole that is turned, leaning and read out row by row, at frames of uneven rate whose
 * times a file rounds. It shares no code with what reads a film.
 */
import { GRAVITY } from "./mechanism";

export interface FilmOf {
  /** m/s, degrees above the horizontal. */
  speed: number;
  angle: number;
  /** ½·ρ·A/m, 1/m, with the true coefficients of drag and lift. */
  air: number;
  drag: number;
  lift: number;
  /** m/s along the throw, at every height. */
  wind: number;
  /** px */
  width: number;
  height: number;
  /** m from the plane of the throw; m of the plane that the picture is wide. */
  distance: number;
  wide: number;
  /** Degrees: turned about the upright, looking up, leaning. */
  yaw: number;
  pitch: number;
  roll: number;
  /** s from the middle row to the last less that to the first; negative reads upwards. */
  readout: number;
  /** s: true times of the frames, the release being at 0. */
  times: readonly number[];
  /** Seconds of the file for a true second, and how finely the file has them, s. */
  slow: number;
  tick: number;
  /** The upright pole: m long, m that it stands nearer to the camera than the plane. */
  pole: number;
  nearer: number;
  /** px, standard, in each direction. */
  tap: number;
  normal: () => number;
}

type Pixel = [number, number];
type Vector = [number, number, number];

export interface TappedFilm {
  pole: [Pixel, Pixel];
  /** Two points of a line that hangs straight down in the plane of the throw. */
  plumb: [Pixel, Pixel];
  /** File times, s. */
  frames: { time: number; projectile: Pixel; free: boolean }[];
}

/** Where the throw begins, m; the camera looks at a point as high and half a picture's width less a margin ahead. */
const HEIGHT = 6;

export function tappedFilm(film: FilmOf): TappedFilm {
  const ahead = 0.42 * film.wide;
  const tapOf = ([x, y]: Pixel): Pixel => [x + film.tap * film.normal(), y + film.tap * film.normal()];
  const seen = (at: Vector) => projected(film, ahead, at);
  const frames = film.times.map((time) => {
    let when = time;
    for (let round = 0; round < 3; round++) {
      const [, row] = seen(placeAt(film, when));
      when = time + film.readout * (row / film.height - 0.5);
    }
    return {
      time: Math.round((time * film.slow) / film.tick) * film.tick,
      projectile: tapOf(seen(placeAt(film, when))),
      free: time >= 0,
    };
  });
  const foot: Vector = [0.5, HEIGHT - film.pole, -film.nearer];
  const head: Vector = [0.5, HEIGHT, -film.nearer];
  return {
    pole: [tapOf(seen(foot)), tapOf(seen(head))],
    plumb: [tapOf(seen([1, HEIGHT, 0])), tapOf(seen([1, HEIGHT - 3, 0]))],
    frames,
  };
}

/** In still picture elements from the upper left corner. */
function projected(film: FilmOf, ahead: number, [x, y, z]: Vector): Pixel {
  const radian = Math.PI / 180;
  const focal = (film.width * film.distance) / film.wide;
  const about = (a: number, p: number, q: number): [number, number] => [
    Math.cos(a) * p - Math.sin(a) * q,
    Math.sin(a) * p + Math.cos(a) * q,
  ];
  let at: Vector = [x - ahead, y - HEIGHT, z + film.distance];
  const [x1, z1] = about(film.yaw * radian, at[0], at[2]);
  at = [x1, at[1], z1];
  const [y2, z2] = about(film.pitch * radian, at[1], at[2]);
  at = [at[0], y2, z2];
  const [x3, y3] = about(film.roll * radian, at[0], at[1]);
  return [film.width / 2 + (focal * x3) / at[2], film.height / 2 - (focal * y3) / at[2]];
}

/** Held before 0, it is shown where it will come free. */
function placeAt({ speed, angle, air, drag, lift, wind }: FilmOf, time: number): Vector {
  const steps = 40;
  const h = Math.max(0, time) / steps;
  const a = (angle * Math.PI) / 180;
  let s = [0, HEIGHT, speed * Math.cos(a), speed * Math.sin(a)];
  const rate = ([, , u = 0, v = 0]: number[]) => {
    const along = u - wind;
    const fast = Math.hypot(along, v);
    return [u, v, -air * fast * (drag * along + lift * v), -air * fast * (drag * v - lift * along) - GRAVITY];
  };
  const moved = (by: number[], dt: number) => s.map((value, i) => value + dt * (by[i] as number));
  for (let i = 0; i < steps; i++) {
    const k1 = rate(s);
    const k2 = rate(moved(k1, h / 2));
    const k3 = rate(moved(k2, h / 2));
    const k4 = rate(moved(k3, h));
    s = s.map(
      (value, j) =>
        value +
        (h / 6) * ((k1[j] as number) + 2 * (k2[j] as number) + 2 * (k3[j] as number) + (k4[j] as number)),
    );
  }
  return [s[0] as number, s[1] as number, 0];
}
