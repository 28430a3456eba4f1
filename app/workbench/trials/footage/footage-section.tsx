"use client";
/** A film of a throw, tapped frame by frame: what it says of the release. */
import { useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import { type HazardRequest, trials, type tuning } from "@/lib/throw";
import type { Throw } from "../log/log";
import styles from "../trials.module.css";
import { FilmFields, filmTold, startingFilm } from "./film-fields";
import {
  footageOf,
  isFree,
  nextPoint,
  nothingTapped,
  POINT_WORDS,
  POINTS,
  type PointName,
  sameFrame,
  type Tapped,
  tapped,
  withoutFrame,
} from "./marks";
import { Loupe, Picture } from "./picture";
import { ReleaseFound } from "./release-found";
import { useVideo } from "./use-video";

export function FootageSection({
  request,
  efficiency,
  setting,
  throws,
  onWrite,
}: {
  request: HazardRequest;
  efficiency: number | null;
  setting: tuning.Knob;
  throws: readonly Throw[];
  onWrite: (made: Throw, film: NonNullable<Throw["film"]>) => void;
}) {
  const system = useUnits();
  const [fields, setFields] = useState(() => startingFilm(request, system));
  const told = filmTold(fields, system);
  const film = useVideo(told.plays ?? 30);
  const [marks, setMarks] = useState<Tapped>(nothingTapped);
  const [point, setPoint] = useState<PointName>("pivot");
  const [cross, setCross] = useState<trials.Pixel>([0, 0]);
  const [measured, setMeasured] = useState<string | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const { size, shown } = film;

  const inside = ([x, y]: trials.Pixel) => {
    if (size) setCross([Math.min(size.width, Math.max(0, x)), Math.min(size.height, Math.max(0, y))]);
  };
  const mark = () => {
    const after = tapped(marks, point, cross, shown.time);
    const next = nextPoint(after, point, shown.time);
    setMarks(after);
    setPoint(next.point);
    if (next.step) void film.go(shown.index + 1);
  };
  const choose = (file: File | undefined) => {
    if (!file) return;
    film.choose(file);
    setMarks(nothingTapped);
    setPoint("pivot");
  };
  const opened = async () => {
    await film.opened();
    const at = film.video.current;
    if (at) setCross([at.videoWidth / 2, at.videoHeight / 2]);
  };
  const measure = async () => {
    const rate = await film.measure();
    setMeasured(
      rate === null
        ? "This browser does not tell the frames of a film: type how many a second it has."
        : `It plays ${rate} frames a second.`,
    );
    if (rate !== null) setFields({ ...fields, plays: { text: String(rate), value: rate } });
  };
  const footage = told.ok ? footageOf(marks, told.film) : null;
  const found = footage?.ok ? trials.releaseFromFootage(footage.footage, request) : null;
  const free = isFree(marks, shown.time);

  return (
    <>
      <p>
        A film from a camera that stands still, square to the plane of the throw. It stays on this device:
        nothing of it is sent or kept. Speed and direction follow from the frames after the loop has slipped.
      </p>
      <p className="button-row">
        <Button onClick={() => input.current?.click()}>Choose a film on this device</Button>
      </p>
      <input
        ref={input}
        type="file"
        accept="video/*"
        aria-label="Film"
        hidden
        onChange={(event) => {
          choose(event.target.files?.[0]);
          event.target.value = "";
        }}
      />
      {film.failure ? (
        <Notice kind="problem" title="Not opened">
          <p>{film.failure}</p>
        </Notice>
      ) : null}
      {film.source && !film.failure ? (
        <>
          <FilmFields fields={fields} onChange={setFields} errors={told.ok ? {} : told.errors} />
          <p className="button-row">
            <Button onClick={measure} aria-disabled={!size}>
              Measure the frame rate
            </Button>
          </p>
          <p role="status">{measured}</p>
          <Picture
            video={film.video}
            source={film.source}
            size={size}
            cross={cross}
            tapped={marks}
            onCross={inside}
            onMark={mark}
            onStep={(by) => film.go(shown.index + by)}
            onOpened={opened}
            onBroken={film.broken}
          />
          {size ? (
            <>
              <input
                type="range"
                className={styles.slider}
                aria-label="Frame"
                aria-valuetext={`frame ${shown.index}, ${shown.time.toFixed(3)} s`}
                min={0}
                max={Math.max(1, Math.ceil(size.duration * (told.plays ?? 30)) - 1)}
                step={1}
                value={shown.index}
                onChange={(event) => film.go(Number(event.target.value))}
              />
              <div className={styles.steps}>
                {[-10, -1, 1, 10].map((by) => (
                  <Button key={by} onClick={() => film.go(shown.index + by)}>
                    {by < 0 ? "−" : "+"}
                    {Math.abs(by)}
                    <span className="aloud"> {Math.abs(by) === 1 ? "frame" : "frames"}</span>
                  </Button>
                ))}
                <span data-told="frame">
                  Frame {shown.index}, {shown.time.toFixed(3)} s{free ? ", free" : ""}
                </span>
              </div>
              <div className={styles.tools}>
                <div>
                  <ChoiceTiles
                    id="film-point"
                    legend="What the cross is on"
                    choices={POINTS.map((value) => ({ value, label: POINT_WORDS[value].label }))}
                    value={point}
                    onChange={setPoint}
                  />
                  <p className="button-row">
                    <Button look="main" onClick={mark}>
                      Mark: {POINT_WORDS[point].label.toLowerCase()}
                    </Button>
                    <Button
                      aria-pressed={marks.freeFrom !== null && sameFrame(marks.freeFrom, shown.time)}
                      onClick={() => setMarks({ ...marks, freeFrom: shown.time })}
                    >
                      The loop has slipped from this frame on
                    </Button>
                  </p>
                </div>
                <Loupe video={film.video} cross={cross} shown={shown.time} onCross={inside} />
              </div>
              <h3>Tapped frames</h3>
              <Table
                caption="Tapped frames"
                hideCaption
                stacks
                rows={marks.frames}
                rowKey={({ time }) => time}
                empty="None yet."
                columns={[
                  {
                    key: "time",
                    head: "Frame at",
                    rowHead: true,
                    cell: ({ time }) => `${time.toFixed(3)} s${isFree(marks, time) ? ", free" : ""}`,
                  },
                  { key: "tip", head: "Tip", cell: ({ tip }) => pixelText(tip) },
                  { key: "projectile", head: "Projectile", cell: ({ projectile }) => pixelText(projectile) },
                  {
                    key: "do",
                    head: <span className="aloud">Remove</span>,
                    cell: ({ time }) => (
                      <Button onClick={() => setMarks(withoutFrame(marks, time))}>
                        Remove<span className="aloud"> the frame at {time.toFixed(3)} s</span>
                      </Button>
                    ),
                  },
                ]}
              />
              {footage && !footage.ok ? (
                <Notice title="To be tapped yet">
                  {footage.missing.map((each) => (
                    <p key={each}>{each}</p>
                  ))}
                </Notice>
              ) : null}
              {found ? (
                <ReleaseFound
                  found={found}
                  request={request}
                  efficiency={efficiency}
                  setting={setting}
                  throws={throws}
                  onWrite={onWrite}
                  system={system}
                />
              ) : null}
            </>
          ) : null}
        </>
      ) : null}
    </>
  );
}

const pixelText = (at: trials.Pixel | null) => (at ? `${at[0].toFixed(0)}, ${at[1].toFixed(0)}` : "–");
