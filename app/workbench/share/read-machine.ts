/** A machine file as it would come onto the bench, with all that would not come in as it stands. Nothing is changed here. */
import { KINDS } from "@/app/_ui/machine-form/form/fields";
import { formFromDeclaration } from "@/app/_ui/machine-form/form/memory";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type Carried, carriedOutOfFile } from "../alarm/carried";
import { MOST_REVISIONS, type Revision } from "../bench/bench";
import { jsonIn, quoted, type Wrong, wrong } from "./file-text";
import { FORMAT, VERSION } from "./machine-file";
import { type Remark, remarksOf } from "./remarks";

/** The version before practice throws went along. */
const WITHOUT_STOPS = 1;

export interface Incoming extends Omit<Revision, "id"> {
  remarks: readonly Remark[];
}

export interface MachineRead {
  ok: true;
  name: string;
  chosen: number;
  revisions: readonly Incoming[];
  /** What calls STOP among the practice throws of whoever wrote it, and was not answered. */
  stops: readonly Carried[];
  /** Of the file as a whole. */
  notes: readonly string[];
}

export function benchFromFile(text: string, system: UnitSystem): MachineRead | Wrong {
  const json = jsonIn(text);
  return json.ok ? benchIn(json.file, system) : json;
}

export function benchIn(file: Record<string, unknown>, system: UnitSystem): MachineRead | Wrong {
  const strange = strangeFormat(file);
  if (strange) return wrong(strange);
  if (file.version !== VERSION && file.version !== WITHOUT_STOPS)
    return wrong(
      `The file is of version ${file.version === undefined ? "unknown (it names none)" : quoted(file.version)}, and this program reads versions ${WITHOUT_STOPS} and ${VERSION}. Open it with the program that wrote it.`,
    );
  if (!Array.isArray(file.revisions) || file.revisions.length === 0)
    return wrong("The file holds no revision: there is nothing to open.");
  const notes = strangers("The file", file, ["format", "version", "name", "chosen", "revisions", "stops"]);
  if (file.version === WITHOUT_STOPS && file.stops === undefined)
    notes.push(
      "It is of version 1, which says nothing of practice throws: ask its sender whether STOP stands on one.",
    );
  if (file.revisions.length > MOST_REVISIONS)
    notes.push(
      `It holds ${file.revisions.length} revisions: a bench holds ${MOST_REVISIONS}, so those after the first ${MOST_REVISIONS} are left out.`,
    );
  const places = new Map<number, number>();
  const revisions: Incoming[] = [];
  file.revisions.slice(0, MOST_REVISIONS).forEach((given: unknown, index) => {
    const read = revisionIn(given, system);
    notes.push(...strangers(`Revision ${index + 1}`, given, ["name", "note", "request"]));
    if (typeof read === "string") notes.push(`Revision ${index + 1} is left out: ${read}`);
    else {
      places.set(index, revisions.length);
      revisions.push(read);
    }
  });
  if (revisions.length === 0)
    return wrong(
      `None of its revisions can be read. ${notes.filter((note) => note.startsWith("Rev")).join(" ")}`,
    );
  const named = text(file.name, 80);
  if (named !== (file.name ?? ""))
    notes.push(`The machine's name is no text of 80 signs at most: it comes in as “${named}”.`);
  const chosen = places.get(Number(file.chosen ?? 0)) ?? 0;
  return { ok: true, name: named, chosen, revisions, stops: carriedOutOfFile(file.stops), notes };
}

function strangeFormat({ format, type, machine, version }: Record<string, unknown>): string | null {
  if (format === FORMAT) return null;
  if (typeof format === "string")
    return `This is no machine file: its format is ${quoted(format)}, not “${FORMAT}”.`;
  if (type === "FeatureCollection")
    return "This is a map (GeoJSON), no machine file. It is opened on the page Practice yard.";
  if (machine !== undefined)
    return `This is a request to the calculator, no machine file: it lacks the frame with “format”, “version” and “revisions” around it.`;
  return `This is no machine file: it names no format “${FORMAT}”.${version === undefined ? "" : " Another program may have written it."}`;
}

/** Members that no version of ours has. */
function strangers(of: string, given: unknown, known: readonly string[]): string[] {
  if (typeof given !== "object" || given === null) return [];
  const names = Object.keys(given).filter((name) => !known.includes(name));
  if (names.length === 0) return [];
  const some = names.slice(0, 8).map(quoted).join(", ");
  return [
    `${of} says ${some}${names.length > 8 ? ` and ${names.length - 8} more` : ""}: not known to this program, left out.`,
  ];
}

/** A revision, or why it is none. */
function revisionIn(given: unknown, system: UnitSystem): Incoming | string {
  const { name, note, request } = (given ?? {}) as Record<string, unknown>;
  const { machine, projectile } = (request ?? {}) as Record<string, Record<string, unknown> | undefined>;
  const kind = KINDS.find((each) => each === machine?.kind);
  if (!kind)
    return machine?.kind === undefined
      ? "it names no kind of machine."
      : `its kind ${quoted(machine.kind)} is not known.`;
  const declaration = {
    ...(request as object),
    machine: { ...machine, kind },
    projectile: { ...projectile },
  } as Parameters<typeof formFromDeclaration>[0];
  const form = formFromDeclaration(declaration, system);
  const [named, noted] = [text(name, 80) || "From a file", text(note, 500)];
  const remarks: Remark[] = [];
  if (named !== name) remarks.push({ field: "Its name", becomes: `comes in as “${named}”.` });
  if (noted !== (note ?? ""))
    remarks.push({
      field: "Its note",
      becomes: noted ? "is cut after 500 signs." : "is no text and is left out.",
    });
  return { name: named, note: noted, form, remarks: [...remarks, ...remarksOf(request, form)] };
}

const text = (value: unknown, most: number): string =>
  typeof value === "string" || typeof value === "number" ? String(value).slice(0, most) : "";
