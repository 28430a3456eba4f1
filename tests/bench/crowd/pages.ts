/** The pages that are open at a fair while judges save. */
import type { LiveChange } from "../../../lib/api/contracts";
import { Client } from "../../by-http/client";

export interface OpenPages {
  /** How often pages read a round anew. */
  readings: () => number;
  close: () => void;
}

/**
 * Every judge's page, which hears of each entry and reads its round anew as the page itself does, and pages of
 * standings, which hear alone.
 */
export function openPages(
  base: string,
  judges: readonly Client[],
  { rounds, onlookers }: { rounds: number; onlookers: number },
  nowAndThen: (work: () => Promise<void>) => () => void,
): OpenPages {
  const ending = new AbortController();
  let readings = 0;
  const listen = async (by: Client, hear: (kind: LiveChange["kind"]) => void) => {
    const answer = await by.fetch("GET", `${base}/live?after=0`, undefined, ending.signal);
    const text = new TextDecoder();
    for await (const chunk of answer.body as unknown as AsyncIterable<Uint8Array>)
      for (const [, kind] of text.decode(chunk).matchAll(/"kind":"([a-z]+)"/g))
        hear(kind as LiveChange["kind"]);
  };
  const quietly = (error: unknown) => {
    if (!ending.signal.aborted) throw error;
  };
  for (const [index, judge] of judges.entries()) {
    const readAnew = nowAndThen(async () => {
      readings++;
      await judge.ask("GET", `${base}/shots?round=${1 + (index % rounds)}`).catch(quietly);
    });
    listen(judge, (kind) => kind === "fix" && readAnew()).catch(quietly);
  }
  const [first] = judges;
  const onlooker = new Client(first?.api ?? "");
  for (let number = 0; number < onlookers; number++) listen(onlooker, () => {}).catch(quietly);
  return { readings: () => readings, close: () => ending.abort() };
}
