/** Reading the answer of a POST that tells its progress: server-sent events from a fetch. */

export interface ServerEvent {
  event: string;
  data: string;
}

/**
 * The events of a text/event-stream as they arrive, in order; comments and `retry` are passed over, and an event
 * that the stream's end cuts short is dropped. HTML Standard, "Server-sent events".
 */
export async function* readEvents(body: ReadableStream<Uint8Array>): AsyncGenerator<ServerEvent> {
  const reader = body.getReader();
  const decoder = new TextDecoder();
  let text = "";
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      text += decoder.decode(value, { stream: true });
      const blocks = text.split(/\r?\n\r?\n/);
      text = blocks.pop() ?? "";
      for (const block of blocks) {
        const event = parseEvent(block);
        if (event) yield event;
      }
    }
  } finally {
    // Whoever stops listening lets the server stop too.
    await reader.cancel().catch(() => {});
  }
}

function parseEvent(block: string): ServerEvent | null {
  let event = "message";
  const data: string[] = [];
  for (const line of block.split(/\r?\n/)) {
    const [, name, value = ""] = /^([^:]+)(?:: ?(.*))?$/.exec(line) ?? [];
    if (name === "event") event = value;
    if (name === "data") data.push(value);
  }
  return data.length > 0 ? { event, data: data.join("\n") } : null;
}
