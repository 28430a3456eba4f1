/** Shots of a round in firing order. */

import { shotsQuery } from "@/lib/api/contracts";
import { methods, read } from "@/lib/api/handler";
import { parse, roundShots } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params, query }) => roundShots(db, params.contest, parse(shotsQuery, query).round)),
});
