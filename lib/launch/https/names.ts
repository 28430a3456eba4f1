/** What phones may call this machine: its names and addresses, and those that HTTPS_NAMES adds. */
import { hostname, networkInterfaces } from "node:os";

/** A name as browsers and certificates take it. */
const NAME = /^(?=.{1,253}$)[a-z0-9]([a-z0-9-]*[a-z0-9])?(\.[a-z0-9]([a-z0-9-]*[a-z0-9])?)*$/;

export function ownNames(env = process.env): string[] {
  const host = hostname().toLowerCase();
  const bare = host.replace(/\.local$/, "");
  const added = (env.HTTPS_NAMES ?? "").toLowerCase().split(/[\s,]+/);
  const named = [...added, "localhost", bare, `${bare}.local`].filter((name) => NAME.test(name));
  return [...new Set([...named, ...ownAddresses(), "127.0.0.1", "::1"])];
}

/** Of this machine on its networks. A link-local IPv6 address needs a zone, which no certificate can hold. */
function ownAddresses(): string[] {
  return Object.values(networkInterfaces())
    .flatMap((addresses) => addresses ?? [])
    .filter(({ internal, address }) => !internal && !address.startsWith("fe80"))
    .map(({ address }) => address);
}

/** What to write on the board for the phones: a name that was given, else an address of the network. */
export function phoneName(env = process.env): string {
  const [given] = (env.HTTPS_NAMES ?? "").toLowerCase().split(/[\s,]+/);
  const outside = Object.values(networkInterfaces())
    .flatMap((addresses) => addresses ?? [])
    .find(({ internal, family }) => !internal && family === "IPv4");
  return (given && NAME.test(given) ? given : outside?.address) ?? "localhost";
}
