/** Whatever the workbench opens on this page: a machine, or one of its small forms. */
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { FORM_FORMAT, type FormFileRead, formInFile } from "../kept/form-file";
import { jsonIn, type Wrong } from "./file-text";
import { LARGEST } from "./machine-file";
import { benchIn, type MachineRead } from "./read-machine";

export type Opened =
  | { kind: "machine"; name: string; read: MachineRead }
  | { kind: "form"; name: string; read: Extract<FormFileRead, { ok: true }> };

export async function readFile(file: File, system: UnitSystem): Promise<Opened | Wrong> {
  // What cannot be ours is not read into memory.
  const json = jsonIn(file.size > LARGEST ? "x".repeat(LARGEST + 1) : await file.text());
  if (!json.ok) return json;
  if (json.file.format === FORM_FORMAT) {
    const read = formInFile(json.file);
    return read.ok ? { kind: "form", name: file.name, read } : read;
  }
  const read = benchIn(json.file, system);
  return read.ok ? { kind: "machine", name: file.name, read } : read;
}
