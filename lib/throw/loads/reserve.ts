/** A load against what is declared to bear it. */
import { downToTwoDigits } from "../../units";
import type { Reserve } from "../contracts/loads";

/** @param strength null when nothing was declared; `explanation` then says what to declare */
export function reserveOf(
  load: number,
  strength: number | null,
  designFactor: number,
  explanation: string,
): Reserve {
  const reserve = strength === null || !(load > 0) ? null : strength / load;
  let verdict: Reserve["verdict"] = "unknown";
  if (strength !== null) {
    verdict = "meets-design-factor";
    if (reserve !== null && reserve < designFactor) verdict = reserve < 1 ? "breaks" : "below-design-factor";
  }
  return { load, strength, reserve, designFactor, verdict, explanation };
}

/** A sentence for the sheet when a reserve is too small. */
export function reserveWarning(code: string, part: string, found: Reserve | null) {
  if (!found || found.reserve === null) return [];
  if (found.verdict !== "breaks" && found.verdict !== "below-design-factor") return [];
  const factor = downToTwoDigits(found.reserve).toPrecision(2);
  const text =
    found.verdict === "breaks"
      ? `${part} breaks: it is taken to bear ${factor} times what loads it. Do not throw with it.`
      : `${part} is taken to bear ${factor} times what loads it; the usual design factor is ${found.designFactor}. Make it stronger or load it less.`;
  return [{ code, text }];
}
