/**
 * Network namespaces, for phones that reach the program as phones do: over a link of their own, by a host name. They need
 * root on Linux.
 */
import { spawnSync } from "node:child_process";

/** Why this machine can make no network namespace, or null when it can. */
export function noNetworks() {
  if (process.platform !== "linux") return "network namespaces are Linux's";
  if (process.getuid?.() !== 0) return "only root makes network namespaces";
  const { status, stderr, error } = spawnSync("unshare", ["--net", "true"], { encoding: "utf8" });
  return status === 0 ? null : `unshare --net: ${(error?.message ?? stderr).trim()}`;
}
