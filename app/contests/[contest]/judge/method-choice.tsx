"use client";
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { type FixMethod, METHODS } from "@/lib/survey";

/** What most fields measure with; the others are a touch away. */
const FEW = 3;

export function MethodChoice({
  usual,
  method,
  onChange,
}: {
  /** What this phone used last. */
  usual: FixMethod | null;
  method: FixMethod;
  onChange: (method: FixMethod) => void;
}) {
  const [all, setAll] = useState(false);
  const ordered = [...METHODS].sort((a, b) => Number(b.method === usual) - Number(a.method === usual));
  const shown = ordered.filter((one, index) => all || index < FEW || one.method === method);
  return (
    <>
      <ChoiceTiles
        id="method"
        legend="Measured by"
        value={method}
        onChange={(next) => {
          setAll(false);
          onChange(next);
        }}
        choices={shown.map(({ method, title }) => ({ value: method, label: title }))}
      />
      {!all && (
        <p>
          <Button onClick={() => setAll(true)}>Other ways to measure</Button>
        </p>
      )}
    </>
  );
}
