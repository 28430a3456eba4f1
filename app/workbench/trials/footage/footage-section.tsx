"use client";
/** A film of a throw, tapped frame by frame: what it says of the release. */
import { useMemo, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { type HazardRequest, trials, type tuning } from "@/lib/throw";
import { thrownRequest } from "../broke/ask";
import { type Log, requestOf, type Throw } from "../log/log";
import { FilmFields } from "./film-fields";
import { filmTold } from "./film-form";
import { footageOf } from "./film-told";
import { isMarked, nextPoint, type PointName, tapped, unmarked } from "./marks";
import { Picture } from "./picture";
import { ReleaseFound } from "./release-found";
import { TappedFrames } from "./tapped-frames";
import { FrameSteps, PointTools } from "./tools";
import { useFilm } from "./use-film";
import { useVideo } from "./use-video";

const HOW_TO_TELL_RATE =
  "How many frames a second the file plays cannot be measured here: type it, as the camera or the file's properties say. Frames are counted by it: one that is 3 % off makes the speed 3 % wrong. Another browser, or the film saved anew as MP4, may tell it.";

export function FootageSection({
  log,
  request,
  efficiency,
  setting,
  throws,
  onWrite,
}: {
  log: Log;
  request: HazardRequest;
  efficiency: number | null;
  setting: tuning.Knob;
  throws: readonly Throw[];
  onWrite: (made: Throw, film: NonNullable<Throw["film"]>) => void;
}) {
  const system = useUnits();
  const { form, setForm, setRate, marks, setMarks, open, earlier, unkept } = useFilm(request);
  const told = useMemo(() => filmTold(form, system), [form, system]);
  const film = useVideo(told.plays ?? 30);
  const [point, setPoint] = useState<PointName>("pivot");
  const [cross, setCross] = useState<trials.Pixel>([0, 0]);
  const [measured, setMeasured] = useState<string | null>(null);
  const [chosen, setChosen] = useState("");
  const input = useRef<HTMLInputElement>(null);
  const { size, shown } = film;
  const made = throws.find(({ id }) => id === chosen) ?? throws.at(-1);
  const meant = useMemo(
    () => (made ? thrownRequest(requestOf(log, made), made) : request),
    [log, request, made],
  );

  const inside = ([x, y]: trials.Pixel) => {
    if (size) setCross([Math.min(size.width, Math.max(0, x)), Math.min(size.height, Math.max(0, y))]);
  };
  const mark = () => {
    if (film.measuring) return;
    const after = tapped(marks, point, cross, shown);
    const next = nextPoint(after, point, shown.time);
    setMarks(after);
    setPoint(next.point);
    if (next.step) void film.step(1);
  };
  const choose = (file: File | undefined) => {
    if (!file) return;
    const again = open(file);
    film.choose(file);
    setPoint(again ? "projectile" : "pivot");
    setMeasured(null);
  };
  const measure = async (asked: boolean) => {
    setMeasured("Measuring the frame rate: it plays for a moment…");
    const found = await film.measure();
    if (found === "stopped") return;
    setMeasured(
      found === null
        ? HOW_TO_TELL_RATE
        : `It plays ${found.rate} frames a second${found.uneven ? ", unevenly: the time of each frame is taken from the file" : ""}.`,
    );
    if (found) setRate(found.rate, asked);
  };
  const opened = async () => {
    const picture = await film.opened();
    if (!picture) return;
    setCross([picture.width / 2, picture.height / 2]);
    if (!matchMedia("(prefers-reduced-motion: reduce)").matches) await measure(false);
  };
  const footage = useMemo(
    () => (told.ok && size ? footageOf(marks, told.film, size, Boolean(made?.wind)) : null),
    [told, marks, size, made],
  );
  const found = useMemo(
    () => (footage?.ok ? trials.releaseFromFootage(footage.footage, meant) : null),
    [footage, meant],
  );

  return (
    <>
      <p>
        A film from a camera that stands still, far off and zoomed in, square to the plane of the throw. It
        stays on this device: nothing of it is sent, and only the points that are tapped on the last one are
        kept. Speed and direction follow from the frames after the loop has slipped.
      </p>
      {earlier ? (
        <Notice title="Tapped already">
          <p>
            What was tapped on {earlier.file.name} is kept. Choose that film again to go on; another one takes
            its place with the first tap.
          </p>
        </Notice>
      ) : null}
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
          <FilmFields form={form} onChange={setForm} errors={told.ok ? {} : told.errors} />
          <p className="button-row">
            <Button onClick={() => size && measure(true)} aria-disabled={!size}>
              Measure the frame rate
            </Button>
          </p>
          <p role="status">{measured}</p>
          {unkept ? (
            <Notice title="Not kept">
              <p>This browser keeps no more: what is tapped is gone when the page is loaded anew.</p>
            </Notice>
          ) : null}
          {film.slow && !size ? (
            <Notice title="It has not opened yet">
              <p>
                A long film takes a while. Where nothing comes, cut the seconds around the throw out of it on
                the phone, or save it as MP4 with H.264, and choose that.
              </p>
            </Notice>
          ) : null}
          <Picture
            video={film.video}
            source={film.source}
            size={size}
            cross={cross}
            tapped={marks}
            onCross={inside}
            onMark={mark}
            onStep={film.step}
            onOpened={opened}
            onBroken={film.broken}
          />
          {size ? (
            <>
              <FrameSteps
                shown={shown}
                duration={size.duration}
                plays={told.plays ?? 30}
                marks={marks}
                onGo={film.go}
                onStep={film.step}
              />
              <PointTools
                point={point}
                marks={marks}
                shown={shown}
                cross={cross}
                video={film.video}
                onPoint={setPoint}
                onMark={mark}
                onTakeOff={
                  isMarked(marks, point, shown.time)
                    ? () => setMarks(unmarked(marks, point, shown.time))
                    : null
                }
                onMarks={setMarks}
                onCross={inside}
              />
              <TappedFrames marks={marks} onMarks={setMarks} onGo={film.go} />
              {footage && !footage.ok ? (
                <Notice title="To be done yet">
                  {footage.missing.map((each) => (
                    <p key={each}>{each}</p>
                  ))}
                </Notice>
              ) : null}
              {!told.ok ? (
                <Notice title="To be told yet">
                  {Object.values(told.errors).map((each) => (
                    <p key={each}>{each}</p>
                  ))}
                </Notice>
              ) : null}
              {found ? (
                <ReleaseFound
                  found={found}
                  pace={form.pace}
                  counted={marks.frames.some(({ timed }) => !timed)}
                  request={meant}
                  efficiency={efficiency}
                  setting={setting}
                  made={made}
                  throws={throws}
                  onThrow={setChosen}
                  onTurn={() => setForm({ ...form, towards: form.towards === "right" ? "left" : "right" })}
                  onPaceByFall={() => setForm({ ...form, pace: "unknown" })}
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
