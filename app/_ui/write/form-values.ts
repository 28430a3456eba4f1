/** From a form's fields to a request's: what is empty is left out, what is no number goes up as typed. */

export const textOf = (form: FormData, name: string): string => String(form.get(name) ?? "").trim();

/** `{}` when empty; the typed text when it is no number, so that the server's complaint names the field. */
export function numberOrNothing(form: FormData, name: string): Record<string, unknown> {
  const text = textOf(form, name);
  if (text === "") return {};
  const value = Number(text.replace(",", "."));
  return { [name]: Number.isFinite(value) ? value : text };
}
