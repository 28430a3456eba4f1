/** The API describes itself: valid by the standard's own schema, and every route file is in it. */
import { Validator } from "@seriousme/openapi-schema-validator";
import { beforeAll, expect, test } from "vitest";
import { type Answer, openFairDatabase, ROUTE_FILES, send } from "./fair";

let document: Answer;

/** No GET, but nothing is changed by them. */
const KEYLESS = [
  "/contests/{contest}/firing-order-preview",
  "/hazard",
  "/dispersion",
  "/replay",
  "/contests/{contest}/import-preview",
  "/contests/{contest}/range/beats",
];

beforeAll(async () => {
  await openFairDatabase();
  const response = await send("GET", "/openapi.json");
  expect(response.status).toBe(200);
  document = await response.json();
});

test("is valid OpenAPI 3.1 by the schema that the OpenAPI Initiative publishes", async () => {
  const validator = new Validator();
  const result = await validator.validate(structuredClone(document));
  expect(result.errors ?? []).toEqual([]);
  expect(result.valid).toBe(true);
  expect(validator.version).toBe("3.1");
});

test("lists every method of every route file, and no other", async () => {
  const probes = ["GET", "POST", "PUT", "PATCH", "DELETE"];
  const served: string[] = [];
  for (const file of ROUTE_FILES.filter((each) => !each.includes("..."))) {
    const response = await send("OPTIONS", file.replaceAll(/\[(\w+)\]/g, "x"), {});
    const allowed = (response.headers.get("allow") ?? "").split(", ");
    const path = file.replaceAll("[", "{").replaceAll("]", "}");
    for (const method of probes.filter((each) => allowed.includes(each))) served.push(`${method} ${path}`);
  }
  const documented = Object.entries(document.paths as Record<string, object>).flatMap(([path, operations]) =>
    Object.keys(operations).map((method) => `${method.toUpperCase()} ${path}`),
  );
  expect(served.length).toBeGreaterThan(30);
  expect(documented.sort()).toEqual(served.sort());
});

test("every operation names its parameters, its body, its answer and its refusals", () => {
  const ids = new Set<string>();
  for (const [path, operations] of Object.entries(document.paths as Record<string, Record<string, Answer>>))
    for (const [method, operation] of Object.entries(operations)) {
      const where = `${method} ${path}`;
      ids.add(operation.operationId);
      const parameters = operation.parameters.map((each: Answer) => `${each.in} ${each.name}`);
      for (const [, name] of path.matchAll(/\{(\w+)\}/g)) expect(parameters, where).toContain(`path ${name}`);
      const keyed = method !== "get" && !KEYLESS.includes(path);
      expect(parameters.includes("header Idempotency-Key"), where).toBe(keyed);
      expect(operation.requestBody !== undefined, where).toBe(method !== "get");
      const codes = Object.keys(operation.responses);
      expect(
        codes.some((code) => code.startsWith("2")),
        where,
      ).toBe(true);
      expect(codes, where).toContain("500");
      if (method !== "get")
        expect(codes, where).toEqual(expect.arrayContaining(["400", "413", "415", "422"]));
    }
  expect(ids.size).toBe(Object.values(document.paths).flatMap((each) => Object.keys(each as object)).length);
});

test("an address that is not there, and a method that is not, are problems too", async () => {
  const missing = await send("GET", "/nothing/here");
  expect([missing.status, missing.headers.get("content-type")]).toEqual([404, "application/problem+json"]);
  expect((await missing.json()).detail).toContain("/api/v1/openapi.json");
  const wrong = await send("DELETE", "/contests/any");
  expect([wrong.status, wrong.headers.get("content-type")]).toEqual([405, "application/problem+json"]);
  expect(wrong.headers.get("allow")).toBe("GET, HEAD, PATCH, OPTIONS");
});

test("HEAD says what GET would, without the body", async () => {
  const head = await send("HEAD", "/contests");
  expect([head.status, await head.text()]).toEqual([200, ""]);
});
