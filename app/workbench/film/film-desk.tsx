"use client";
/** The throw as a film: the machine with its forces, the flight, and from above what must be kept clear. */
import { useEffect, useMemo, useState } from "react";
import { CopyLink } from "@/app/_ui/copy-link";
import { CheckField } from "@/app/_ui/field";
import { distanceText, heightText } from "@/app/_ui/hazard-sheet/words";
import { ErrorList } from "@/app/_ui/machine-form/error-list";
import { formToHash, linkTo } from "@/app/_ui/machine-form/form/link";
import { Notice } from "@/app/_ui/notice";
import { useWidth } from "@/app/_ui/throw-pictures/use-width";
import { useUnits } from "@/app/_ui/units";
import { type FilmPaths, machineKind, type Reel } from "@/lib/throw";
import { carriedInLink } from "../alarm/carried";
import { useAlarm } from "../alarm/use-alarm";
import { useBench } from "../bench/use-bench";
import styles from "./film.module.css";
import { InstantTable, MarkTable } from "./instant-table";
import { KeepOut } from "./keep-out";
import { Legend } from "./legend";
import { flightScene } from "./pictures/flight-scene";
import { Layers } from "./pictures/layers";
import { machineScene } from "./pictures/machine-scene";
import { inCupOf, Marks, type Speed, SpeedChoice, Transport } from "./transport";
import { useFilm } from "./use-film";
import { useProjector } from "./use-projector";
import { useStill } from "./use-still";
import { doingWords, momentText } from "./words";

/** What the address asks for: an instant (s from the trigger), and whether the loop is taken not to slip. */
function askedFor(search: string): { time: number | null; held: boolean } {
  const parameters = new URLSearchParams(search);
  const time = Number.parseFloat(parameters.get("t") ?? "");
  return { time: Number.isFinite(time) ? time : null, held: parameters.get("held") === "1" };
}

export function FilmDesk() {
  const { bench, revision, reading, loaded } = useBench();
  const [held, setHeld] = useState(false);
  const [first, setFirst] = useState<number | null>(null);
  const { form } = revision;
  const { carried } = useAlarm();
  const filmed = useFilm(loaded && reading.ok ? reading.request : null, held);
  useEffect(() => {
    const asked = askedFor(location.search);
    setFirst(asked.time);
    setHeld(asked.held);
  }, []);
  const { reel, paths, stale, failure } = filmed;
  const slung = reel !== null && reel.film.swing !== null && !inCupOf(reel);
  return (
    <div className={styles.desk}>
      <p>
        {bench.name ? `${bench.name}, revision` : "Revision"} “{revision.name}”, at its declared numbers.
      </p>
      {failure && (
        <Notice kind="problem" title="No film">
          <p>{failure}</p>
        </Notice>
      )}
      {!reading.ok && loaded && (
        <Notice title={reel ? "This film is of earlier numbers" : "No film yet"}>
          <ErrorList errors={reading.errors} form={form} />
        </Notice>
      )}
      {reel && paths ? (
        <div className={stale ? styles.stale : undefined}>
          {slung && (
            <CheckField
              id="film-held"
              label="The loop does not slip: show the projectile held on"
              checked={held}
              onChange={(event) => setHeld(event.target.checked)}
            />
          )}
          <FilmOf reel={reel} paths={paths} first={first} hash={formToHash(form, carriedInLink(carried))} />
        </div>
      ) : (
        !failure && reading.ok && <p role="status">The film is being made.</p>
      )}
    </div>
  );
}

function FilmOf({
  reel,
  paths,
  first,
  hash,
}: {
  reel: Reel;
  paths: FilmPaths;
  first: number | null;
  hash: string;
}) {
  const system = useUnits();
  const still = useStill();
  const [speed, setSpeed] = useState<Speed>("4");
  const [box, width] = useWidth<HTMLDivElement>(640);
  const projector = useProjector(reel, Number(speed), still, first);
  const { time, playing, painters, shown } = projector;
  const { film } = reel;
  const { nominal } = film;
  const height = Math.round(Math.min(540, width * (width < 480 ? 0.86 : 0.72)));
  const machine = useMemo(() => machineScene(reel, paths, width, height), [reel, paths, width, height]);
  const landing = nominal ? `landing ${distanceText(nominal.distance, system)}` : "";
  const apex = nominal ? `apex ${heightText(nominal.apex, system)}` : "";
  const flight = useMemo(
    () => flightScene(reel, paths, width, { apex, landing }),
    [reel, paths, width, apex, landing],
  );
  const instant = reel.at(time);
  const table = "The tables say the same.";
  return (
    <>
      {film.reason && (
        <Notice title="As meant, nothing is thrown">
          <p>{film.reason} The film shows the machine with its projectile held on.</p>
        </Notice>
      )}
      <div className={styles.stage}>
        <div ref={box}>
          <Layers
            scene={machine}
            painters={painters}
            shown={shown}
            label={`${machineKind(film.request.machine.kind).title} from the side, downrange to the right, at ${momentText(time)}: ${doingWords(instant)}. ${table}`}
          />
          <Transport reel={reel} projector={projector} still={still} />
          {flight && (
            <Layers
              scene={flight}
              painters={painters}
              shown={shown}
              label={`The flight as meant from the side, to scale: ${apex}, ${landing}. ${table}`}
            />
          )}
        </div>
        <div>
          <InstantTable reel={reel} time={time} system={system} />
          <p role="status" className="aloud">
            {playing ? "" : `${momentText(time)}: ${doingWords(instant)}.`}
          </p>
          <SpeedChoice speed={speed} onSpeed={setSpeed} still={still} />
          <Marks reel={reel} projector={projector} />
          <LinkToInstant time={time} held={film.held} hash={hash} />
        </div>
      </div>
      {film.swing ? (
        <Legend
          scene={machine}
          cup={inCupOf(reel)}
          weight={"counterweightMass" in film.request.machine}
          system={system}
        />
      ) : (
        <p>
          How this kind of machine drives its projectile is computed by formulas: its path is shown, forces on
          its parts are not.
        </p>
      )}
      <p>
        Computed at the declared numbers in the mean wind: no margin, and never official. The blow of an arm
        that meets its stop is not among these forces; what may break must be checked by who is licensed to.
      </p>
      <details>
        <summary>The film in figures</summary>
        <MarkTable reel={reel} system={system} />
      </details>
      <KeepOut reel={reel} time={time} system={system} />
    </>
  );
}

function LinkToInstant({ time, held, hash }: { time: number; held: boolean; hash: string }) {
  return (
    <div className="no-print">
      <CopyLink
        path={linkTo("/workbench/film", hash, { t: time.toFixed(4), ...(held ? { held: "1" } : {}) })}
        button="Copy a link to this instant"
        done="Copied. The link holds this instant, these numbers, and what calls STOP among your practice throws."
      />
    </div>
  );
}
