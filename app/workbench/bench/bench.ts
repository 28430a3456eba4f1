/** What a team has on its bench: one machine in several revisions, of which one is being worked on. Pure. */
import { formFromText, formToText } from "@/app/_ui/machine-form/form/memory";
import { changeForm, type FormAction, type FormState, startingForm } from "@/app/_ui/machine-form/form/state";
import type { UnitSystem } from "@/app/_ui/units-cookie";

export interface Revision {
  id: string;
  /** "As built", "Longer sling". */
  name: string;
  /** What was changed, and why. */
  note: string;
  form: FormState;
}

export interface Bench {
  /** Of the machine. */
  name: string;
  /** In the order in which they were made; never empty. */
  revisions: readonly Revision[];
  /** The one being worked on. */
  chosen: string;
}

export type BenchAction =
  | { do: "name"; name: string }
  | { do: "choose"; id: string }
  /** A copy of the chosen one, which is chosen from then on. */
  | { do: "copy"; id: string; name: string }
  | { do: "describe"; id: string; name?: string; note?: string }
  /** The last one stays. */
  | { do: "remove"; id: string }
  | { do: "form"; change: FormAction }
  | { do: "units"; system: UnitSystem }
  /** Further revisions beside those that are there, none where there is no room for all; the one of this id is chosen. */
  | { do: "add"; revisions: readonly Revision[]; chosen: string }
  | { do: "replace"; bench: Bench };

/** So many stand side by side; more are no help to anybody. */
export const MOST_REVISIONS = 20;

export const newBench = (system: UnitSystem): Bench => ({
  name: "",
  revisions: [{ id: "1", name: "As built", note: "", form: startingForm(system) }],
  chosen: "1",
});

export const chosenOf = ({ revisions, chosen }: Bench): Revision =>
  (revisions.find(({ id }) => id === chosen) ?? revisions[0]) as Revision;

export function changeBench(bench: Bench, action: BenchAction): Bench {
  const { revisions } = bench;
  const each = (change: (revision: Revision) => Revision) => ({
    ...bench,
    revisions: revisions.map(change),
  });
  switch (action.do) {
    case "name":
      return { ...bench, name: action.name };
    case "choose":
      return revisions.some(({ id }) => id === action.id) ? { ...bench, chosen: action.id } : bench;
    case "copy": {
      const { id, name } = action;
      if (revisions.length >= MOST_REVISIONS) return bench;
      const copy = { id, name, note: "", form: chosenOf(bench).form };
      return { ...bench, revisions: [...revisions, copy], chosen: id };
    }
    case "describe": {
      const { id, name, note } = action;
      return each((revision) =>
        revision.id === id
          ? { ...revision, name: name ?? revision.name, note: note ?? revision.note }
          : revision,
      );
    }
    case "remove": {
      const left = revisions.filter(({ id }) => id !== action.id);
      if (left.length === 0) return bench;
      const chosen = action.id === bench.chosen ? (left.at(-1) as Revision).id : bench.chosen;
      return { ...bench, revisions: left, chosen };
    }
    case "form": {
      const { id } = chosenOf(bench);
      return each((revision) =>
        revision.id === id ? { ...revision, form: changeForm(revision.form, action.change) } : revision,
      );
    }
    case "units":
      if (revisions.every(({ form }) => form.system === action.system)) return bench;
      return each((revision) => ({
        ...revision,
        form: changeForm(revision.form, { type: "units", system: action.system }),
      }));
    case "add": {
      const all = [...revisions, ...action.revisions];
      return all.length > MOST_REVISIONS
        ? bench
        : changeBench({ ...bench, revisions: all }, { do: "choose", id: action.chosen });
    }
    case "replace":
      return action.bench;
  }
}

export const roomOn = ({ revisions }: Bench): number => MOST_REVISIONS - revisions.length;

const VERSION = 1;

export const benchToText = ({ name, revisions, chosen }: Bench): string =>
  JSON.stringify({
    version: VERSION,
    name,
    chosen,
    revisions: revisions.map(({ form, ...rest }) => ({ ...rest, form: formToText(form) })),
  });

/** A bench kept earlier; null when the text is not one of ours, or holds no revision that can be read. */
export function benchFromText(text: string | null): Bench | null {
  try {
    const kept = JSON.parse(text ?? "null");
    if (kept?.version !== VERSION || !Array.isArray(kept.revisions)) return null;
    const revisions = (kept.revisions as Record<string, unknown>[])
      .slice(0, MOST_REVISIONS)
      .flatMap((revision): Revision[] => {
        const form = formFromText(typeof revision?.form === "string" ? revision.form : null);
        return form
          ? [{ id: words(revision.id), name: words(revision.name), note: words(revision.note), form }]
          : [];
      });
    if (revisions.length === 0) return null;
    return { name: words(kept.name), revisions, chosen: words(kept.chosen) };
  } catch {
    return null;
  }
}

/** Whether all that stood in the text is in the bench that was read from it. */
export function isWhole(text: string, read: Bench | null): boolean {
  if (!read) return false;
  const { revisions } = JSON.parse(text) as { revisions: unknown[] };
  return revisions.length === read.revisions.length;
}

const words = (value: unknown): string => (typeof value === "string" ? value.slice(0, 500) : "");
