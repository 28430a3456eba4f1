/**
 * Server-sent events for every open page of a contest. The database tells that a scorebook has grown (on PostgreSQL
 * to every instance), the hub reads what the new entries are, writes each event once and hands the same bytes to all
 * who listen. One hub a process, on globalThis: the bundler makes several copies of this module.
 *
 * It knows nothing of contests: `Source` says what an event holds.
 */
import { listen, type Notice } from "../db";
import { afterSaves } from "./saves-first";

export interface Source {
  /** What has changed since `after`, oldest first, at most the newest `limit`. */
  changes(contestId: string, after: number, limit: number): Promise<LiveEvent[]>;
  /** The newest change, with all that someone needs who has missed any number of them. */
  newest(contestId: string): Promise<LiveEvent | null>;
  /** What every page shows of the range, as `tellRange` tells it. */
  range(contestId: string): Promise<string>;
}

export interface LiveEvent {
  sequence: number;
  /** JSON on one line. */
  data: string;
}

interface Listener {
  controller: ReadableStreamDefaultController<Uint8Array>;
  /** Newest sequence sent to it. */
  sent: number;
}

interface Channel {
  listeners: Set<Listener>;
  /** Whether `read` is the source's own number yet; until then notices are only noted. */
  known: boolean;
  /** Newest sequence read from the source. */
  read: number;
  /** Newest sequence heard of. */
  heard: number;
  reading: Promise<void> | null;
  welcoming: Promise<void> | null;
  /** For who comes now: the newest event, told as to one who knows nothing. */
  welcome: Told | null;
  /** The range as it was last told; for who comes now. */
  range: Uint8Array | null;
  readingRange: Promise<void> | null;
}

/** An event as it goes out; or several, with the sequence of the last. */
interface Told {
  sequence: number;
  bytes: Uint8Array;
}

export const HEARTBEAT = 5000; // ms
/** Reconnect after this, ms. */
const RETRY = 1500;
const MOST_LISTENERS = 5000;
/** Most events that one catching up is sent; pages read anew whatever they missed. */
const MOST_EVENTS = 50;
/** The next reading waits so long, ms: pages hear within a second, and the time is left for those who save. */
const REST = 400;
/** Bytes that may wait for one slow listener before it is let go; it comes back by itself. */
const MOST_WAITING = 1_000_000;

const text = new TextEncoder();

export class LiveHub {
  readonly #channels = new Map<string, Channel>();
  readonly #source: Source;
  #listening: Promise<() => Promise<void>> | null = null;
  #heart: NodeJS.Timeout | null = null;
  #closed = false;

  constructor(source: Source) {
    this.#source = source;
  }

  get listeners(): number {
    let count = 0;
    for (const channel of this.#channels.values()) count += channel.listeners.size;
    return count;
  }

  get full(): boolean {
    return this.#closed || this.listeners >= MOST_LISTENERS;
  }

  /**
   * The events of a contest from now on, as bytes of text/event-stream. Whoever knows the state after entry `after`
   * gets at once the newest event if there is a newer one, so that nothing falls between page and stream.
   */
  subscribe(contestId: string, after: number, signal: AbortSignal): ReadableStream<Uint8Array> {
    let listener: Listener | null = null;
    const leave = () => listener && this.#leave(contestId, listener);
    return new ReadableStream<Uint8Array>(
      {
        start: async (controller) => {
          listener = { controller, sent: after };
          const channel = this.#join(contestId, listener);
          signal.addEventListener("abort", () => {
            leave();
            close(controller);
          });
          this.#send(contestId, listener, text.encode(`retry: ${RETRY}\n\n${this.#beat()}`));
          // First, and apart from all that may have to be read.
          void this.#sayRange(contestId, channel, listener);
          await this.#listen();
          await this.#welcome(contestId, channel, listener);
        },
        cancel: () => void leave(),
      },
      new ByteLengthQueuingStrategy({ highWaterMark: MOST_WAITING }),
    );
  }

  /** The range, JSON on one line, to every page at once: it waits for nothing, and nothing waits for it. */
  tellRange(contestId: string, data: string): void {
    const channel = this.#channels.get(contestId);
    if (!channel) return;
    channel.range = rangeBytes(data);
    for (const listener of channel.listeners) this.#send(contestId, listener, channel.range);
  }

  async #sayRange(contestId: string, channel: Channel, listener: Listener): Promise<void> {
    if (channel.range) return this.#send(contestId, listener, channel.range);
    channel.readingRange ??= this.#source
      .range(contestId)
      .then(
        (data) => {
          // What was told meanwhile is newer.
          channel.range ??= rangeBytes(data);
        },
        (error) => console.error("The range could not be read.", error),
      )
      .finally(() => {
        channel.readingRange = null;
      });
    await channel.readingRange;
    if (channel.range) this.#send(contestId, listener, channel.range);
  }

  /** Ends every stream. */
  async close(): Promise<void> {
    this.#closed = true;
    if (this.#heart) clearInterval(this.#heart);
    for (const channel of this.#channels.values())
      for (const listener of channel.listeners) close(listener.controller);
    this.#channels.clear();
    const stop = await this.#listening?.catch(() => null);
    await stop?.();
  }

  #join(contestId: string, listener: Listener): Channel {
    const channel = this.#channels.get(contestId) ?? {
      listeners: new Set(),
      known: false,
      read: 0,
      heard: 0,
      reading: null,
      welcoming: null,
      welcome: null,
      range: null,
      readingRange: null,
    };
    this.#channels.set(contestId, channel);
    channel.listeners.add(listener);
    this.#heart ??= setInterval(() => this.#beatAll(), HEARTBEAT).unref();
    return channel;
  }

  #leave(contestId: string, listener: Listener): void {
    const channel = this.#channels.get(contestId);
    channel?.listeners.delete(listener);
    if (channel?.listeners.size === 0) this.#channels.delete(contestId);
  }

  #listen(): Promise<unknown> {
    this.#listening ??= listen(
      (notice) => this.#hear(notice),
      () => this.#hearAll(),
    ).catch((error) => {
      this.#listening = null;
      throw error;
    });
    return this.#listening;
  }

  #hear({ contestId, sequence }: Notice): void {
    const channel = this.#channels.get(contestId);
    if (!channel || sequence <= channel.read) return;
    channel.heard = Math.max(channel.heard, sequence);
    if (channel.known) this.#catchUp(contestId, channel);
  }

  #catchUp(contestId: string, channel: Channel): void {
    void this.#read(contestId, channel).catch((error) =>
      console.error("The live feed could not be read.", error),
    );
  }

  /** Something may have been missed: read every open contest anew. */
  #hearAll(): void {
    for (const [contestId, channel] of this.#channels) this.#hear({ contestId, sequence: channel.read + 1 });
  }

  /** One reading at a time; what is heard meanwhile is read in the next. */
  #read(contestId: string, channel: Channel): Promise<void> {
    channel.reading ??= this.#readAll(contestId, channel).finally(() => {
      channel.reading = null;
    });
    return channel.reading;
  }

  async #readAll(contestId: string, channel: Channel): Promise<void> {
    do {
      await afterSaves();
      const aim = channel.heard;
      const events = await this.#source.changes(contestId, channel.read, MOST_EVENTS);
      this.#deliverAll(contestId, channel, events.map(told));
      // A notice after a gap may promise more than there is.
      if (events.length === 0 && channel.heard === aim) channel.heard = channel.read;
      await new Promise((resolve) => setTimeout(resolve, REST).unref());
    } while (channel.heard > channel.read);
  }

  async #welcome(contestId: string, channel: Channel, listener: Listener): Promise<void> {
    if (!channel.welcome || channel.welcome.sequence < channel.read) {
      // All who come at once, such as every page after a restart, wait for one reading.
      channel.welcoming ??= this.#readNewest(contestId, channel).finally(() => {
        channel.welcoming = null;
      });
      await channel.welcoming;
    }
    if (channel.welcome) this.#deliver(contestId, listener, channel.welcome);
    this.#settle(contestId, channel);
  }

  async #readNewest(contestId: string, channel: Channel): Promise<void> {
    const newest = await this.#source.newest(contestId);
    if (!newest) return;
    channel.read = Math.max(channel.read, newest.sequence);
    channel.welcome = told(newest);
  }

  /** From here on `read` holds; what was noted meanwhile is read now, and nothing older is told again. */
  #settle(contestId: string, channel: Channel): void {
    channel.known = true;
    if (channel.heard > channel.read) this.#catchUp(contestId, channel);
  }

  /** All that one reading found in one piece: pieces cost more than bytes. */
  #deliverAll(contestId: string, channel: Channel, events: readonly Told[]): void {
    const [first, last] = [events[0], events.at(-1)];
    if (!first || !last) return;
    channel.read = last.sequence;
    const together = { sequence: last.sequence, bytes: Buffer.concat(events.map(({ bytes }) => bytes)) };
    for (const listener of channel.listeners)
      if (listener.sent < first.sequence) this.#deliver(contestId, listener, together);
      else for (const event of events) this.#deliver(contestId, listener, event);
  }

  #deliver(contestId: string, listener: Listener, { sequence, bytes }: Told): void {
    if (sequence <= listener.sent) return;
    listener.sent = sequence;
    this.#send(contestId, listener, bytes);
  }

  #beat(): string {
    return `event: heartbeat\ndata: {"at":"${new Date().toISOString()}"}\n\n`;
  }

  #beatAll(): void {
    const bytes = text.encode(this.#beat());
    for (const [contestId, channel] of this.#channels)
      for (const listener of channel.listeners) this.#send(contestId, listener, bytes);
  }

  #send(contestId: string, listener: Listener, bytes: Uint8Array): void {
    const { controller } = listener;
    if ((controller.desiredSize ?? 0) <= 0) {
      this.#leave(contestId, listener);
      close(controller);
      return;
    }
    try {
      controller.enqueue(bytes);
    } catch {
      this.#leave(contestId, listener);
    }
  }
}

const told = ({ sequence, data }: LiveEvent): Told => ({
  sequence,
  bytes: text.encode(`id: ${sequence}\nevent: change\ndata: ${data}\n\n`),
});

const rangeBytes = (data: string): Uint8Array => text.encode(`event: range\ndata: ${data}\n\n`);

function close(controller: ReadableStreamDefaultController<Uint8Array>): void {
  try {
    controller.close();
  } catch {
    // It was closed by the other side.
  }
}

const shared = globalThis as typeof globalThis & { fairthrowLiveHub?: LiveHub };

/** The process's hub; made with `source` at the first call. */
export function liveHub(source: Source): LiveHub {
  if (!shared.fairthrowLiveHub) {
    shared.fairthrowLiveHub = new LiveHub(source);
    for (const signal of ["SIGTERM", "SIGINT"] as const) endOn(signal);
  }
  return shared.fairthrowLiveHub;
}

/** Tells this process's open pages of a contest what its range is. */
export function tellRange(contestId: string, data: string): void {
  shared.fairthrowLiveHub?.tellRange(contestId, data);
}

/** Ends every stream; the next call of liveHub starts anew. */
export async function closeLive(): Promise<void> {
  const hub = shared.fairthrowLiveHub;
  shared.fairthrowLiveHub = undefined;
  await hub?.close();
}

/** A server that stops waits for open answers, and these would never end by themselves. */
function endOn(signal: "SIGTERM" | "SIGINT"): void {
  process.once(signal, () => {
    void closeLive();
    // With nobody else to stop the process, the signal keeps its usual meaning.
    if (process.listenerCount(signal) === 0) process.kill(process.pid, signal);
  });
}
