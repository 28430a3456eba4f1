/** How far the results of a round are settled, in words. */
import { instantText } from "@/app/_ui/words";
import type { RoundResult } from "@/lib/api/contracts";

export function roundWords({ round, protestsUntil, openProtests, toConfirm, reopened }: RoundResult): string {
  const parts = [
    protestsUntil ? `protests until ${instantText(protestsUntil)}` : "not all shots are entered",
    openProtests > 0 &&
      `${openProtests === 1 ? "1 protest is" : `${openProtests} protests are`} not answered yet, so places may change`,
    toConfirm.length > 0 &&
      `${toConfirm.length === 1 ? "1 shot has" : `${toConfirm.length} shots have`} an entry that waits to be confirmed, so places may change`,
    reopened && "reopened: changed after protests had ended",
  ];
  return `Round ${round}: ${parts.filter(Boolean).join("; ")}.`;
}
