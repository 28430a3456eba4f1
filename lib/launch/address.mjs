/** Where the program listens: HOST (this machine alone, unless it says otherwise) and PORT. */
import { createServer } from "node:net";
import { networkInterfaces } from "node:os";
import { LaunchError } from "./install.mjs";

/** Whether HOST keeps the program to this machine. */
export function isLocal(env = process.env) {
  return /^(localhost|127(\.\d+){3}|::1|\[::1\])$/i.test(hostOf(env));
}

/** Who asks for https with an own authority serves phones: there "this machine alone" must be asked for. */
const hostOf = (env) => env.HOST || (env.HTTPS === "own" ? "0.0.0.0" : "localhost");

const schemeOf = (env) => (env.HTTPS || env.HTTPS_CERT ? "https" : "http");

/**
 * Reads HOST and PORT and makes sure the port is free. `local` says that nobody beyond this machine can reach
 * it; `hosts` are the addresses to listen on: "localhost" may mean either loopback to a browser.
 */
export async function findAddress(env = process.env) {
  const port = Number(env.PORT || 3000);
  if (!Number.isInteger(port) || port < 1 || port > 65535)
    throw new LaunchError(`PORT must be a whole number from 1 to 65535; it is "${env.PORT}".`);
  const host = hostOf(env);
  const hosts = host === "localhost" ? ["127.0.0.1", "::1"] : [host.replace(/^\[|\]$/g, "")];
  const usable = [];
  for (const candidate of hosts)
    if (await canListen(candidate, port, hosts.length > 1)) usable.push(candidate);
  if (usable.length === 0) throw new LaunchError(`This machine has no address ${hosts.join(" or ")}.`);
  return { port, hosts: usable, local: isLocal(env), urls: urlsOf(host, port, schemeOf(env)) };
}

async function canListen(host, port, optional) {
  const server = createServer();
  try {
    await new Promise((resolve, reject) => server.once("error", reject).listen({ host, port }, resolve));
    await new Promise((resolve) => server.close(resolve));
    return true;
  } catch (error) {
    if (error.code === "EADDRINUSE")
      throw new LaunchError(
        `Port ${port} is taken by another program. Stop that one, or choose another port: PORT=${port + 1} npm start`,
      );
    if (error.code === "EACCES")
      throw new LaunchError(
        `This user may not listen on port ${port}. Choose one above 1023: PORT=3000 npm start`,
      );
    // A machine without IPv6 has no ::1.
    if (optional && ["EADDRNOTAVAIL", "EAFNOSUPPORT"].includes(error.code)) return false;
    throw new LaunchError(`HOST=${host}: this machine cannot listen there (${error.code ?? error.message}).`);
  }
}

/** What to type into a browser, best first. */
function urlsOf(host, port, scheme) {
  if (host !== "0.0.0.0" && host !== "::")
    return [`${scheme}://${host.includes(":") ? `[${host}]` : host}:${port}`];
  const outside = Object.values(networkInterfaces())
    .flat()
    .filter((address) => address.family === "IPv4" && !address.internal);
  return [
    `${scheme}://localhost:${port}`,
    ...outside.map((address) => `${scheme}://${address.address}:${port}`),
  ];
}
