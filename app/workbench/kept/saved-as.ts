/** What a kept text is as a file: of the sort that the workbench opens again where there is one. */
import type { Carried } from "../alarm/carried";
import { formToFile } from "./form-file";
import { BENCH_KEY, LOG_KEY, YARD_KEY } from "./names";

export interface SavedFile {
  text: string;
  name: string;
  type: string;
}

/** What writes files comes when it is needed. */
export async function savedAs(key: string, text: string, stops: readonly Carried[]): Promise<SavedFile> {
  if (key === BENCH_KEY) {
    const [{ benchFromText }, { benchToFile, fileNameOf }] = await Promise.all([
      import("../bench/bench"),
      import("../share/machine-file"),
    ]);
    const bench = benchFromText(text);
    if (bench)
      return { text: benchToFile(bench, stops), name: fileNameOf(bench.name), type: "application/json" };
  }
  if (key === LOG_KEY) {
    const [{ logFromText }, { logToCsv }] = await Promise.all([
      import("../trials/log/log"),
      import("../trials/log/log-csv"),
    ]);
    const log = logFromText(text);
    if (!("wrong" in log)) return { text: logToCsv(log), name: "practice-throws.csv", type: "text/csv" };
  }
  if (key === YARD_KEY) {
    const [{ yardFromText }, { yardFile }] = await Promise.all([
      import("../yard/yard"),
      import("../yard/yard-file"),
    ]);
    const read = yardFromText(text);
    if (read.ok) return yardFile(read.yard, null);
  }
  const form = formToFile(key, text);
  if (form) return { text: form, name: `${key}.json`, type: "application/json" };
  return { text, name: `${key}.txt`, type: "text/plain" };
}
