/** Between the times that a form shows, in this device's zone and in minutes, and those that are sent. Pure but for the zone. */

const two = (value: number): string => String(value).padStart(2, "0");

/** "2026-10-03T09:00", as a field of date and time has it. */
export function localText(iso: string): string {
  const at = new Date(iso);
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}T${two(at.getHours())}:${two(at.getMinutes())}`;
}

/** The instant of such a text; null when it is none. */
export function instantOf(text: string): string | null {
  const at = new Date(text);
  return text === "" || Number.isNaN(at.getTime()) ? null : at.toISOString();
}

/** Minutes as people write them, "1.5"; as seconds, or null when it is no such number. */
export function secondsOf(text: string): number | null {
  const minutes = Number(text.trim().replace(",", "."));
  return text.trim() === "" || !Number.isFinite(minutes) || minutes < 0 ? null : Math.round(minutes * 60);
}

export const minutesText = (seconds: number): string => String(Math.round((seconds / 60) * 10) / 10);
