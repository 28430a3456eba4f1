/**
 * Practice throws as CSV, for a spreadsheet and for another device: SI units and degrees, each in its column's name. A
 * column holds the machine's numbers, so that a throw is never told to be of another machine.
 */
import Papa from "papaparse";
import { type Issue, issueSentence } from "@/app/_ui/issue-words";
import { plain } from "@/lib/exchange/read-csv";
import { csvOf } from "@/lib/exchange/write-csv";
import { type HazardRequest, hazardRequestSchema, trials, tuning } from "@/lib/throw";
import type { Dimension } from "@/lib/units";
import { traceText } from "../deal/trace-words";
import { isStruck } from "./history";
import {
  type Log,
  MOST_THROWS,
  requestOf,
  type Throw,
  type ThrownMachine,
  throwSchema,
  withThrow,
} from "./log";
import { HAND_HEIGHT } from "./measured";
import { refusalText } from "./words";

const UNITS: Record<Dimension, string> = {
  length: "m",
  distance: "m",
  mass: "kg",
  angle: "°",
  speed: "m/s",
  inertia: "kg·m²",
  ratio: "1",
  temperature: "K",
  pressure: "Pa",
  time: "s",
  energy: "J",
  area: "m²",
  force: "N",
  volume: "m³",
  torque: "N·m",
  stiffness: "N·m/rad",
  rate: "rad/s",
  gauge: "Pa",
  stress: "Pa",
  density: "kg/m³",
};

const FIXED = {
  id: "id",
  at: "date and time",
  machine: "machine",
  result: "result",
  distance: "distance [m]",
  aside: "to the right [m]",
  uncertainty: "standard uncertainty [m]",
  means: "measured with",
  mass: "projectile mass [kg]",
  windSpeed: "wind speed [m/s]",
  windDirection: "wind towards, from the bearing [°]",
  windHeight: "wind read at height [m]",
  windBy: "wind read by",
  temperature: "air temperature [K]",
  pressure: "air pressure [Pa]",
  note: "note",
  stop: "stop",
  counts: "counts",
  history: "changed since",
  pieces: "pieces [JSON]",
  film: "film [JSON]",
  trace: "changes [JSON]",
  numbers: "machine's numbers [JSON]",
} as const;
type Name = keyof typeof FIXED;
const NAMES = Object.keys(FIXED) as Name[];
const SETTING = /^setting (\S+)(?: \[(.+)\])?$/;
const WITHOUT_UNIT = / \[.*$/;
/** "1,234" is a thousand to some and about one to others. */
const EITHER = /^[+-]?\d{1,3},\d{3}$/;

/** @param calling what is said of throws that call STOP, by id: it is only told, and judged anew where it is read */
export function logToCsv(log: Log, calling: ReadonlyMap<string, string> = new Map()): string {
  const settings = [...new Set(log.throws.flatMap((each) => Object.keys(each.settings)))];
  const unitOf = (name: string) => {
    const knobs = log.machines.flatMap(({ request }) => tuning.knobsOf(request));
    const found = knobs.find((knob) => knob.name === name);
    return found ? UNITS[found.dimension] : "SI";
  };
  const rows = log.throws.map((each) => {
    const { wind } = each;
    const cells: Record<Name, string | number | null> = {
      id: each.id,
      at: each.at.replace("T", " "),
      machine: log.machines.find(({ id }) => id === each.machine)?.name ?? "",
      result: each.result,
      distance: each.distance,
      aside: each.aside,
      uncertainty: each.uncertainty,
      means: each.means ?? null,
      mass: each.mass,
      windSpeed: wind?.speed ?? null,
      windDirection: wind?.direction ?? null,
      windHeight: wind?.height ?? null,
      windBy: wind?.by ?? null,
      temperature: each.air?.temperature ?? null,
      pressure: each.air?.pressure ?? null,
      note: each.note,
      stop: calling.get(each.id) ?? null,
      counts: isStruck(each) ? "no: struck out" : "yes",
      history: (each.trace ?? []).map((entry) => traceText(entry, requestOf(log, each), "metric")).join(" "),
      pieces: each.pieces.length > 0 ? JSON.stringify(each.pieces) : null,
      film: each.film ? JSON.stringify(each.film) : null,
      trace: each.trace?.length ? JSON.stringify(each.trace) : null,
      numbers: JSON.stringify(requestOf(log, each)),
    };
    return [...NAMES.map((name) => cells[name]), ...settings.map((name) => each.settings[name] ?? null)];
  });
  const heads = [
    ...NAMES.map((name) => FIXED[name]),
    ...settings.map((name) => `setting ${name} [${unitOf(name)}]`),
  ];
  return csvOf(heads, rows);
}

export type CsvRead =
  | { ok: true; log: Log; added: number; known: number; borrowed: number }
  | { ok: false; message: string };

/** What makes two rows without an id the same throw: when, what came of it, the mark and the settings. */
const sameThrowKey = ({ at, result, distance, aside, settings }: Omit<Throw, "machine">): string =>
  JSON.stringify([at, result, distance, aside, Object.entries(settings).sort()]);

/**
 * The log with the file's throws added; a throw that it holds already is passed over, by its id or, where the file gives
 * none, as often as the log held an equal one before. Nothing is taken from a file of which one row cannot be read.
 * @param otherwise the machine of rows that bring no numbers of their own
 */
export function csvIntoLog(
  text: string,
  log: Log,
  otherwise: Omit<ThrownMachine, "id"> | null,
  newId: () => string,
): CsvRead {
  const { data, errors } = Papa.parse<string[]>(text.replace(/^\ufeff/, ""), { skipEmptyLines: "greedy" });
  if (errors.some(({ type }) => type === "Quotes"))
    return { ok: false, message: "A quotation mark in the file is not closed. Export it again." };
  const [head = [], ...rows] = data;
  const at = (name: Name) => head.findIndex((word) => word.trim() === FIXED[name]);
  const missing = (["at", "result", "distance"] as const).filter((name) => at(name) < 0);
  if (missing.length > 0)
    return {
      ok: false,
      message: `The file has no column ${missing.map((name) => `“${FIXED[name]}”`).join(" and no column ")}. Write the throws out from this page to see how the columns are named.`,
    };
  const strange = head.map((word) => strangeUnit(word.trim())).find((wrong) => wrong !== null);
  if (strange) return { ok: false, message: strange };
  let out = log;
  const held = new Map<string, number>();
  for (const each of log.throws) held.set(sameThrowKey(each), (held.get(sameThrowKey(each)) ?? 0) + 1);
  const counts = { added: 0, known: 0, borrowed: 0 };
  for (const [index, row] of rows.entries()) {
    const read = readRow(row, head, at, newId);
    if ("wrong" in read) return { ok: false, message: `Row ${index + 2}: ${read.wrong}` };
    if (out.throws.some(({ id }) => id === read.made.id)) {
      counts.known++;
      continue;
    }
    const equal = read.named ? 0 : (held.get(sameThrowKey(read.made)) ?? 0);
    if (equal > 0) {
      held.set(sameThrowKey(read.made), equal - 1);
      counts.known++;
      continue;
    }
    const machine = read.machine ?? otherwise;
    if (!machine)
      return {
        ok: false,
        message: `Row ${index + 2} brings no numbers of its machine, and those on the bench are not complete: put them right first.`,
      };
    const wrong = trials.refusedNumber(machine.request, read.made.settings, read.made.mass);
    if (wrong)
      return { ok: false, message: `Row ${index + 2}: ${refusalText(wrong, machine.request, "metric")}` };
    if (!read.machine) counts.borrowed++;
    if (out.throws.length >= MOST_THROWS)
      return { ok: false, message: `With these there would be more than ${MOST_THROWS} throws.` };
    out = withThrow(out, read.made, machine, newId());
    counts.added++;
  }
  return { ok: true, log: out, ...counts };
}

/** Why a column cannot be taken: it is one of ours in another unit. */
function strangeUnit(word: string): string | null {
  const [, setting, unit] = SETTING.exec(word) ?? [];
  if (setting && unit && unit !== "SI" && !Object.values(UNITS).includes(unit))
    return `The column “${word}” is in a unit that is not read here: give SI units and degrees, as in a file from this page.`;
  const ours = Object.values(FIXED).find(
    (name) => name !== word && name.replace(WITHOUT_UNIT, "") === word.replace(WITHOUT_UNIT, ""),
  );
  return ours ? `The column “${word}” must be “${ours}”.` : null;
}

type Row =
  | { made: Omit<Throw, "machine">; named: boolean; machine: Omit<ThrownMachine, "id"> | null }
  | { wrong: string };

function readRow(
  row: readonly string[],
  head: readonly string[],
  at: (name: Name) => number,
  newId: () => string,
): Row {
  const cell = (name: Name) => plain((row[at(name)] ?? "").trim());
  const wrongs: string[] = [];
  const decimal = (text: string, head: string): number | null => {
    if (text.trim() === "") return null;
    const value = Number(text.trim().replace(",", "."));
    if (EITHER.test(text.trim())) {
      wrongs.push(`“${head}” may mean two numbers: ${text.trim()}. Write it with a point, or without.`);
      return null;
    }
    if (Number.isFinite(value)) return value;
    wrongs.push(`“${head}” is no number: ${text.slice(0, 40)}.`);
    return null;
  };
  const number = (name: Name) => decimal(cell(name), FIXED[name]);
  const json = (name: Name): unknown => {
    if (cell(name) === "") return null;
    try {
      return JSON.parse(cell(name));
    } catch {
      wrongs.push(`“${FIXED[name]}” cannot be read.`);
      return null;
    }
  };
  const settings: Record<string, number> = {};
  head.forEach((word, i) => {
    const name = SETTING.exec(word.trim())?.[1];
    const value = name ? decimal(plain(row[i] ?? ""), word) : null;
    if (name && value !== null) settings[name] = value;
  });
  const speed = number("windSpeed");
  const numbers = json("numbers");
  const air = { temperature: number("temperature"), pressure: number("pressure") };
  const trace = json("trace");
  const made = {
    id: cell("id") || newId(),
    machine: "",
    at: cell("at").replace(" ", "T").slice(0, 16),
    settings,
    wind:
      speed === null
        ? null
        : {
            speed,
            direction: number("windDirection") ?? 0,
            height: number("windHeight") ?? HAND_HEIGHT,
            by: cell("windBy"),
          },
    ...(air.temperature === null && air.pressure === null ? {} : { air }),
    mass: number("mass"),
    result: cell("result"),
    distance: number("distance"),
    aside: number("aside"),
    uncertainty: number("uncertainty"),
    ...(cell("means") === "" ? {} : { means: cell("means") }),
    note: cell("note"),
    pieces: json("pieces") ?? [],
    film: json("film"),
    ...(trace === null ? {} : { trace }),
  };
  const parsed = throwSchema.safeParse(made);
  if (!parsed.success) {
    const [issue] = parsed.error.issues as [Issue];
    wrongs.push(issueSentence(issue, { label: columnOf(issue.path) }, "metric"));
  }
  const request = numbers === null ? null : hazardRequestSchema.safeParse(numbers);
  if (request && !request.success) wrongs.push("the machine's numbers are not complete.");
  if (!parsed.success || wrongs.length > 0) return { wrong: wrongs.join(" ") };
  const { machine: _, ...rest } = parsed.data;
  return {
    made: rest,
    named: cell("id") !== "",
    machine: request?.success
      ? { name: cell("machine") || "From a file", request: request.data as HazardRequest }
      : null,
  };
}

/** How the column is called in which something stands. */
function columnOf([first = "", second = ""]: readonly PropertyKey[]): string {
  const [outer, inner] = [String(first), String(second)];
  const name = outer === "wind" ? `wind${inner.charAt(0).toUpperCase()}${inner.slice(1)}` : outer;
  const found = NAMES.find((each) => each === name || each === inner);
  return found ? FIXED[found] : [outer, inner].filter(Boolean).join(" ");
}
