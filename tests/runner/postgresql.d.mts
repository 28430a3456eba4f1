export function findPostgresql(): string | undefined;
export function startPostgresql(): Promise<{ url: string; stop: () => void }>;
