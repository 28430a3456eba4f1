/**
 * `npm test`: everything, from a bare clone, in order. `npm test -- calculations api` runs some of the stages,
 * `npm run test:deep` adds the long proofs (tests/**\/*.deep.test.ts), `npm run bench` runs tests/bench instead,
 * `npm run bench -- save` one of them.
 *
 * What the tests are given by environment:
 *   FAIRTHROW_TEST_ENGINE      sqlite or postgresql: which one tests/database.ts makes databases on (set by the
 *                              vitest project; everything in tests/api and tests/faults runs on both)
 *   FAIRTHROW_TEST_POSTGRESQL  URL of the throw-away PostgreSQL server
 *   FAIRTHROW_TEST_URL         the running program, a production build with the demo contest (browser, bench)
 *   FAIRTHROW_TEST_SIGN_INS    JSON [{ label, role, code }]: the demo's sign-ins on that program
 *   FAIRTHROW_TEST_CHROMIUM    where Chromium is
 *   FAIRTHROW_TEST_HEADLESS    where the Chromium without windows is, which most browser tests take: cheaper
 *   FAIRTHROW_TEST_DEEP        set when the long proofs run too
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { checkNode, ensureClients, ensureInstalled, LaunchError, root } from "../lib/launch/install.mjs";
import { noNetworks } from "./runner/networks.mjs";
import { startPostgresql } from "./runner/postgresql.mjs";
import { atEnd, runTool, tidyUp, tidyUpOnSignals } from "./runner/processes.mjs";
import { startProgram } from "./runner/program.mjs";
import { ensureSystemPackages, findChromium, findHeadless } from "./runner/system.mjs";

const total = { passed: 0, failed: 0 };
const failedStages = [];
let folder;

const plain = process.stdout.isTTY ? [] : ["--colors=off"];

const stages = {
  types: { title: "Types", run: () => check(typeCheck()) },
  lint: {
    title: "Lint and format",
    run: () => check(runTool("@biomejs/biome/bin/biome", ["ci", "--diagnostic-level=error", ...plain])),
  },
  arrows: { title: "Import arrows", run: () => check(arrows()) },
  calculations: {
    title: "Calculations: unit, reference and property tests",
    run: () => vitest(["calculations"]),
  },
  api: { title: "API and database, on SQLite and on PostgreSQL", needs: ["postgresql"], run: api },
  browser: {
    title: "Pages, in Chromium on a production build",
    needs: [
      "chromium",
      "chromium-headless-shell",
      "postgresql",
      ...(noNetworks() ? [] : ["iproute2", "libnss3-tools"]),
    ],
    run: browser,
  },
};

async function typeCheck() {
  // Next writes the types of the routes, and next-env.d.ts, which are not in the repository.
  return (await runTool("next/dist/bin/next", ["typegen"])) && runTool("typescript/bin/tsc", ["--noEmit"]);
}

function arrows() {
  const args = ["--config", ".dependency-cruiser.cjs", "app", "lib", "prisma", "tests"];
  return runTool("dependency-cruiser/bin/dependency-cruise.mjs", args);
}

/** A stage that is right or wrong as a whole. */
async function check(outcome) {
  const right = await outcome;
  if (!right) total.failed++;
  return right;
}

/** Runs test projects and adds their tests to the sum. */
async function vitest(projects, env = {}) {
  const report = join(folder, `${projects.join("-")}.json`);
  const args = ["run", "--reporter=default", "--reporter=json", `--outputFile.json=${report}`];
  const right = await runTool(
    "vitest/vitest.mjs",
    [...args, ...projects.flatMap((name) => ["--project", name])],
    {
      ...env,
      TMPDIR: folder, // what a test that was killed leaves behind goes with the run
    },
  );
  let result = { numPassedTests: 0, numFailedTests: 0 };
  try {
    result = JSON.parse(readFileSync(report, "utf8"));
  } catch {
    console.error("There is no report: the tests did not run to their end.");
  }
  total.passed += result.numPassedTests;
  // A file that cannot even be loaded has no failed test in it.
  total.failed += right ? 0 : Math.max(1, result.numFailedTests);
  return right;
}

/** With a throw-away PostgreSQL server. */
async function withPostgresql(work) {
  const server = await startPostgresql();
  atEnd(server.stop);
  try {
    return await work({ FAIRTHROW_TEST_POSTGRESQL: server.url });
  } finally {
    server.stop();
  }
}

function api() {
  return withPostgresql((env) => vitest(["sqlite", "postgresql"], env));
}

const programEnvironment = (program) => ({
  FAIRTHROW_TEST_URL: program.url,
  FAIRTHROW_TEST_SIGN_INS: JSON.stringify(program.signIns),
  FAIRTHROW_TEST_CHROMIUM: findChromium() ?? "",
  FAIRTHROW_TEST_HEADLESS: findHeadless() ?? "",
});

async function browser() {
  const program = await startProgram();
  // Side by side: those that share the contest one after the other, and those that need nothing of it.
  const both = await withPostgresql((env) => {
    const all = { ...env, ...programEnvironment(program) };
    return Promise.all([vitest(["browser"], all), vitest(["browser-alone"], all)]);
  });
  const right = both.every((one) => one);
  await program.stop();
  if (!right) console.error(`What the program said:\n${program.output()}`);
  return right;
}

const benches = readdirSync(join(root, "tests/bench"))
  .filter((name) => name.endsWith(".ts"))
  .map((name) => name.slice(0, -".ts".length))
  .sort();

async function bench(names) {
  // Its data on the disk where they are by default, which the folder for what is thrown away may not be.
  const program = await startProgram({ inside: root });
  let right = true;
  for (const name of names)
    right =
      (await runTool("tsx/dist/cli.mjs", [`tests/bench/${name}.ts`], programEnvironment(program))) && right;
  await program.stop();
  return right;
}

async function stage(name, title, run) {
  console.log(`\n━━ ${title} ━━`);
  const began = performance.now();
  let right = false;
  try {
    right = await run();
  } catch (error) {
    console.error(error instanceof LaunchError ? error.message : error);
    total.failed++;
  }
  if (!right) failedStages.push(name);
  console.log(
    `━━ ${title}: ${right ? "passed" : "FAILED"}, ${((performance.now() - began) / 1000).toFixed(1)} s`,
  );
}

async function main(args) {
  checkNode();
  process.chdir(root);
  const wanted = args.filter((argument) => !argument.startsWith("--"));
  const benching = args.includes("--bench");
  const known = benching ? benches : Object.keys(stages);
  const unknown = wanted.find((name) => !known.includes(name));
  if (unknown) throw new LaunchError(`There is no "${unknown}". There are: ${known.join(", ")}.`);
  const chosen = wanted.length > 0 ? wanted : known;
  if (args.includes("--deep")) process.env.FAIRTHROW_TEST_DEEP = "1";

  tidyUpOnSignals();
  folder = mkdtempSync(join(tmpdir(), "fairthrow-tests-"));
  atEnd(() => rmSync(folder, { recursive: true, force: true }));
  const began = performance.now();
  await ensureInstalled(console.log);
  await ensureClients(console.log);
  if (benching) return (await bench(chosen)) ? 0 : 1;
  ensureSystemPackages(
    chosen.flatMap((name) => stages[name].needs ?? []),
    console.log,
  );
  for (const name of chosen) await stage(name, stages[name].title, stages[name].run);
  const lacking = noNetworks();
  if (lacking && chosen.includes("browser"))
    console.log(`\nNot proven here, phones in networks of their own: ${lacking}.`);
  const minutes = ((performance.now() - began) / 60_000).toFixed(1);
  console.log(
    `\n${failedStages.length > 0 ? `Failed: ${failedStages.join(", ")}. ` : ""}${minutes} minutes.`,
  );
  console.log(`${total.passed} passed, ${total.failed} failed`);
  return total.failed === 0 && failedStages.length === 0 ? 0 : 1;
}

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  console.error(error instanceof LaunchError ? `\n${error.message}\n` : error);
  process.exitCode = 1;
} finally {
  tidyUp();
}
process.exit();
