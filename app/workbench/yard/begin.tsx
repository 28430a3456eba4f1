"use client";
/** A first place for the map, by position or from a file. */
import { type ReactNode, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { readPosition } from "@/app/_ui/position";
import { PositionField } from "@/app/_ui/position-field";
import { saveFile } from "@/app/_ui/save-file";
import { newYard, type Yard } from "./yard";

export function Begin({ onBegin, file }: { onBegin: (yard: Yard) => void; file: ReactNode }) {
  const [text, setText] = useState("");
  const [wrong, setWrong] = useState<string | null>(null);
  const begin = () => {
    const read = readPosition(text);
    if (!read.ok) setWrong(read.message);
    else onBegin(newYard(read.position));
  };
  return (
    <>
      <h2>Where is it?</h2>
      <form
        noValidate
        aria-label="Begin a yard"
        onSubmit={(event) => {
          event.preventDefault();
          begin();
        }}
      >
        <PositionField
          id="yard-position"
          label="A place in the yard: latitude, longitude"
          help="The map opens around it. Degrees, latitude first, as copied from a receiver; your phone’s own will do."
          text={text}
          onChange={(next) => {
            setText(next);
            setWrong(null);
          }}
          error={wrong}
        />
        <p className="button-row">
          <Button type="submit" look="main">
            Begin the yard here
          </Button>
        </p>
      </form>
      <h2>Or from a file</h2>
      {file}
    </>
  );
}

/** What is kept cannot be read: nothing is written over it before somebody says so. */
export function Broken({ message, text, onClear }: { message: string; text: string; onClear: () => void }) {
  return (
    <Notice kind="problem" title="The yard kept in this browser cannot be read">
      <p>{message} It is left as it is: nothing is drawn from it, and nothing has been written over it.</p>
      <p className="button-row">
        <Button onClick={() => saveFile(text, "yard-as-kept.json", "application/json")}>
          Save what is kept as a file
        </Button>
        <Button
          onClick={() => {
            if (confirm("Take away what is kept and begin a new yard? It cannot be brought back.")) onClear();
          }}
        >
          Begin a new yard in its place
        </Button>
      </p>
    </Notice>
  );
}
