/** This API, described in OpenAPI 3.1. */
import { json, methods } from "@/lib/api/handler";
import { openApiDocument } from "@/lib/api/openapi";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: async () => json(200, openApiDocument()),
});
