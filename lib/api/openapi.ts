/** The OpenAPI 3.1 document, made from the table of routes and the contracts that validate. */
import { z } from "zod";
import { MAY } from "../contest/roles";
import { ANSWERS, REQUESTS, ROUTES, type RouteInfo } from "./routes";
import { SESSION_COOKIE } from "./session";

type Json = Record<string, unknown>;

let document: Json | null = null;

export function openApiDocument(): Json {
  document ??= {
    openapi: "3.1.0",
    info: {
      title: "Fairthrow",
      version: "1",
      description:
        "A throwing contest with home-built machines: worst-case throws, keep-out zones, landing points, standings. SI units, angles in degrees, times in ISO 8601. Errors are RFC 9457 problem documents whose `errors` name each field by its path and say what to do. Every write but the open calculators needs an Idempotency-Key: the same key with the same request gives the same answer and changes nothing; a refused write may be sent again.",
      license: { name: "MIT", identifier: "MIT" },
    },
    servers: [{ url: "/api/v1" }],
    paths: paths(),
    components: {
      securitySchemes: {
        badge: { type: "apiKey", in: "cookie", name: SESSION_COOKIE },
        entry: { type: "http", scheme: "bearer" },
      },
      schemas: {
        ...schemas(REQUESTS, "input"),
        ...schemas(ANSWERS, "output"),
      },
    },
  };
  return document;
}

function paths(): Record<string, Json> {
  const all: Record<string, Json> = {};
  for (const route of ROUTES) {
    all[route.path] ??= {};
    (all[route.path] as Json)[route.method] = operation(route);
  }
  return all;
}

const isKeyed = (route: RouteInfo) => route.method !== "get" && !route.keyless;

function operation(route: RouteInfo): Json {
  const { summary, description, who, bearer, body, answer, status = 200 } = route;
  const { bodyType = "application/json", mediaType = "application/json" } = route;
  const words = [
    description,
    who && `Who may: ${Object.keys(MAY[who]).join(", ")}.`,
    bearer && `Authorization: Bearer and ${bearer}.`,
  ]
    .filter(Boolean)
    .join(" ");
  return {
    summary,
    operationId: operationId(route),
    ...(words && { description: words }),
    security: who ? [{ badge: [] }] : bearer ? [{ entry: [] }] : [],
    parameters: parameters(route),
    ...(body && { requestBody: { required: true, content: content(bodyType, body) } }),
    responses: {
      [status]: {
        description: "Done.",
        content: { ...content(mediaType, answer), ...(route.tellsProgress && PROGRESS) },
      },
      ...Object.fromEntries(
        Object.entries(refusals(route)).map(([code, text]) => [
          code,
          { description: text, content: content("application/problem+json", "Problem") },
        ]),
      ),
    },
  };
}

const PROGRESS: Json = {
  "text/event-stream": {
    schema: {
      type: "string",
      description:
        'For who accepts it: events `progress` whose data is {"done": share from 0 to 1}, then `answer` with the answer or `problem` with the problem document.',
    },
  },
};

const content = (mediaType: string, name: string): Json => ({
  [mediaType]: { schema: { $ref: `#/components/schemas/${name}` } },
});

function operationId({ method, path }: RouteInfo): string {
  const words = path.split(/[^a-z]+/i).filter((word) => word !== "");
  return [method, ...words]
    .map((word, index) => (index === 0 ? word : word[0]?.toUpperCase() + word.slice(1)))
    .join("");
}

function parameters(route: RouteInfo): Json[] {
  const inPath = [...route.path.matchAll(/\{(\w+)\}/g)].map(([, name]) => ({
    name,
    in: "path",
    required: true,
    description: name === "contest" ? "The contest's slug." : "The id.",
    schema: { type: "string" },
  }));
  const query = route.query ? (jsonSchema(route.query, "output").properties as Record<string, Json>) : {};
  const inQuery = Object.entries(query).map(([name, schema]) => ({
    name,
    in: "query",
    required: false,
    schema,
  }));
  if (!isKeyed(route)) return [...inPath, ...inQuery];
  const key = {
    name: "Idempotency-Key",
    in: "header",
    required: true,
    description: "New for every entry, such as a random UUID; the same again when sending again.",
    schema: { type: "string", minLength: 16, maxLength: 200 },
  };
  return [...inPath, ...inQuery, key];
}

function refusals(route: RouteInfo): Record<string, string> {
  const always: Record<string, string> = {
    ...(route.body && {
      400: isKeyed(route)
        ? "Not JSON, or no Idempotency-Key."
        : `Not ${route.bodyType ? "readable" : "JSON"}.`,
      413: "The body is too large.",
      415: `The body is not ${route.bodyType ?? "application/json"}.`,
      422: "A field is wrong: `errors` names it. Or the key came before with another request.",
    }),
    ...(isKeyed(route) && { 403: "The write comes from another site." }),
    ...(route.query && { 422: "A field of the query is wrong." }),
    ...(route.who && { 401: "Nobody is signed in.", 403: "This badge may not." }),
    ...(route.path.includes("{") && { 404: "There is no such thing." }),
    ...route.refusals,
    500: "Something went wrong on the server; nothing was half written.",
    ...(isKeyed(route) && { 507: "The server's disk is full; nothing was half written." }),
  };
  return always;
}

function schemas(named: Record<string, z.ZodType>, io: "input" | "output"): Record<string, Json> {
  return Object.fromEntries(Object.entries(named).map(([name, schema]) => [name, jsonSchema(schema, io)]));
}

/** Shared parts stay inline, so that every schema can be read alone. */
function jsonSchema(schema: z.ZodType, io: "input" | "output"): Json {
  const { $schema: _, "~standard": __, ...rest } = z.toJSONSchema(schema, { io, reused: "inline" }) as Json;
  return rest;
}
