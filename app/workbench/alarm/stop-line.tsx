"use client";
/** On a sheet of paper that may be carried about without the others. */
import { useUnits } from "@/app/_ui/units";
import { useAlarm } from "./use-alarm";
import { beyondText, carriedText, throwText } from "./words";

export function StopLine() {
  const system = useUnits();
  const { signs, received } = useAlarm();
  const [gravest] = signs;
  const [came] = received;
  if (!gravest && !came) return null;
  const words = gravest
    ? `${throwText(gravest, system)}, ${beyondText(gravest, system)}`
    : came && carriedText(came, system);
  return (
    <p>
      <strong>
        STOP. {words}. Nobody throws, and no distance on this page holds, until it is known why.
      </strong>
    </p>
  );
}
