/** Child programs and what must be tidied up however the run ends: the end, an error, Ctrl-C, a killed npm. */
import { spawn } from "node:child_process";
import { root } from "../../lib/launch/install.mjs";

const children = new Set();
const tidying = [];

/** Calls `tidy`, which must not be asynchronous, when the run ends; the last one registered first. */
export function atEnd(tidy) {
  tidying.push(tidy);
}

export function tidyUp() {
  for (const child of children) child.kill("SIGTERM");
  for (const tidy of tidying.splice(0).reverse()) tidy();
}

/** Ends the run in order on a signal, or when the shell between npm and this program is gone. */
export function tidyUpOnSignals() {
  const end = (code) => () => {
    tidyUp();
    process.exit(code);
  };
  process.on("SIGINT", end(130)).on("SIGTERM", end(143)).on("SIGHUP", end(129));
  process.on("exit", tidyUp);
  const parent = process.ppid;
  setInterval(() => process.ppid !== parent && end(143)(), 500).unref();
}

/**
 * Starts a program in the project's folder. With `quiet`, its output is kept in `output()` and not shown.
 * `ended` resolves to its exit code, 1 if it was killed.
 */
export function start(command, args, { env = {}, quiet = false } = {}) {
  const child = spawn(command, args, {
    cwd: root,
    env: { ...process.env, NEXT_TELEMETRY_DISABLED: "1", ...env },
    stdio: ["ignore", quiet ? "pipe" : "inherit", quiet ? "pipe" : "inherit"],
  });
  children.add(child);
  let output = "";
  for (const stream of [child.stdout, child.stderr])
    stream?.on("data", (chunk) => {
      output += chunk;
    });
  const ended = new Promise((resolve) => {
    child.once("error", (error) => {
      output += `${command}: ${error.message}\n`;
      children.delete(child);
      resolve(1);
    });
    child.once("close", (code) => {
      children.delete(child);
      resolve(code ?? 1);
    });
  });
  return { child, ended, output: () => output };
}

/** Runs a program of node_modules to its end and answers whether it succeeded. */
export async function runTool(script, args, env = {}) {
  const { ended } = start(process.execPath, [`${root}node_modules/${script}`, ...args], { env });
  return (await ended) === 0;
}
