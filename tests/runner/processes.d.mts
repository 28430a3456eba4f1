export function tidyUp(): void;
