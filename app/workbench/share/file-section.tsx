"use client";
/** The machine as a file: saved; and one that is given, shown before anything changes and taken back if it was a mistake. */
import { useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { saveFile } from "@/app/_ui/save-file";
import { useUnits } from "@/app/_ui/units";
import { useAlarm } from "../alarm/use-alarm";
import { useBench } from "../bench/use-bench";
import { IncomingForm } from "./incoming-form";
import { IncomingMachine } from "./incoming-machine";
import { benchToFile, fileNameOf } from "./machine-file";
import { type Opened, readFile } from "./read-file";
import { type Taken, useTaken } from "./taken";

export function FileSection() {
  const system = useUnits();
  const { bench } = useBench();
  const { carried } = useAlarm();
  const [opened, setOpened] = useState<Opened | null>(null);
  const [refused, setRefused] = useState<{ name: string; message: string } | null>(null);
  const { taken, setTaken, undo } = useTaken();
  const input = useRef<HTMLInputElement>(null);
  const preview = useRef<HTMLElement>(null);
  useEffect(() => {
    if (opened) preview.current?.focus();
  }, [opened]);
  const open = async (file: File | undefined) => {
    if (!file) return;
    const read = await readFile(file, system);
    setTaken(null);
    setRefused("ok" in read ? { name: file.name, message: read.message } : null);
    setOpened("ok" in read ? null : read);
  };
  const onTaken = (what: Taken) => {
    setTaken(what);
    setOpened(null);
  };
  return (
    <section aria-labelledby="file-title">
      <h2 id="file-title">As a file</h2>
      <p>
        All revisions in one file (JSON, SI units), and what calls STOP among your practice throws. Keep one
        before you clear this browser, and take one to another phone. A file that you open is shown first:
        nothing changes before you say so.
      </p>
      <p className="button-row">
        <Button
          onClick={() => saveFile(benchToFile(bench, carried), fileNameOf(bench.name), "application/json")}
        >
          Save the machine as a file
        </Button>
        <Button onClick={() => input.current?.click()}>Open a file</Button>
      </p>
      <input
        ref={input}
        type="file"
        accept="application/json,.json,.txt"
        aria-label="Machine file"
        hidden
        onChange={(event) => {
          void open(event.target.files?.[0]);
          event.target.value = "";
        }}
      />
      {opened && (
        <section ref={preview} tabIndex={-1} aria-label={`What is in ${opened.name}`}>
          <h3>What is in {opened.name}</h3>
          {opened.kind === "machine" ? (
            <IncomingMachine {...opened} onTaken={onTaken} onLeave={() => setOpened(null)} />
          ) : (
            <IncomingForm {...opened} onTaken={onTaken} onLeave={() => setOpened(null)} />
          )}
        </section>
      )}
      <div role="status">
        {refused && (
          <Notice kind="problem" title={`${refused.name} was not opened`}>
            <p>{refused.message}</p>
            <p>Nothing on the bench was changed.</p>
          </Notice>
        )}
        {taken && (
          <Notice kind="done" title={taken.title}>
            <p>{taken.words}</p>
            {taken.back && (
              <p className="button-row">
                <Button onClick={undo}>Undo it</Button>
              </p>
            )}
          </Notice>
        )}
      </div>
    </section>
  );
}
