/** What was worked out of rows that never change, by a key that says all of them. The longest unused goes first. */
export class Remembered<T> {
  readonly #kept = new Map<string, T>();
  constructor(private readonly most: number) {}

  has(key: string): boolean {
    return this.#kept.has(key);
  }

  get(key: string): T | undefined {
    const found = this.#kept.get(key);
    if (found !== undefined) this.set(key, found);
    return found;
  }

  set(key: string, value: T): void {
    this.#kept.delete(key);
    this.#kept.set(key, value);
    if (this.#kept.size <= this.most) return;
    const [oldest] = this.#kept.keys();
    this.#kept.delete(oldest as string);
  }
}
