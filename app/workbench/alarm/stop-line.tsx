"use client";
/** On a sheet of paper that may be carried about without the others. */
import { useUnits } from "@/app/_ui/units";
import { useAlarm } from "./use-alarm";
import { beyondText, throwText } from "./words";

export function StopLine() {
  const system = useUnits();
  const [gravest] = useAlarm().signs;
  if (!gravest) return null;
  return (
    <p>
      <strong>
        STOP. {throwText(gravest, system)}, {beyondText(gravest, system)}. Nobody throws, and no distance on
        this page holds, until it is known why.
      </strong>
    </p>
  );
}
