/** The program itself, started as people start it, on a new database with the demo contest. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { LaunchError, root } from "../../lib/launch/install.mjs";
import { freePort } from "./postgresql.mjs";
import { atEnd, start } from "./processes.mjs";

const PATIENCE = 300_000; // ms; it may have to build first

/** The lines of a first start that hold a sign-in: "  Judge 1 (judge)   CODE". */
const SIGN_IN = /^ {2}(?<label>\S.*) \((?<role>[a-z-]+)\) +(?<code>\S+)$/gm;

/** What a first start prints where no demo is loaded. */
const SETUP_CODE = /enters this setup code: (\S+)/;

/**
 * The data folder is made `inside` another one. Answers its URL, the demo's sign-ins or the setup code, `stop` and `kill`, which resolve when it has ended. With the `folder` of a
 * program that ran before it goes on with that one's data, and prints no sign-ins.
 */
export async function startProgram({
  env: added = {},
  folder: before,
  port: wanted,
  inside = tmpdir(),
} = {}) {
  const folder = before ?? mkdtempSync(join(inside, ".fairthrow-program-"));
  if (!before) atEnd(() => rmSync(folder, { recursive: true, force: true }));
  const port = wanted ?? (await freePort());
  const env = { PORT: String(port), HOST: "localhost", DATABASE_URL: "", FAIRTHROW_DATA: folder, ...added };
  const { child, ended, output } = start(process.execPath, [join(root, "lib/launch/start.mjs")], {
    env,
    quiet: true,
  });
  const end = (signal) => async () => {
    child.kill(signal);
    await ended;
  };
  for (const deadline = Date.now() + PATIENCE; !output().includes("is running"); ) {
    if (child.exitCode !== null || Date.now() > deadline) {
      child.kill("SIGKILL");
      throw new LaunchError(`The program did not start:\n${output()}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  const signIns = [...output().matchAll(SIGN_IN)].map(({ groups }) => ({ ...groups }));
  const setupCode = output().match(SETUP_CODE)?.[1] ?? null;
  if (signIns.length === 0 && setupCode === null && !before)
    throw new LaunchError(`The first start printed no sign-ins:\n${output()}`);
  const scheme = added.HTTPS ? "https" : "http";
  return {
    url: `${scheme}://localhost:${port}`,
    port,
    folder,
    signIns,
    setupCode,
    output,
    stop: end("SIGTERM"),
    kill: end("SIGKILL"),
  };
}
