/** What this browser keeps of an entry: the way back to it, and the draft as it was typed last. */
import { keep, kept } from "@/app/_ui/browser-memory";
import { formFromDeclaration, formFromText, formToText } from "@/app/_ui/machine-form/form/memory";
import { readForm } from "@/app/_ui/machine-form/form/request";
import { type FormState, startingForm } from "@/app/_ui/machine-form/form/state";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { newKey } from "@/app/_ui/write/key";
import type { Entry, EntryDraft, Insurance, OwnEntry } from "@/lib/api/contracts";
import type { Declaration } from "@/lib/throw";

export interface DraftPerson {
  id: string;
  name: string;
  contact: string;
  captain: boolean;
  ofAge: boolean | null;
  guardianName: string;
  guardianContact: string;
  consentWay: "here" | "paper";
  agreedTo: string | null;
  /** As the server said it last; null when what it stood on has changed. */
  consentAt: string | null;
}

/** What the team types, but for the machine's form. */
export interface Values {
  team: string;
  divisionId: string | null;
  machineName: string;
  /** What came with the machine from the workbench. */
  note: string;
  ownNumbers: boolean;
  insurance: Insurance;
  people: readonly DraftPerson[];
}

export interface Draft {
  /** Of the server's entry that it goes on from. */
  version: number;
  values: Values;
  form: FormState;
}

export const newPerson = (captain: boolean): DraftPerson => ({
  id: newKey(),
  name: "",
  contact: "",
  captain,
  ofAge: captain ? true : null,
  guardianName: "",
  guardianContact: "",
  consentWay: "here",
  agreedTo: null,
  consentAt: null,
});

/** A form that is to be put right goes up as no machine at all: nothing half a machine is ever sent. */
export function declarationOf(form: FormState): Declaration | null {
  const reading = readForm(form);
  if (!reading.ok) return null;
  const { machine, projectile, tolerances, strengths } = reading.body as Record<string, unknown>;
  return {
    machine,
    projectile,
    ...(tolerances ? { tolerances } : {}),
    ...(strengths ? { strengths } : {}),
  } as Declaration;
}

export function draftOf(entry: Entry, system: UnitSystem): Draft {
  const { version, team, divisionId, machineName, note, ownNumbers, insurance, people, declaration } = entry;
  return {
    version,
    values: {
      team,
      divisionId,
      machineName,
      note,
      ownNumbers,
      insurance,
      people: people.length > 0 || version > 1 ? people : [newPerson(true)],
    },
    form: declaration ? formFromDeclaration(declaration, system) : startingForm(system),
  };
}

export function bodyOf({ version, values, form }: Draft): EntryDraft {
  const { people, ...rest } = values;
  return {
    version,
    ...rest,
    declaration: declarationOf(form) as EntryDraft["declaration"],
    people: people.map(({ consentAt: _, ...person }) => person),
  };
}

/** Whether the server has it: by what would be sent. */
export const sameDraft = (a: Draft, b: Draft): boolean =>
  JSON.stringify({ ...bodyOf(a), version: 0 }) === JSON.stringify({ ...bodyOf(b), version: 0 });

const secretKey = (slug: string) => `fairthrow-entry-${slug}`;
const draftKey = (secret: string) => `fairthrow-entry-draft-${secret.slice(0, 16)}`;

export const keptSecret = (slug: string): string | null => kept(secretKey(slug));
export const keepSecret = (slug: string, secret: string | null): boolean => keep(secretKey(slug), secret);

/** The draft, and the entry as the server told it last, for a page that opens without a network. */
export function keptDraft(secret: string): { own: OwnEntry; draft: Draft } | null {
  try {
    const found = JSON.parse(kept(draftKey(secret)) ?? "null");
    const form = formFromText(found?.form ?? null);
    if (!form || !found.own?.entry || !Array.isArray(found.values?.people)) return null;
    return { own: found.own, draft: { version: found.version, values: { note: "", ...found.values }, form } };
  } catch {
    return null;
  }
}

export function keepDraft(secret: string, own: OwnEntry, { version, values, form }: Draft): boolean {
  return keep(draftKey(secret), JSON.stringify({ own, version, values, form: formToText(form) }));
}

export const forgetDraft = (secret: string): boolean => keep(draftKey(secret), null);
