/** From the text of a file that somebody gives to the JSON in it, or a sentence that says what the file is instead. */
import { LARGEST } from "./machine-file";

export type Wrong = { ok: false; message: string };
export const wrong = (message: string): Wrong => ({ ok: false, message });

export function jsonIn(text: string): { ok: true; file: Record<string, unknown> } | Wrong {
  if (text.trim() === "") return wrong("The file is empty. Save it again from the workbench.");
  if (text.length > LARGEST) return wrong("The file is larger than 1 MB: it holds no machine of ours.");
  const bare = text.replace(/^\ufeff/, "").trim();
  const other = notJson(bare);
  if (other) return wrong(other);
  let file: unknown;
  try {
    file = JSON.parse(bare);
  } catch {
    return wrong(
      isCutOff(bare)
        ? "The file is cut off: its end is missing. Have it sent again whole, or save it again from the workbench."
        : "The file is broken: its text is no JSON, perhaps because it was changed by hand. Save it again from the workbench.",
    );
  }
  if (typeof file !== "object" || file === null || Array.isArray(file))
    return wrong("This is no machine file: it holds a list or a single value.");
  return { ok: true, file: file as Record<string, unknown> };
}

/** What a text is that does not begin as JSON does; null when it may be some. */
function notJson(text: string): string | null {
  if (/^[[{]/.test(text)) return null;
  if (text.startsWith("PK"))
    return "This is a packed file (ZIP or KMZ), no machine file. Unpack it first, or ask for the file itself.";
  if (text.startsWith("<"))
    return "This is a web page or a map (HTML, KML or GPX), no machine file. Maps are opened on the page Practice yard.";
  if (/^[^\n]*[,;\t][^\n]*\n/.test(text))
    return "This is a table (CSV), no machine file. Practice throws are brought in on the page Practice throws.";
  return "This is no machine file: its text is no JSON.";
}

/** Whether a bracket or a text in quotes is still open at the end. */
function isCutOff(text: string): boolean {
  let open = 0;
  let quoted = false;
  for (let at = 0; at < text.length; at++) {
    const sign = text[at] as string;
    if (quoted && sign === "\\") at++;
    else if (sign === '"') quoted = !quoted;
    else if (!quoted && "[{".includes(sign)) open++;
    else if (!quoted && "]}".includes(sign)) open--;
  }
  return quoted || open > 0;
}

/** What somebody's file says, short enough for a sentence. */
export const quoted = (value: unknown): string => {
  if (typeof value === "object" && value !== null)
    return Array.isArray(value) ? "a list" : "a group of values";
  const text = String(value);
  return `“${text.length > 40 ? `${text.slice(0, 40)}…` : text}”`;
};
