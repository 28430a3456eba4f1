"use client";
/** Says what of the workbench this browser has not kept, and offers it as a file before it can be lost. */
import { useEffect, useRef, useState, useSyncExternalStore } from "react";
import { keep, kept } from "@/app/_ui/browser-memory";
import { Button } from "@/app/_ui/button";
import { allAside, type Fate, fates, keptText, onFates } from "@/app/_ui/kept-text";
import { Notice } from "@/app/_ui/notice";
import { saveFile } from "@/app/_ui/save-file";
import type { Carried } from "../alarm/carried";
import { useAlarm } from "../alarm/use-alarm";
import styles from "./kept.module.css";
import { nameOf } from "./names";
import { savedAs } from "./saved-as";

const none = () => "";
const asideNames = () =>
  allAside()
    .map(({ name, of }) => `${name} ${of}`)
    .join("\n");
const listed = (text: string) =>
  text
    .split("\n")
    .filter(Boolean)
    .map((line) => line.split(" ") as [string, string]);

const WORDS: Record<Exclude<Fate, "kept" | "overtaken">, string> = {
  refused:
    "This browser has no room or stores nothing: what changed last is on this page alone. A reload or another tab shows what was there before. Make room, or save it as a file before you close the page.",
  held: "What this browser holds of it cannot be read by this page: a newer version of the program may have written it in another tab. It is left there. What you change is on this page alone: save it as a file, then reload.",
};

export function KeptNotices() {
  const unkept = listed(useSyncExternalStore(onFates, fates, none)) as [string, Fate][];
  const aside = listed(useSyncExternalStore(onFates, asideNames, none));
  const [, looked] = useState(0);
  const place = useRef<HTMLDivElement>(null);
  const { carried } = useAlarm();
  const unsaved = unkept.length > 0;
  useEffect(() => {
    if (!unsaved) return;
    const closing = (event: BeforeUnloadEvent) => event.preventDefault();
    addEventListener("beforeunload", closing);
    return () => removeEventListener("beforeunload", closing);
  }, [unsaved]);
  /** The button goes with its notice: whoever pressed it goes on here. */
  const then = (what: () => void) => () => {
    what();
    looked((count) => count + 1);
    place.current?.focus();
  };
  return (
    <>
      {unsaved && (
        <p className={`${styles.bar} no-print`}>
          <button
            type="button"
            onClick={() => {
              place.current?.scrollIntoView({ block: "start" });
              place.current?.focus({ preventScroll: true });
            }}
          >
            Not kept: {unkept.map(([key]) => nameOf(key)).join(", ")}. What to do
          </button>
        </p>
      )}
      <div
        ref={place}
        tabIndex={-1}
        role="group"
        aria-label="What is not kept"
        className={`${styles.place} no-print`}
      >
        {unkept.map(([key, fate]) =>
          fate === "overtaken" ? (
            <Notice key={key} kind="problem" title={`Changed in another tab: ${nameOf(key)}`}>
              <p>
                Another tab wrote something else while what you changed here was not kept. Nothing is written
                before you say which counts; the other is gone then.
              </p>
              <p className="button-row">
                <Button onClick={() => void saveKept(key, carried)}>Save this page&rsquo;s as a file</Button>
                <Button onClick={then(() => keptText(key).settle("here"))}>This page&rsquo;s counts</Button>
                <Button onClick={then(() => keptText(key).settle("there"))}>
                  The other tab&rsquo;s counts
                </Button>
              </p>
            </Notice>
          ) : (
            <Notice key={key} kind="problem" title={`Not kept: ${nameOf(key)}`}>
              <p>{WORDS[fate as "refused" | "held"]}</p>
              <p className="button-row">
                <Button onClick={() => void saveKept(key, carried)}>Save {nameOf(key)} as a file</Button>
              </p>
            </Notice>
          ),
        )}
        {aside.map(([name, of]) => (
          <Notice key={name} title={`Could not be read: ${nameOf(of)}`}>
            <p>
              What this browser kept is cut off, changed by hand or of another version. It is put aside as it
              was, and nothing is drawn from it. Save it as a file for somebody who can mend it.
            </p>
            <p className="button-row">
              <Button onClick={() => saveFile(kept(name) ?? "", `${name}.txt`, "text/plain")}>
                Save what was kept as a file
              </Button>
              <Button
                onClick={() => {
                  if (confirm("Throw away what could not be read? It cannot be brought back."))
                    then(() => keep(name, null))();
                }}
              >
                Throw it away
              </Button>
            </p>
          </Notice>
        ))}
      </div>
    </>
  );
}

async function saveKept(key: string, stops: readonly Carried[]): Promise<void> {
  const { text, name, type } = await savedAs(key, keptText(key).read() ?? "", stops);
  saveFile(text, name, type);
}
