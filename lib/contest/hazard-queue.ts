/**
 * The bounded queue of worker threads that compute hazard sheets and dispersions. Official sheets go first, then what
 * officials try out (fit, cures), then the open calculator: none can starve the ones before it, nor the main thread;
 * each has its own bound. Every job has a deadline, counted from when it was asked for (open) or from when it starts
 * (the others, which must come in the end): a worker that is still at it by then is stopped and replaced. One queue a
 * process, on globalThis: the bundler makes several copies of this module.
 */
import { availableParallelism } from "node:os";
import { join } from "node:path";
import { Worker } from "node:worker_threads";
import {
  type Calibration,
  type HazardRequest,
  type HazardSheet,
  joined,
  type Landings,
  type MeasuredThrow,
  type Replay,
  type ReplayRequest,
  type Spread,
} from "../throw";
import type { MachineToPlace, PlacePoint, Placing, ZoneFeature } from "../zones";
import { Refusal } from "./errors";
import type { Answer, Work } from "./hazard-worker";

/** First to last. */
const PRIORITIES = ["official", "trial", "open"] as const;
export type Priority = (typeof PRIORITIES)[number];

export interface QueueOptions {
  workers: number;
  /** Most jobs that may wait. */
  waiting: Record<Priority, number>;
  /** ms */
  deadline: Record<Priority, number>;
  worker: () => Worker;
}

type SomeOptions = Partial<Omit<QueueOptions, "waiting" | "deadline">> & {
  [Bound in "waiting" | "deadline"]?: Partial<Record<Priority, number>>;
};

interface Job {
  id: number;
  work: Work;
  priority: Priority;
  resolve: (result: unknown) => void;
  reject: (error: Error) => void;
  onProgress: (done: number) => void;
  timer?: NodeJS.Timeout;
}

/** Fewer draws than this are not worth another thread. */
const LEAST_DRAWS = 250;

interface Seat {
  worker: Worker | null;
  job: Job | null;
}

/** What lib/throw says it cannot compute: its message is meant for the person who asked. */
export class EngineRefusal extends Error {
  override name = "EngineRefusal";
  constructor(
    message: string,
    /** Parameter to change, as lib/throw names it. */
    readonly field: string | null,
  ) {
    super(message);
  }
}

export class HazardQueue {
  readonly #options: QueueOptions;
  readonly #waiting: Record<Priority, Job[]> = { official: [], trial: [], open: [] };
  readonly #seats: Seat[];
  #nextId = 1;
  #closed = false;

  constructor({ waiting, deadline, ...others }: SomeOptions = {}) {
    this.#options = {
      ...DEFAULTS,
      ...others,
      waiting: { ...DEFAULTS.waiting, ...waiting },
      deadline: { ...DEFAULTS.deadline, ...deadline },
    };
    this.#seats = Array.from({ length: this.#options.workers }, () => ({ worker: null, job: null }));
  }

  /**
   * One hazard sheet. Rejects with a 503 refusal when the queue is full or the deadline passes, EngineRefusal when it
   * cannot be computed.
   * @param onProgress called with rising shares of the work, 0 to 1
   */
  async compute(
    request: HazardRequest,
    priority: Priority,
    onProgress: (done: number) => void = () => {},
  ): Promise<HazardSheet> {
    this.#mustHaveRoom(priority);
    return (await this.#add({ kind: "sheet", request }, priority, onProgress)) as HazardSheet;
  }

  /**
   * Landing points of `draws` draws, shared out between all threads: each follows from its own number, so the points
   * are the same however many there are. Rejects as `compute` does.
   */
  async disperse(
    request: HazardRequest,
    spread: Spread,
    draws: number,
    priority: Priority,
  ): Promise<Landings> {
    this.#mustHaveRoom(priority);
    const parts = Math.max(1, Math.min(this.#options.workers, Math.floor(draws / LEAST_DRAWS)));
    const edge = (part: number) => Math.round((draws * part) / parts);
    const chunks = Array.from({ length: parts }, (_, part) =>
      this.#add({ kind: "dispersion", request, spread, from: edge(part), to: edge(part + 1) }, priority),
    );
    return joined((await Promise.all(chunks)) as Landings[]);
  }

  /** What explains a landing, given the worst throws of the same request's sheet. Rejects as `compute` does. */
  async replay(asked: ReplayRequest, worst: HazardSheet["worst"], priority: Priority): Promise<Replay> {
    this.#mustHaveRoom(priority);
    return (await this.#add({ kind: "replay", asked, worst }, priority)) as Replay;
  }

  /** What measured throws say of a request's model. Rejects as `compute` does. */
  async calibrate(
    request: HazardRequest,
    throws: readonly MeasuredThrow[],
    worstForward: number,
  ): Promise<Calibration> {
    this.#mustHaveRoom("official");
    return (await this.#add(
      { kind: "calibration", request, throws, worstForward },
      "official",
    )) as Calibration;
  }

  /** A place for every machine, or the set that cannot be placed. Rejects as `compute` does. */
  async place(
    machines: readonly MachineToPlace[],
    points: readonly PlacePoint[],
    features: readonly ZoneFeature[],
    priority: Priority,
  ): Promise<Placing> {
    this.#mustHaveRoom(priority);
    return (await this.#add({ kind: "placing", machines, points, features }, priority)) as Placing;
  }

  #mustHaveRoom(priority: Priority): void {
    const waiting = this.#waiting[priority];
    if (this.#closed) throw busy("The server is stopping. Try again in a moment.", 10);
    if (waiting.length >= this.#options.waiting[priority])
      throw busy(`The calculator is busy: ${waiting.length} others wait. Try again in a few seconds.`, 5);
  }

  #add(work: Work, priority: Priority, onProgress: (done: number) => void = () => {}): Promise<unknown> {
    return new Promise((resolve, reject) => {
      const job: Job = { id: this.#nextId++, work, priority, resolve, reject, onProgress };
      if (priority === "open") this.#startClock(job);
      this.#waiting[priority].push(job);
      this.#fill();
    });
  }

  /** Jobs that wait and that run, for tests and the curious. */
  get load(): { waiting: number; running: number } {
    return {
      waiting: PRIORITIES.reduce((sum, priority) => sum + this.#waiting[priority].length, 0),
      running: this.#seats.filter((seat) => seat.job).length,
    };
  }

  async close(): Promise<void> {
    this.#closed = true;
    const stopping = busy("The server is stopping. Try again in a moment.", 10);
    for (const job of PRIORITIES.flatMap((priority) => this.#waiting[priority].splice(0)))
      this.#end(job, () => job.reject(stopping));
    await Promise.all(
      this.#seats.map(async (seat) => {
        const { job, worker } = seat;
        [seat.job, seat.worker] = [null, null];
        if (job) this.#end(job, () => job.reject(stopping));
        await worker?.terminate();
      }),
    );
  }

  #startClock(job: Job): void {
    job.timer = setTimeout(() => this.#overdue(job), this.#options.deadline[job.priority]);
    job.timer.unref();
  }

  #overdue(job: Job): void {
    const waiting = this.#waiting[job.priority];
    const place = waiting.indexOf(job);
    if (place >= 0) waiting.splice(place, 1);
    const seat = this.#seats.find((candidate) => candidate.job === job);
    if (seat) this.#replace(seat);
    const detail =
      place >= 0
        ? "The calculator is busy and this request waited too long. Try again in a few seconds."
        : "This machine took too long to compute. Try a shorter horizon, or fewer tolerances.";
    this.#end(job, () => job.reject(busy(detail, place >= 0 ? 5 : undefined)));
    this.#fill();
  }

  #fill(): void {
    if (this.#closed) return;
    for (const seat of this.#seats) {
      if (seat.job) continue;
      const next = PRIORITIES.find((priority) => this.#waiting[priority].length > 0);
      const job = next && this.#waiting[next].shift();
      if (!job) return;
      seat.job = job;
      if (job.priority !== "open") this.#startClock(job);
      seat.worker ??= this.#start(seat);
      seat.worker.postMessage({ id: job.id, ...job.work });
    }
  }

  #start(seat: Seat): Worker {
    const worker = this.#options.worker();
    worker.unref();
    worker.on("message", (answer: Answer) => {
      const job = seat.job;
      if (seat.worker !== worker || job?.id !== answer.id) return;
      if ("progress" in answer) {
        job.onProgress(answer.progress);
        return;
      }
      seat.job = null;
      this.#end(job, () => {
        if ("result" in answer) job.resolve(answer.result);
        else job.reject(failure(answer.error));
      });
      this.#fill();
    });
    worker.on("error", (error) => this.#lost(seat, worker, error));
    worker.on("exit", () => this.#lost(seat, worker, new Error("A calculator thread ended by itself.")));
    return worker;
  }

  /** A worker that died takes its job with it, not the queue. */
  #lost(seat: Seat, worker: Worker, error: Error): void {
    if (seat.worker !== worker) return;
    const job = seat.job;
    [seat.job, seat.worker] = [null, null];
    if (job) this.#end(job, () => job.reject(error));
    this.#fill();
  }

  #replace(seat: Seat): void {
    const { worker } = seat;
    [seat.job, seat.worker] = [null, null];
    void worker?.terminate();
  }

  #end(job: Job, settle: () => void): void {
    clearTimeout(job.timer);
    settle();
  }
}

const busy = (detail: string, retryAfter?: number) => new Refusal(503, "busy", detail, [], {}, retryAfter);

/** A refusal names a field, or is the RangeError of a computation that left its range; all else is a bug of ours. */
function failure({
  name,
  message,
  field,
}: {
  name: string;
  message: string;
  field?: string | undefined;
}): Error {
  if (field !== undefined) return new EngineRefusal(message, field);
  if (name === "RangeError")
    return new EngineRefusal(`This machine could not be computed: ${message}.`, null);
  return new Error(`The engine failed: ${message}`);
}

/** The path is put together at run time, so that the bundler neither follows nor copies it. */
function startWorker(): Worker {
  const file = join(/* turbopackIgnore: true */ process.cwd(), "lib", "contest", "hazard-worker.mjs");
  return new Worker(/* turbopackIgnore: true */ file);
}

const DEFAULTS: QueueOptions = {
  workers: Math.max(1, availableParallelism() - 1),
  waiting: { official: 400, trial: 24, open: 24 },
  deadline: { official: 120_000, trial: 60_000, open: 20_000 },
  worker: startWorker,
};

const shared = globalThis as typeof globalThis & { fairthrowHazardQueue?: HazardQueue };

/** The process's queue; `options` count only for the call that makes it. */
export function hazardQueue(options: SomeOptions = {}): HazardQueue {
  shared.fairthrowHazardQueue ??= new HazardQueue(options);
  return shared.fairthrowHazardQueue;
}

/** Stops the workers; the next call of hazardQueue starts anew. */
export async function closeHazardQueue(): Promise<void> {
  const queue = shared.fairthrowHazardQueue;
  shared.fairthrowHazardQueue = undefined;
  await queue?.close();
}
