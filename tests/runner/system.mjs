/** The programs that npm cannot bring: Chromium and PostgreSQL, and what makes networks for phones. */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { LaunchError } from "../../lib/launch/install.mjs";
import { findPostgresql } from "./postgresql.mjs";

const NAMES = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const MACOS = "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome";

/** Where Chromium is; FAIRTHROW_TEST_CHROMIUM names another one. Undefined when there is none. */
export function findChromium() {
  const folders = (process.env.PATH ?? "").split(delimiter);
  const candidates = [
    process.env.FAIRTHROW_TEST_CHROMIUM,
    ...NAMES.flatMap((name) => folders.map((folder) => join(folder, name))),
    MACOS,
  ];
  return candidates.find((path) => path && existsSync(path));
}

const onPath = (name) =>
  (process.env.PATH ?? "").split(delimiter).some((folder) => existsSync(join(folder, name)));

/** By Debian package: whether it is there. */
const find = {
  chromium: findChromium,
  postgresql: findPostgresql,
  iproute2: () => onPath("ip"),
  "libnss3-tools": () => onPath("certutil"),
};

/** Installs what is missing of the packages `wanted` as root on Debian, else says what to install. */
export function ensureSystemPackages(wanted, say) {
  const missing = () => wanted.filter((name) => !find[name]());
  if (missing().length === 0) return;
  const names = missing().join(" ");
  if (process.getuid?.() !== 0 || !existsSync("/etc/debian_version"))
    throw new LaunchError(
      `These tests need ${missing().join(" and ")}, which npm cannot install. On Debian: ` +
        `sudo apt-get install ${names}. Without them: npm test -- types lint arrows calculations`,
    );
  say(`Installing ${names} with apt-get …`);
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  for (const args of [
    ["update", "-q"],
    ["install", "-qy", "--no-install-recommends", ...missing()],
  ]) {
    const { status, stdout, stderr } = spawnSync("apt-get", args, { env, encoding: "utf8" });
    if (status !== 0) throw new LaunchError(`apt-get ${args.join(" ")} failed:\n${stdout}${stderr}`);
  }
  if (missing().length > 0)
    throw new LaunchError(`apt-get installed ${names}, yet they are not to be found.`);
}
