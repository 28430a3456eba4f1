/** The web server: Next's pages and routes on one or two sockets, stopped in order by Ctrl-C or SIGTERM. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { createServer as createSecureServer } from "node:https";
import type { Server as Socket } from "node:net";
import next from "next";
import { savesFirst } from "../live";
import type { Secure } from "./https";
import { eitherWay } from "./https/either-way";
import { answerPhone, answerPlain } from "./https/phone-page";

type Address = { port: number; hosts: string[] };

/** Requests under way get this long to finish; event streams never would. */
const PATIENCE = 700; // ms
/** After this the process ends, whatever still hangs. */
const DEADLINE = 1800; // ms

/**
 * Listens on the address, and from then on serves until a signal comes; `close` is called last. Rejects when
 * the pages cannot be loaded or the port was taken meanwhile.
 */
export async function serve(
  address: Address,
  secure: Secure | null,
  development: boolean,
  close: () => Promise<void>,
): Promise<void> {
  // next dev talks to the browser by web socket, and listens for that on one server; there may be two.
  const upgrades = createServer();
  const app = next({
    dev: development,
    dir: process.cwd(),
    hostname: "localhost",
    port: address.port,
    quiet: !development,
    httpServer: upgrades,
  });
  await app.prepare();
  const handle = app.getRequestHandler();
  const answer = savesFirst((request: IncomingMessage, response: ServerResponse) => {
    handle(request, response).catch((error) => {
      console.error(error);
      if (!response.headersSent) response.writeHead(500);
      response.end();
    });
  });
  const guide = secure?.guide ?? null;
  const makeServer = (): { sockets: Socket; servers: Server[] } => {
    if (!secure) {
      const server = createServer(answer);
      return { sockets: server, servers: [server] };
    }
    const tls = createSecureServer({ key: secure.key, cert: secure.certificate }, (request, response) => {
      if (!guide || !answerPhone(request, response, guide)) answer(request, response);
    });
    const plain = createServer((request, response) => answerPlain(request, response, guide));
    return { sockets: eitherWay(tls, plain), servers: [tls, plain] };
  };
  const made = await Promise.all(
    address.hosts.map(async (host) => {
      const { sockets, servers } = makeServer();
      if (development) {
        for (const server of servers)
          server.on("upgrade", (...upgrade) => upgrades.emit("upgrade", ...upgrade));
      }
      await listen(sockets, host, address.port);
      return { sockets, servers };
    }),
  );
  const servers = made.flatMap((one) => one.servers);
  stopOnSignal(
    made.map(({ sockets }) => sockets),
    servers,
    async () => {
      await app.close();
      await close();
    },
  );
}

function listen(server: Socket, host: string, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen({ host, port }, () => {
      server.off("error", reject);
      resolve();
    });
  });
}

function stopOnSignal(sockets: Socket[], servers: Server[], close: () => Promise<void>): void {
  let stopping = false;
  const stop = async () => {
    if (stopping) return;
    stopping = true;
    setTimeout(() => process.exit(0), DEADLINE).unref();
    const closed = sockets.map((socket) => new Promise((resolve) => socket.close(resolve)));
    for (const server of servers) server.closeIdleConnections();
    const impatient = setTimeout(() => {
      for (const server of servers) server.closeAllConnections();
    }, PATIENCE);
    await Promise.all(closed);
    clearTimeout(impatient);
    await close().catch((error) => console.error(error));
    process.exit(0);
  };
  process.on("SIGINT", stop).on("SIGTERM", stop);
}
