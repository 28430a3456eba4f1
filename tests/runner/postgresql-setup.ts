/** Gives the project `postgresql` a server: the one named in the environment, or one started for this run. */
import type { TestProject } from "vitest/node";
import { startPostgresql } from "./postgresql.mjs";

export default async function setup(project: TestProject): Promise<() => void> {
  const given = process.env.FAIRTHROW_TEST_POSTGRESQL;
  const server = given ? { url: given, stop: () => {} } : await startPostgresql();
  process.once("exit", server.stop);
  project.provide("postgresql", server.url);
  return server.stop;
}

declare module "vitest" {
  export interface ProvidedContext {
    postgresql: string;
  }
}
