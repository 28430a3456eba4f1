/**
 * A network of one phone's own: a namespace with one link to this machine, in which the program has a host name. The link
 * is really taken down and up again.
 */
import { spawnSync } from "node:child_process";
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { atEnd } from "../../runner/processes.mjs";

export interface Network {
  name: string;
  /** Takes the link away, as a phone does that lost its radio. */
  cut: () => void;
  mend: () => void;
  remove: () => void;
}

let made = 0;

/** `hosts` all mean this machine there. Needs root; throws what `ip` said. */
export function makeNetwork(hosts: readonly string[]): Network {
  // Numbers that runs side by side do not share; private addresses, as at a fairground.
  const number = (process.pid * 8 + made++) % 16_384;
  const name = `fairthrow-${number}`;
  const [outer, inner] = [`ft${number}-out`, `ft${number}-in`];
  const place = `10.21${number >> 13}.${(number >> 5) & 255}.${(number & 31) * 8}`;
  const [here, there] = [1, 2].map((one) => place.replace(/\d+$/, (last) => String(Number(last) + one)));
  const folder = `/etc/netns/${name}`;
  const remove = () => {
    spawnSync("ip", ["link", "delete", outer]);
    spawnSync("ip", ["netns", "delete", name]);
    rmSync(folder, { recursive: true, force: true });
  };
  atEnd(remove);
  mkdirSync(folder, { recursive: true });
  writeFileSync(`${folder}/hosts`, `127.0.0.1 localhost\n${here} ${hosts.join(" ")}\n`);
  // No other server of names: what is not in the file is not to be found.
  writeFileSync(`${folder}/resolv.conf`, "");
  ip("netns", "add", name);
  ip("link", "add", outer, "type", "veth", "peer", "name", inner, "netns", name);
  ip("address", "add", `${here}/30`, "dev", outer);
  ip("link", "set", outer, "up");
  ip("-netns", name, "address", "add", `${there}/30`, "dev", inner);
  // An address that comes by itself a second later would be another change of network.
  ip("-netns", name, "link", "set", inner, "addrgenmode", "none");
  const mend = () => ip("-netns", name, "link", "set", inner, "up");
  ip("-netns", name, "link", "set", "lo", "up");
  mend();
  return { name, cut: () => ip("-netns", name, "link", "set", inner, "down"), mend, remove };
}

function ip(...args: string[]): void {
  const { status, stderr, error } = spawnSync("ip", args, { encoding: "utf8" });
  if (status !== 0) throw new Error(`ip ${args.join(" ")}: ${error?.message ?? stderr}`);
}
