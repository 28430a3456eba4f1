/**
 * A machine as a file that a team hands on: JSON in SI units and degrees, one revision as the API's calculator takes it.
 *
 * { "format": "fairthrow-machine", "version": 1, "name": "…", "chosen": 0,
 *   "revisions": [{ "name": "…", "note": "…", "request": { machine, projectile, tolerances, strengths, air, terrain, policy } }] }
 *
 * A request may lack what nobody entered yet; unknown members are left behind. A later version takes another number.
 */
import { KINDS } from "@/app/_ui/machine-form/form/fields";
import { formFromDeclaration } from "@/app/_ui/machine-form/form/memory";
import { requestBody } from "@/app/_ui/machine-form/form/request";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type Bench, MOST_REVISIONS, type Revision } from "../bench/bench";

const FORMAT = "fairthrow-machine";
const VERSION = 1;
/** Far above what a full bench takes, bytes. */
export const LARGEST = 1024 * 1024;

export function benchToFile({ name, revisions, chosen }: Bench): string {
  const file = {
    format: FORMAT,
    version: VERSION,
    name,
    chosen: Math.max(
      0,
      revisions.findIndex(({ id }) => id === chosen),
    ),
    revisions: revisions.map(({ name, note, form }) => ({ name, note, request: requestBody(form) })),
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}

export type FileRead =
  | { ok: true; name: string; chosen: number; revisions: readonly Omit<Revision, "id">[]; notes: string[] }
  /** What is wrong with the file, and what to do. */
  | { ok: false; message: string };

export function benchFromFile(text: string, system: UnitSystem): FileRead {
  const wrong = (message: string): FileRead => ({ ok: false, message });
  if (text.trim() === "") return wrong("The file is empty. Save it again from the workbench.");
  if (text.length > LARGEST) return wrong("The file is larger than 1 MB: it holds no machine of ours.");
  let file: Record<string, unknown>;
  try {
    file = JSON.parse(text.replace(/^\ufeff/, ""));
  } catch {
    return wrong("The file is no JSON, or is cut off. Save it again from the workbench.");
  }
  if (typeof file !== "object" || file === null || file.format !== FORMAT)
    return wrong(`This is no machine file: its format is not “${FORMAT}”.`);
  if (file.version !== VERSION)
    return wrong(
      `The file is of version ${words(file.version, 20)}, and this program reads version ${VERSION}. Open it with the program that wrote it.`,
    );
  if (!Array.isArray(file.revisions) || file.revisions.length === 0)
    return wrong("The file holds no revision.");
  const notes: string[] = [];
  const revisions = file.revisions.slice(0, MOST_REVISIONS).flatMap((each, index) => {
    const read = revisionIn(each, system);
    if (!read) notes.push(`Revision ${index + 1} is of a kind that is not known, and is left out.`);
    return read ?? [];
  });
  if (file.revisions.length > MOST_REVISIONS)
    notes.push(`Only the first ${MOST_REVISIONS} of ${file.revisions.length} revisions are read.`);
  if (revisions.length === 0) return wrong("None of its revisions is of a kind of machine that is known.");
  const chosen = Number.isInteger(file.chosen) ? (file.chosen as number) : 0;
  return {
    ok: true,
    name: words(file.name, 80),
    chosen: Math.min(Math.max(0, chosen), revisions.length - 1),
    revisions,
    notes,
  };
}

function revisionIn(given: unknown, system: UnitSystem): Omit<Revision, "id"> | null {
  const { name, note, request } = (given ?? {}) as Record<string, unknown>;
  const { machine, projectile } = (request ?? {}) as Record<string, Record<string, unknown> | undefined>;
  const kind = KINDS.find((each) => each === machine?.kind);
  if (!kind) return null;
  const declaration = {
    ...(request as object),
    machine: { ...machine, kind },
    projectile: { ...projectile },
  } as Parameters<typeof formFromDeclaration>[0];
  return {
    name: words(name, 80) || "From a file",
    note: words(note, 500),
    form: formFromDeclaration(declaration, system),
  };
}

const words = (value: unknown, most: number): string =>
  typeof value === "string" || typeof value === "number" ? String(value).slice(0, most) : "";

/** A name for the file from the machine's. */
export const fileNameOf = (name: string): string =>
  `${
    name
      .normalize("NFKD")
      .replace(/[^\w]+/g, "-")
      .replace(/^-+|-+$/g, "")
      .toLowerCase() || "machine"
  }.fairthrow.json`;
