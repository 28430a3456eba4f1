/** The feed of what changes in a contest, as server-sent events. */
import { liveQuery } from "@/lib/api/contracts";
import { methods, stream } from "@/lib/api/handler";
import { liveFeed, parse } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: stream(({ db, params, query, request }) => {
    const last = request.headers.get("last-event-id");
    const { after } = parse(liveQuery, last === null ? query : { after: last });
    return liveFeed(db, params.contest, after, request.signal);
  }),
});
