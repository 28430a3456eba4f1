/** A photograph of an entry, for those who may see it. */
import { methods, privatePhotograph } from "@/lib/api/handler";
import { entryPhotograph } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: privatePhotograph(({ db, actor, params }) =>
    entryPhotograph(db, actor, params.contest, params.id, params.photograph),
  ),
});
