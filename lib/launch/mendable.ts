/** Something the person at the keyboard can mend: printed without a stack. */
export class MendableError extends Error {
  readonly expected = true;
}
