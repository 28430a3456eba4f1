/** The programs that npm cannot bring: Chromium and PostgreSQL, and what makes networks for phones. */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { LaunchError } from "../../lib/launch/install.mjs";
import { findPostgresql } from "./postgresql.mjs";

const HEADLESS = "chromium-headless-shell";
const NAMES = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const MACOS = "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome";

/** Where Chromium is; FAIRTHROW_TEST_CHROMIUM names another one. Undefined when there is none. */
export function findChromium() {
  const candidates = [process.env.FAIRTHROW_TEST_CHROMIUM, ...NAMES.map(onPath), MACOS];
  return candidates.find((path) => path && existsSync(path));
}

/** The same Chromium built without its windows, which takes a third less of the processor; else the whole one. */
export const findHeadless = () => onPath(HEADLESS) ?? findChromium();

/** Where a program is; undefined when it is not there. */
function onPath(name) {
  const folders = (process.env.PATH ?? "").split(delimiter);
  return folders.map((folder) => join(folder, name)).find((path) => existsSync(path));
}

/** By Debian package: whether it is there. */
const find = {
  chromium: findChromium,
  [HEADLESS]: () => onPath(HEADLESS),
  postgresql: findPostgresql,
  iproute2: () => onPath("ip"),
  "libnss3-tools": () => onPath("certutil"),
};

/** Does as well without. */
const OPTIONAL = [HEADLESS];
const canInstall = process.getuid?.() === 0 && existsSync("/etc/debian_version");

/** Installs what is missing of the packages `wanted` as root on Debian, else says what to install. */
export function ensureSystemPackages(wanted, say) {
  const needed = wanted.filter((name) => !OPTIONAL.includes(name));
  install(needed, say);
  if (!canInstall) return;
  try {
    install(
      wanted.filter((name) => OPTIONAL.includes(name)),
      say,
    );
  } catch (error) {
    if (!(error instanceof LaunchError)) throw error;
    say(`Going on without: ${error.message}`);
  }
}

function install(wanted, say) {
  const missing = () => wanted.filter((name) => !find[name]());
  if (missing().length === 0) return;
  const names = missing().join(" ");
  if (!canInstall)
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
