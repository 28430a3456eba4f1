"use client";
/** Laying the yard out, and the zone of the bench's machine on it. */
import { type ReactNode, useEffect, useMemo, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { kindTitle as machineTitle } from "@/app/_ui/hazard-sheet/words";
import type { Opened } from "@/app/_ui/map/site-map";
import { saveFile } from "@/app/_ui/save-file";
import { DraftPanel, type DraftPanelProps } from "@/app/_ui/site-editor/draft-panel";
import { SiteEditor } from "@/app/_ui/site-editor/site-editor";
import { useUnits } from "@/app/_ui/units";
import { useRing } from "@/app/_ui/zones/ring-on-map";
import type { Zoned } from "@/app/_ui/zones/scene-of";
import { isRefusal } from "@/lib/contest/errors";
import { newRevisionId, useBench } from "../bench/use-bench";
import { Aim } from "./aim";
import { Begin, Broken } from "./begin";
import { YardCautions } from "./cautions";
import { aimed, laidOut, takenAway } from "./changes";
import { Details } from "./details";
import { FilesPanel } from "./files-panel";
import { isLooser, isTilted, questionOf, yardPolicy } from "./question";
import { siteOf } from "./site";
import { TurnPanel } from "./turn-panel";
import { useYard } from "./use-yard";
import { useZone } from "./use-zone";
import { pointOf, standOf, type Yard } from "./yard";
import styles from "./yard.module.css";
import { yardFile } from "./yard-file";
import { bearingsOf, type YardZone, zoneOf } from "./zone";
import { ZonePanel } from "./zone-panel";
import { type Lack, ZoneState } from "./zone-state";

export function YardDesk() {
  const { now, change, undo, clear } = useYard();
  const [imported, setImported] = useState<string | null>(null);
  const onImported = (yard: Yard, words: string) => {
    change(yard);
    setImported(words);
  };
  /** What was pressed is gone with its page: whoever pressed it goes on here. */
  const goOn = (id: string) => requestAnimationFrame(() => document.getElementById(id)?.focus());
  const startOver = () => {
    clear();
    goOn("yard-position");
  };
  if (now.state === "reading") return <p>Looking for a yard in this browser…</p>;
  if (now.state === "broken") return <Broken message={now.message} text={now.text} onClear={startOver} />;
  if (now.state === "none")
    return (
      <Begin
        onBegin={(yard) => {
          change(yard);
          goOn("draw-what");
        }}
        file={<FilesPanel yard={null} done={null} onImported={onImported} />}
      />
    );
  return (
    <LaidYard
      yard={now.yard}
      onChange={change}
      files={<FilesPanel yard={now.yard} done={imported} onImported={onImported} />}
      onUndo={now.past.length > 0 ? undo : null}
      onClear={startOver}
    />
  );
}

const NO_ZONES: Zoned = { features: [] };

function LaidYard({
  yard,
  onChange,
  files,
  onUndo,
  onClear,
}: {
  yard: Yard;
  onChange: (yard: Yard) => void;
  files: ReactNode;
  /** Null while there is nothing to undo. */
  onUndo: (() => void) | null;
  onClear: () => void;
}) {
  const system = useUnits();
  const { bench, revision, reading, loaded } = useBench();
  const request = loaded && reading.ok ? reading.request : null;
  const question = useMemo(() => (request ? questionOf(request, yard) : null), [request, yard]);
  const worked = useZone(question);
  const lack: Lack = !loaded
    ? null
    : !reading.ok
      ? "numbers"
      : !pointOf(yard)
        ? "point"
        : !standOf(yard)
          ? "bearing"
          : null;
  /** A bearing is being typed that is not the one everything here is for. */
  const [turning, setTurning] = useState(false);
  const answer = worked.current && !turning ? worked.answer : null;
  const zone = useMemo(() => {
    if (!answer) return null;
    const machine = bench.name || machineTitle(answer.sheet.kind);
    const number = bench.revisions.findIndex(({ id }) => id === revision.id) + 1;
    return zoneOf(yard, answer, { machine, revision: revision.name || `revision ${number}`, number });
  }, [yard, answer, bench, revision]);
  const zones = useMemo((): Zoned => (zone ? { features: [zone] } : NO_ZONES), [zone]);
  // Out of date it is off the map, which yet keeps its room.
  const last = useRef(zones);
  if (zone) last.current = zones;
  const site = useMemo(() => siteOf(yard), [yard]);
  const clear = useMemo(() => (answer ? bearingsOf(yard, answer) : null), [yard, answer]);
  const [opened, setOpened] = useState<Opened | null>(null);
  const stand = useMemo(() => standOf(yard), [yard]);
  useRing(
    opened,
    useMemo(
      () => (clear && stand ? { at: stand, arcs: clear, bearing: stand.bearing } : null),
      [clear, stand],
    ),
  );

  return (
    <>
      <SiteEditor
        name="workbench:yard"
        of="yard"
        site={site}
        zones={zones}
        lastZones={last.current}
        mayChange
        onOpen={setOpened}
        panel={(props) => <KeptPanel {...props} yard={yard} onChange={onChange} />}
        away={({ item, id, name }) => (
          <Button aria-label={`Take away ${name}`} onClick={() => onChange(takenAway(yard, item, id))}>
            Take away
          </Button>
        )}
        below={
          <>
            <div className={styles.state}>
              <ZoneState lack={lack} worked={worked} />
            </div>
            <p className={`button-row ${styles.undo}`}>
              <Button aria-disabled={!onUndo || undefined} onClick={() => onUndo?.()}>
                Undo the last change
              </Button>
            </p>
            <YardCautions decides={yard.decides} />
            <section aria-labelledby="zone-title">
              <h2 id="zone-title">The zone</h2>
              <Aim yard={yard} onChange={onChange} onTurning={setTurning} />
              {zone && answer && question && (
                <ZonePanel
                  zone={zone}
                  yard={yard}
                  sheet={answer.sheet}
                  policy={question.request.policy ?? yardPolicy()}
                  wind={question.request.air?.wind}
                  sloping={isTilted(question.request.terrain)}
                  looser={isLooser(request?.policy)}
                  system={system}
                />
              )}
            </section>
            {zone && answer && (
              <TurnPanel
                yard={yard}
                zone={zone}
                answer={answer}
                clear={clear}
                system={system}
                onTurn={(bearing) => {
                  const point = pointOf(yard);
                  if (point) onChange(aimed(yard, point.id, bearing));
                }}
              />
            )}
          </>
        }
      />
      <Details yard={yard} onChange={onChange} />
      <section aria-labelledby="yard-files">
        <h2 id="yard-files">In and out of files</h2>
        <p className="button-row">
          <Button onClick={() => void takeOut(yard, zone)}>Save the yard as GeoJSON</Button>
        </p>
        {files}
        <p className="button-row">
          <Button
            onClick={() => {
              if (confirm("Take the whole yard off this browser? Save it as a file first if you need it."))
                onClear();
            }}
          >
            Clear the yard
          </Button>
        </p>
      </section>
    </>
  );
}

async function takeOut(yard: Yard, zone: YardZone | null): Promise<void> {
  const { text, name, type } = await yardFile(yard, zone);
  saveFile(text, name, type);
}

const NOTHING_WRONG: [] = [];

/** A draft that goes into the yard. */
function KeptPanel({
  yard,
  onChange,
  ...props
}: DraftPanelProps & { yard: Yard; onChange: (yard: Yard) => void }) {
  const [wrong, setWrong] = useState<{
    detail: string;
    errors: readonly { field: string; message: string }[];
  } | null>(null);
  const newest = useRef(yard);
  useEffect(() => {
    newest.current = yard;
  }, [yard]);
  return (
    <DraftPanel
      {...props}
      saving={{
        sending: false,
        trouble: wrong?.detail ?? null,
        errors: wrong?.errors ?? NOTHING_WRONG,
        save: async (request) => {
          try {
            const { yard: next, called } = laidOut(newest.current, request, newRevisionId);
            setWrong(null);
            onChange(next);
            return called;
          } catch (error) {
            if (!isRefusal(error)) throw error;
            setWrong(error);
            return null;
          }
        },
      }}
    />
  );
}
