/** Why this machine can make no network namespace, or null when it can. */
export function noNetworks(): string | null;
