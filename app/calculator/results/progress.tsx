/** How far the official sheet has come. */
import type { Asked } from "./use-official";

export function OfficialProgress({ asked }: { asked: Asked }) {
  if (asked.state !== "asking") return null;
  const { done } = asked;
  return (
    <p className="official-progress">
      <progress aria-label="Official sheet" max={1} {...(done === null ? {} : { value: done })} />{" "}
      <span aria-hidden="true">{done === null ? "Waiting for its turn" : `${Math.round(100 * done)} %`}</span>
    </p>
  );
}
