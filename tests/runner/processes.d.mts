export function tidyUp(): void;
/** Calls `tidy`, which must not be asynchronous, when the run ends or tidyUp is called. */
export function atEnd(tidy: () => void): void;
