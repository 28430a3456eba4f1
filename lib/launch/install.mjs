/**
 * What must be there before the program can run: the packages of the lock file, the Prisma clients, the build.
 * Each is made only when it is missing or what it is made from has changed. Runs on plain Node, because at
 * first nothing else is there.
 */
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

export const root = fileURLToPath(new URL("../../", import.meta.url));

/** Something the person at the keyboard can mend: printed without a stack. */
export class LaunchError extends Error {
  expected = true;
}

/** Goes to the project's folder and reads its .env file, if there is one; what is set already stands. */
export function loadSettings() {
  process.chdir(root);
  for (const file of [".env.local", ".env"]) if (existsSync(file)) process.loadEnvFile(file);
}

/** Throws when this Node.js is older than package.json says. */
export function checkNode(version = process.versions.node) {
  const wanted = JSON.parse(readFileSync(join(root, "package.json"), "utf8")).engines.node.replace(">=", "");
  const [major, minor] = version.split(".").map(Number);
  const [wantedMajor, wantedMinor] = wanted.split(".").map(Number);
  if (major < wantedMajor || (major === wantedMajor && minor < wantedMinor))
    throw new LaunchError(
      `Fairthrow needs Node.js ${wanted} or later, and this is ${version}. See https://nodejs.org.`,
    );
}

/** Runs a program; its output is shown if `show`, else kept for the error. */
function run(command, args, { show = false, env = {}, shell = false } = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, {
      cwd: root,
      env: { ...process.env, NEXT_TELEMETRY_DISABLED: "1", ...env },
      stdio: ["ignore", show ? "inherit" : "pipe", show ? "inherit" : "pipe"],
      shell,
    });
    let output = "";
    const keep = (chunk) => {
      output += chunk;
    };
    child.stdout?.on("data", keep);
    child.stderr?.on("data", keep);
    let stopped = false;
    const stop = (signal) => {
      stopped = true;
      child.kill(signal);
    };
    process.on("SIGINT", stop).on("SIGTERM", stop);
    child.once("error", reject);
    child.once("close", (code, signal) => {
      process.off("SIGINT", stop).off("SIGTERM", stop);
      if (signal || stopped) reject(Object.assign(new LaunchError("Stopped."), { stopped: true }));
      else if (code) reject(new LaunchError(`${command} ${args.join(" ")} failed:\n${output}`));
      else resolve(output);
    });
  });
}

/**
 * Whether node_modules is what the lock file says, by npm's own record of what it put there. An optional
 * package may be absent: it is for another system.
 */
export function isInstalled() {
  const record = join(root, "node_modules/.package-lock.json");
  if (!existsSync(record)) return false;
  const locked = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8")).packages;
  const present = JSON.parse(readFileSync(record, "utf8")).packages;
  return Object.entries(locked).every(([path, wanted]) => {
    if (path === "") return true;
    const found = present[path];
    if (!found) return wanted.optional === true || wanted.devOptional === true;
    return found.version === wanted.version && found.integrity === wanted.integrity;
  });
}

/** Installs the locked packages if need be. Their own install scripts do not run; nothing here needs them. */
export async function ensureInstalled(say) {
  if (isInstalled()) return;
  say("Installing the packages it needs (about a minute) …");
  const args = [
    "ci",
    "--ignore-scripts",
    "--include=dev",
    "--include=optional",
    "--no-audit",
    "--no-fund",
    "--loglevel=error",
  ];
  const npm = process.env.npm_execpath;
  if (npm && /\.c?js$/.test(npm)) await run(process.execPath, [npm, ...args]);
  else await run("npm", args, { shell: process.platform === "win32" });
}

/** SHA-256 over the paths and contents of files and folders under the root, leaving out those in `except`. */
export function contentHash(paths, except = []) {
  const hash = createHash("sha256");
  const add = (path) => {
    if (except.includes(path)) return;
    const full = join(root, path);
    if (!existsSync(full)) return;
    let entries;
    try {
      entries = readdirSync(full).sort();
    } catch (error) {
      if (error.code !== "ENOTDIR") throw error;
      hash.update(`${path}\0`).update(readFileSync(full)).update("\0");
      return;
    }
    for (const entry of entries) add(`${path}/${entry}`);
  };
  for (const path of paths) add(path);
  return hash.digest("hex");
}

/** Runs `make` unless `stampFile` says it was last run, to the end, on the same `hash`. */
async function once(stampFile, hash, make) {
  const stamp = join(root, stampFile);
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === hash) return;
  rmSync(stamp, { force: true });
  await make();
  mkdirSync(join(stamp, ".."), { recursive: true });
  writeFileSync(stamp, hash);
}

/** Generates the Prisma clients if the schema changed. */
export async function ensureClients(say) {
  const hash = contentHash([
    "prisma/schema.prisma",
    "lib/db/generate.mjs",
    "node_modules/prisma/package.json",
  ]);
  await once("lib/db/generated/made-from", hash, async () => {
    say("Generating the database clients …");
    await run(process.execPath, [join(root, "lib/db/generate.mjs")]);
  });
}

/**
 * Imports one of this room's TypeScript files, bundled first if anything it may import has changed: reading
 * TypeScript file by file would cost every start a second.
 */
export async function load(name) {
  const folder = "node_modules/.cache/fairthrow";
  const hash = contentHash(["lib", "prisma", "tsconfig.json", "node_modules/esbuild/package.json"]);
  await once(`${folder}/made-from`, hash, async () => {
    const { build } = await import("esbuild");
    // Anew, so that the pieces of earlier versions do not pile up, and a copy of this folder made by links stays as it is.
    rmSync(join(root, folder), { recursive: true, force: true });
    await build({
      absWorkingDir: root,
      entryPoints: {
        prepare: "lib/launch/prepare.ts",
        server: "lib/launch/server.ts",
        maintain: "lib/launch/maintain.ts",
        verify: "lib/launch/verify.ts",
        https: "lib/launch/https/index.ts",
      },
      outdir: folder,
      outExtension: { ".js": ".mjs" },
      bundle: true,
      splitting: true,
      platform: "node",
      format: "esm",
      target: "node20",
      packages: "external",
      logLevel: "warning",
    });
  });
  return import(pathToFileURL(join(root, folder, `${name}.mjs`)).href);
}

/** Builds the pages if anything they are made from changed. */
export async function ensureBuilt(say) {
  const sources = [
    "app",
    "lib",
    "prisma",
    "public",
    "next.config.js",
    "tsconfig.json",
    "package.json",
    "package-lock.json",
  ];
  const hash = contentHash(sources, ["lib/db/generated/made-from"]);
  // The pages are built with the tiles' address, which their content security policy names.
  await once(
    ".next/made-from",
    [hash, process.env.TILES_URL, process.env.TILES_ATTRIBUTION].filter(Boolean).join(" "),
    async () => {
      say("Building the pages (about a minute) …");
      await run(process.execPath, [join(root, "node_modules/next/dist/bin/next"), "build"], {
        env: { NODE_ENV: "production" },
      });
    },
  );
}
