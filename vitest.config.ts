/**
 * The test projects. `npx vitest run --project calculations tests/unit/units.test.ts` runs one file;
 * `npm test` runs everything, in order, on servers that it starts.
 *
 * What touches the database runs twice, as `sqlite` and as `postgresql`; tests/database.ts gives each test file
 * a database of its own. The project `postgresql` starts a throw-away server unless FAIRTHROW_TEST_POSTGRESQL
 * names one, and so do `browser` and `browser-alone`, which need a running program too: FAIRTHROW_TEST_URL and
 * FAIRTHROW_TEST_SIGN_INS.
 */
import { fileURLToPath } from "node:url";
import { configDefaults, defineConfig } from "vitest/config";

// Long proofs: only `npm run test:deep` runs them.
const deep = process.env.FAIRTHROW_TEST_DEEP ? [] : ["tests/**/*.deep.test.ts"];
const exclude = [...configDefaults.exclude, ...deep];
const resolve = { alias: { "@": fileURLToPath(new URL(".", import.meta.url)) } };
const generous = { testTimeout: 60_000, hookTimeout: 120_000 };

const onEngine = (engine: "sqlite" | "postgresql") => ({
  resolve,
  test: {
    name: engine,
    include: ["tests/api/**/*.test.ts", "tests/faults/**/*.test.ts"],
    exclude,
    env: { FAIRTHROW_TEST_ENGINE: engine },
    // Each file has its own database: loading the program anew for each took half of the time.
    isolate: false,
    globalSetup: engine === "postgresql" ? ["tests/runner/postgresql-setup.ts"] : [],
    ...generous,
  },
});

/** Browser tests that change nothing in the contest which the others share: they run beside these, about as long. */
const alone = ["calculator", "replay", "install", "workbench-*", "fair-offline", "fair-antimeridian"].map(
  (name) => `tests/browser/${name}.test.ts`,
);

const inBrowser = (name: string, include: string[], except: string[] = []) => ({
  resolve,
  test: {
    name,
    include,
    exclude: [...exclude, ...except],
    globalSetup: ["tests/runner/postgresql-setup.ts"],
    fileParallelism: false,
    ...generous,
  },
});

export default defineConfig({
  resolve,
  test: {
    maxWorkers: "100%",
    projects: [
      {
        resolve,
        test: {
          name: "calculations",
          include: ["tests/{unit,reference,property}/**/*.test.{ts,tsx}"],
          exclude,
          ...generous,
        },
      },
      onEngine("sqlite"),
      onEngine("postgresql"),
      // One after the other: the tests share one contest.
      inBrowser("browser", ["tests/browser/**/*.test.ts"], alone),
      inBrowser("browser-alone", alone),
    ],
  },
});
