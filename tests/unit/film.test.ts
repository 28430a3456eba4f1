/** The film of a throw against closed forms, against Newton's law on what it shows, and against the loads and the preview. */
import { describe, expect, it } from "vitest";
import { scrubberAt, stillsOf, timeAt } from "@/app/workbench/film/scrub";
import {
  type Film,
  type FilmMark,
  filmOf,
  hazardRequestSchema,
  MACHINE_KINDS,
  preview,
  Reel,
} from "@/lib/throw";
import { nominalAir, workOut } from "@/lib/throw/case";
import { Track } from "@/lib/throw/film/track";
import { Flight } from "@/lib/throw/flight/flight";
import { loads } from "@/lib/throw/loads/loads";

const G = 9.80665;

function requestOf(kind: string, machine: object = {}, more: object = {}) {
  const found = MACHINE_KINDS.find((each) => each.kind === kind);
  if (!found) throw new Error(kind);
  return hazardRequestSchema.parse({
    machine: { ...found.example, ...machine },
    projectile: found.exampleProjectile,
    ...more,
  });
}

/** As a page gets it: through a worker. */
const filmed = (request: ReturnType<typeof requestOf>, held = false) =>
  new Reel(structuredClone(filmOf(request, held)));

const timeOf = ({ marks }: Film, of: FilmMark["of"]): number => {
  const found = marks.find((mark) => mark.of === of);
  if (!found) throw new Error(`no ${of} on the film`);
  return found.time;
};

const stone = { diameter: 0.1, density: 1.2, viscosity: 1.8e-5, lift: 0, sideLift: 0 };
const still = { windX: 0, windZ: 0, anemometerHeight: 10, below: 0, fall: 0, cross: 0 };

describe("a flight in time", () => {
  it("is the parabola without drag", () => {
    const flight = new Flight();
    flight.knots = [];
    flight.fly({ ...stone, ...still, gravity: G, mass: 2, area: 0.01, drag: 0 }, 0, 3, 20, 15);
    const track = new Track(flight.knots);
    expect(track.highest()).toBeCloseTo(15 / G, 9);
    for (const time of [0.01, 0.7, 1.9, 3]) {
      const { x, y, vx, vy } = track.at(time);
      expect(x).toBeCloseTo(20 * time, 9);
      expect(y).toBeCloseTo(3 + 15 * time - (G / 2) * time ** 2, 9);
      expect(vx).toBeCloseTo(20, 9);
      expect(vy).toBeCloseTo(15 - G * time, 9);
    }
  });

  // Closed forms of a vertical throw with quadratic drag: y = v_t²/g · ln(cos(φ − gt/v_t)/cos φ) up, tan φ = v₀/v_t.
  it("rises and falls as the closed form of quadratic drag says, between its knots too", () => {
    const flight = new Flight();
    flight.knots = [];
    const [mass, area, drag] = [0.3, 0.008, 0.5];
    flight.fly({ ...stone, ...still, gravity: G, mass, area, drag }, 0, 0, 0, 40);
    const track = new Track(flight.knots);
    const terminal = Math.sqrt((2 * mass * G) / (1.2 * area * drag));
    const phi = Math.atan(40 / terminal);
    const top = (terminal / G) * phi;
    expect(track.highest()).toBeCloseTo(top, 5);
    for (let time = 0.013; time < top; time += 0.217) {
      const exact = (terminal ** 2 / G) * Math.log(Math.cos(phi - (G * time) / terminal) / Math.cos(phi));
      expect(Math.abs(track.at(time).y - exact)).toBeLessThan(1e-4);
    }
    const height = (terminal ** 2 / (2 * G)) * Math.log(1 + (40 / terminal) ** 2);
    const fallen = 1.1;
    const exact = height - (terminal ** 2 / G) * Math.log(Math.cosh((G * fallen) / terminal));
    expect(Math.abs(track.at(top + fallen).y - exact)).toBeLessThan(1e-4);
    expect(track.at(top + fallen).vy).toBeCloseTo(-terminal * Math.tanh((G * fallen) / terminal), 3);
  });
});

describe.each(["hinged-counterweight", "fixed-counterweight", "floating-arm", "torsion"])(
  "the film of %s",
  (kind) => {
    const request = requestOf(kind);
    const reel = filmed(request);
    const { film } = reel;

    it("leaves, rises and lands as the preview says", () => {
      const { nominal } = preview(request);
      const at = (of: FilmMark["of"]) => reel.at(timeOf(film, of)).projectile;
      expect(at("release").speed).toBeCloseTo(nominal?.releaseSpeed as number, 9);
      expect(at("apex").y).toBeCloseTo(nominal?.apex as number, 4);
      expect(at("landing").x).toBeCloseTo(nominal?.distance as number, 9);
      expect(film.end - timeOf(film, "release")).toBeCloseTo(nominal?.flightTime as number, 9);
    });

    it("shows the peaks of the loads at their instants, and nothing larger anywhere", () => {
      const { sling, arm, pivot } = loads(request, workOut(request));
      const tension = (time: number) => reel.at(time).machine?.forces?.tension ?? 0;
      const bending = (time: number) =>
        Math.max(...(reel.at(time).machine?.forces?.bending ?? [0]).map(Math.abs));
      const onPivot = (time: number) => Math.hypot(...(reel.at(time).machine?.forces?.onPivot ?? [0, 0]));
      const peaks = [
        [tension, timeOf(film, "tension"), sling?.tension.throw?.value],
        [bending, timeOf(film, "bending"), arm?.moment.throw?.value],
        [onPivot, timeOf(film, "pivot"), pivot?.force.throw?.value],
      ] as const;
      for (const [of, time, value] of peaks) {
        expect(of(time) / (value as number)).toBeCloseTo(1, 6);
        for (let at = 0; at <= (film.release as number); at += 0.0037)
          expect(of(at)).toBeLessThanOrEqual((value as number) * (1 + 1e-5));
      }
    });

    it("obeys Newton: what the sling pulls is what turns the projectile off its fall", () => {
      const { mass } = request.projectile;
      const h = 2e-4;
      const free = film.marks.find(({ of }) => of === "lift-off")?.time ?? 0;
      for (const share of [0.35, 0.6, 0.9]) {
        const time = free + share * ((film.release as number) - free);
        const [a, b, c] = [time - h, time, time + h].map((at) => reel.at(at).projectile);
        const forces = reel.at(time).machine?.forces;
        const pull = [0, 1].map((i) => {
          const of = i === 0 ? "x" : "y";
          const acceleration = ((a as never)[of] - 2 * (b as never)[of] + (c as never)[of]) / h ** 2;
          return -mass * (acceleration + (i === 1 ? G : 0));
        });
        for (const i of [0, 1])
          expect(Math.abs((pull[i] as number) - (forces?.onTip[i] as number))).toBeLessThan(
            2e-3 * (forces?.tension as number),
          );
      }
    });

    it("goes on without a jump where the projectile leaves, and shows any instant alike in any order", () => {
      const release = film.release as number;
      const [before, after] = [reel.at(release), reel.at(release + 1e-9)];
      for (const point of ["tip", "counterweight", "shortEnd"] as const)
        for (const i of [0, 1])
          expect(after.machine?.[point][i]).toBeCloseTo(before.machine?.[point][i] as number, 6);
      expect(after.machine?.forces?.tension ?? 0).toBe(0);
      expect([before.projectile.state, after.projectile.state]).toEqual(["held", "flying"]);
      const once = JSON.stringify(reel.at(0.6 * release));
      reel.at(film.end);
      reel.at(0);
      expect(JSON.stringify(reel.at(0.6 * release))).toBe(once);
      expect(JSON.stringify(filmed(request).at(0.6 * release))).toBe(once);
    });
  },
);

describe("an arm on its pivot", () => {
  it("bears the weight and the inertia of all that moves", () => {
    const request = requestOf("hinged-counterweight");
    const { machine, projectile } = request;
    if (machine.kind !== "hinged-counterweight") throw new Error("unreachable");
    const reel = filmed(request);
    const h = 2e-4;
    for (const time of [0.6, 0.75, 0.9]) {
      const frames = [time - h, time, time + h].map((at) => reel.at(at));
      // The arm is a uniform rod: its centre lies half its length from the short end.
      const middle = (machine.longArm - machine.shortArm) / 2 / machine.longArm;
      const accelerationOf = (place: (frame: (typeof frames)[number]) => readonly [number, number]) => {
        const [a, b, c] = frames.map(place) as [[number, number], [number, number], [number, number]];
        return [0, 1].map((i) => ((a[i] as number) - 2 * (b[i] as number) + (c[i] as number)) / h ** 2);
      };
      const at = (frame: (typeof frames)[number]) => frame.machine as NonNullable<typeof frame.machine>;
      const bodies = [
        [machine.counterweightMass, accelerationOf((frame) => at(frame).counterweight)],
        [
          machine.armMass,
          accelerationOf((frame) => {
            const { fulcrum, tip } = at(frame);
            return [fulcrum[0] + middle * (tip[0] - fulcrum[0]), fulcrum[1] + middle * (tip[1] - fulcrum[1])];
          }),
        ],
        [projectile.mass, accelerationOf(({ projectile: { x, y } }) => [x, y])],
      ] as const;
      const { onPivot } = at(frames[1] as (typeof frames)[number]).forces as NonNullable<
        ReturnType<typeof at>["forces"]
      >;
      const size = Math.hypot(...onPivot);
      for (const i of [0, 1]) {
        const sum = bodies.reduce((all, [mass, a]) => all - mass * ((a[i] as number) + (i === 1 ? G : 0)), 0);
        expect(Math.abs(sum - (onPivot[i] as number))).toBeLessThan(2e-3 * size);
      }
    }
  });

  it("of a floating arm comes to stand at its end stop, whose blow is not told as a force", () => {
    const reel = filmed(requestOf("floating-arm"));
    const { film } = reel;
    const { machine } = film.request;
    const stopped = reel.at(timeOf(film, "stop") + 0.01).machine;
    expect([stopped?.doing, stopped?.forces]).toEqual(["stopped", null]);
    expect(stopped?.fulcrum[0]).toBeCloseTo((machine as { endStop: number }).endStop, 6);
  });
});

describe("what is held on", () => {
  it("hangs up: no flight, larger tension than as meant, to the end of the swing", () => {
    const request = requestOf("hinged-counterweight");
    const [meant, held] = [filmOf(request), filmOf(request, true)];
    expect([held.flight, held.release, held.nominal]).toEqual([null, null, null]);
    const reel = new Reel(held);
    expect(reel.at(held.end).projectile.state).toBe("held");
    expect(held.largest.tension).toBeGreaterThan(meant.largest.tension);
    expect(reel.at(timeOf(held, "tension")).machine?.forces?.tension).toBeCloseTo(held.largest.tension, 3);
  });

  it("says why when a machine throws nothing", () => {
    const film = filmOf(requestOf("hinged-counterweight", {}, { horizon: 0.7 }));
    expect(film.reason).toMatch(/never slips/);
    expect(film.flight).toBeNull();
  });
});

describe("machines by formula", () => {
  // An even spring without weight along the way: s = −L cos ωt, released at a quarter period.
  it("a spring drives as a harmonic oscillator", () => {
    const request = requestOf("tension", {
      draw: [
        { length: 0, force: 0 },
        { length: 2, force: 800 },
      ],
      movingMass: 0.1,
      launchAngle: 0,
    });
    const reel = filmed(request);
    const omega = Math.sqrt(400 / (request.projectile.mass + 0.1));
    expect(reel.film.release).toBeCloseTo(Math.PI / 2 / omega, 4);
    for (const share of [0, 0.13, 0.5, 0.81, 1]) {
      const time = share * (reel.film.release as number);
      const { x, vx } = reel.at(time).projectile;
      expect(x).toBeCloseTo(-2 * Math.cos(omega * time), 3);
      expect(vx).toBeCloseTo(2 * omega * Math.sin(omega * time), 1);
    }
  });

  it.each(["vertical", "horizontal"])(
    "an arm spinning in a %s plane carries it on its circle and turns on",
    (plane) => {
      const request = requestOf("spinning-arm", { plane, releaseAngle: 30 });
      const { armLength, spinRate, launchHeight } = request.machine as never as Record<string, number>;
      const reel = filmed(request);
      const { film } = reel;
      const [begin, release] = [film.begin, film.release as number];
      expect(release - begin).toBeCloseTo((2 * Math.PI) / (spinRate as number), 9);
      for (const time of [begin, begin + 0.31 * (release - begin), release]) {
        const { x, y, z, speed } = reel.at(time).projectile;
        expect(Math.hypot(x, y - (launchHeight as number), z)).toBeCloseTo(armLength as number, 6);
        expect(speed / ((armLength as number) * (spinRate as number))).toBeCloseTo(1, 6);
      }
      const turned = reel.at(release + 0.25 * (release - begin));
      expect(turned.projectile.state).toBe("flying");
      const before = reel.at(begin + 0.25 * (release - begin)).projectile;
      expect([turned.holder?.x, turned.holder?.y]).toEqual([
        expect.closeTo(before.x, 6),
        expect.closeTo(before.y, 6),
      ]);
    },
  );

  it.each(["ideal", { flowCoefficient: 90, openingTime: 0.03 }])(
    "a cannon drives from breech to muzzle, valve %j",
    (valve) => {
      const request = requestOf("air-cannon", { valve });
      const reel = filmed(request);
      const { nominal } = preview(request);
      const { barrelLength } = request.machine as never as Record<string, number>;
      const [breech, muzzle] = [reel.at(0), reel.at(reel.film.release as number)].map(
        ({ projectile }) => projectile,
      );
      expect(breech?.speed).toBe(0);
      expect(
        Math.hypot((breech?.x ?? 0) - (muzzle?.x ?? 0), (breech?.y ?? 0) - (muzzle?.y ?? 0)),
      ).toBeCloseTo(barrelLength as number, 6);
      expect(muzzle?.speed).toBeCloseTo(nominal?.releaseSpeed as number, 4);
      expect(reel.film.release).toBeCloseTo(nominal?.releaseTime as number, 9);
    },
  );

  it("of a measured speed there is the flight alone", () => {
    const { film } = filmed(requestOf("measured"));
    expect([film.begin, film.release, film.marks.map(({ of }) => of)]).toEqual([
      0,
      0,
      ["release", "apex", "landing"],
    ]);
  });

  it("crosswind carries the film aside as far as the preview says", () => {
    const request = requestOf("measured", {}, { air: { wind: { speed: 6, direction: 90 } } });
    const reel = filmed(request);
    expect(nominalAir(request).windZ).toBeGreaterThan(0);
    expect(reel.at(reel.film.end).projectile.z).toBeCloseTo(preview(request).nominal?.drift as number, 6);
  });
});

describe("the scrubber", () => {
  const span = { begin: 0, release: 0.9, end: 6 };
  it("gives swing and flight a half each, and reads back what it shows", () => {
    expect([0, 0.9, 6].map((time) => scrubberAt(span, time))).toEqual([0, 500, 1000]);
    for (const time of [0.01, 0.45, 0.9, 1, 3.3, 6])
      expect(timeAt(span, scrubberAt(span, time))).toBeCloseTo(time, 12);
    expect(scrubberAt({ begin: 0, release: null, end: 4 }, 1)).toBe(250);
    expect(scrubberAt({ begin: 0, release: 0, end: 4 }, 1)).toBe(250);
  });

  it("stops still pictures at every marked instant, once", () => {
    const stills = stillsOf(span, [{ time: 0.77 }, { time: 0.9 }], 4);
    expect(stills).toContain(0.77);
    expect(stills.filter((time) => Math.abs(time - 0.9) < 1e-6)).toHaveLength(1);
    expect([stills[0], stills.at(-1)]).toEqual([0, 6]);
    expect(stillsOf(span, [], 16).length).toBeGreaterThan(stillsOf(span, [], 1).length);
  });
});
