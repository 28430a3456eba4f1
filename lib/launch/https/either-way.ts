/**
 * One port for https and for plain http, told apart by the first byte: a phone that is given the address alone comes by
 * http and must be told where to go.
 */
import { createServer, type Server } from "node:net";

/** The type of a TLS record that opens a handshake (RFC 8446, 5.1). No method of HTTP begins so. */
const HANDSHAKE = 0x16;
/** Who connects and says nothing is let go, ms. */
const SILENCE = 15_000;

export function eitherWay(
  tls: { emit(event: "connection", socket: unknown): boolean },
  plain: { emit(event: "connection", socket: unknown): boolean },
): Server {
  return createServer((socket) => {
    socket.setTimeout(SILENCE, () => socket.destroy());
    socket.on("error", () => socket.destroy());
    socket.once("readable", () => {
      const first = socket.read(1) as Buffer | null;
      if (!first) return;
      socket.unshift(first);
      socket.setTimeout(0);
      socket.removeAllListeners("timeout");
      (first[0] === HANDSHAKE ? tls : plain).emit("connection", socket);
    });
  });
}
