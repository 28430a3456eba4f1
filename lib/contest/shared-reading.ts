/**
 * One reading for all who ask for the same thing at the same time, such as every page that has just heard of a change.
 * Who asks while a reading is under way gets the next one, which all who come meanwhile share: nobody is shown less than
 * what was there when they asked.
 */
export class SharedReading<T> {
  readonly #running = new Map<string, Promise<T>>();
  readonly #next = new Map<string, Promise<T>>();

  read(key: string, work: () => Promise<T>): Promise<T> {
    const waiting = this.#next.get(key);
    if (waiting) return waiting;
    const running = this.#running.get(key);
    if (!running) return this.#run(key, work);
    const next = running
      .catch(() => {})
      .then(() => {
        this.#next.delete(key);
        return this.#run(key, work);
      });
    this.#next.set(key, next);
    return next;
  }

  #run(key: string, work: () => Promise<T>): Promise<T> {
    const running = work().finally(() => this.#running.delete(key));
    this.#running.set(key, running);
    return running;
  }
}
