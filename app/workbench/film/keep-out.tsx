"use client";
/** The keep-out outline from above with the flight in it: worked out on asking, for it takes seconds. */
import "@/app/_ui/hazard-sheet/hazard-sheet.css";
import { useEffect, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { ReachDrawing, ReachTable } from "@/app/_ui/hazard-sheet/reach-drawing";
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import { keepOffBoth } from "@/app/_ui/kept-distance";
import { Notice } from "@/app/_ui/notice";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { HazardRequest, Reel } from "@/lib/throw";
import type { Answer, Exclusion } from "./answer";
import { ask } from "./ask";
import styles from "./film.module.css";

export function KeepOut({ reel, time, system }: { reel: Reel; time: number; system: UnitSystem }) {
  const { request } = reel.film;
  const { answer, start, stop } = useKeepOut(request);
  const exclusion = answer && "exclusion" in answer ? answer.exclusion : null;
  return (
    <section aria-labelledby="keep-out-title" className={styles.keepOut}>
      <h2 id="keep-out-title">From above: where nobody may be</h2>
      <p>
        The flight above is one throw, as meant. The keep-out outline comes from every instant at which the
        projectile may come free, every corner of the tolerances and what may break.
      </p>
      {answer === null && (
        <Button look="main" onClick={start}>
          Work out the keep-out outline
        </Button>
      )}
      <p role="status" className={answer && "done" in answer ? undefined : "aloud"}>
        {answer && "done" in answer
          ? "Searching the worst throws; this takes some seconds."
          : exclusion
            ? `Keep-out outline: ${keepOffBoth(exclusion.forward, system)} ahead, ${keepOffBoth(exclusion.backward, system)} behind.`
            : ""}
      </p>
      {answer && "done" in answer && (
        <p className="button-row">
          <progress aria-label="Keep-out outline" max={1} value={answer.done} />
          <span aria-hidden="true">{Math.round(100 * answer.done)} %</span>
          <Button onClick={stop}>Stop</Button>
        </p>
      )}
      {answer && "failure" in answer && (
        <Notice kind="problem" title="No outline">
          <p>{answer.failure}</p>
        </Notice>
      )}
      {exclusion && (
        <>
          <Caution kind="mandatory" title="stand by the server's sheet">
            <p>
              This outline was computed in this browser from declared numbers. Only the hazard sheet of the
              contest's server is official; the safety officer, local codes and licensed practice decide who
              stands where.
            </p>
          </Caution>
          <ReachDrawing
            reach={exclusion.reach}
            exclusion={exclusion}
            system={system}
            overlay={(place) => <FlightFromAbove reel={reel} time={time} place={place} />}
          />
          <p>{planWords(reel, exclusion, system)}</p>
          <details>
            <summary>The outline in figures</summary>
            <ReachTable reach={exclusion.reach} system={system} />
          </details>
        </>
      )}
    </section>
  );
}

/** The outline of a request, until another one is worked on. Null before it is asked for. */
function useKeepOut(request: HazardRequest) {
  const [asked, setAsked] = useState<HazardRequest | null>(null);
  const [answer, setAnswer] = useState<Answer | null>(null);
  const wanted = asked === request;
  useEffect(() => {
    if (!wanted) return;
    setAnswer({ done: 0 });
    return ask({ do: "keep-out", request }, setAnswer);
  }, [wanted, request]);
  return { answer: wanted ? answer : null, start: () => setAsked(request), stop: () => setAsked(null) };
}

type Place = (azimuth: number, metres: number) => readonly [number, number];

/** Downrange is up, the right of the bearing on the right. */
function FlightFromAbove({ reel, time, place }: { reel: Reel; time: number; place: Place }) {
  const { film } = reel;
  if (film.release === null) return null;
  const at = (instant: number) => {
    const { x, z } = reel.at(instant).projectile;
    return place((Math.atan2(z, x) * 180) / Math.PI, Math.hypot(x, z));
  };
  const { release, end } = film;
  const points = Array.from({ length: 25 }, (_, i) => at(release + ((end - release) * i) / 24 + 1e-9));
  const [x, y] = at(time);
  const [landedX, landedY] = at(end);
  return (
    <g className={styles.fromAbove}>
      <polyline points={points.map(([px, py]) => `${px.toFixed(1)},${py.toFixed(1)}`).join(" ")} />
      <path d={`M${landedX - 6} ${landedY - 6}l12 12m0 -12l-12 12`} />
      <circle cx={x} cy={y} r={7} />
    </g>
  );
}

function planWords({ film }: Reel, { forward, backward, side }: Exclusion, system: UnitSystem): string {
  const kept = `Nobody stands within ${keepOffBoth(forward, system)} ahead, ${keepOffBoth(backward, system)} behind and ${keepOffBoth(side, system)} to the side of the machine itself. On ground laid out, how exactly its firing point is known comes on top.`;
  return film.nominal
    ? `The white line is the throw as meant, landing ${distanceText(film.nominal.distance, system)} downrange at the cross; the disc is the projectile at the shown instant. ${kept}`
    : kept;
}
