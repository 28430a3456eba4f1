/** The scorebook, newest first; with ?verify=1 its chain is recomputed. */
import { methods, read } from "@/lib/api/handler";
import { scorebookPage } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params, query }) => scorebookPage(db, params.contest, query)),
});
