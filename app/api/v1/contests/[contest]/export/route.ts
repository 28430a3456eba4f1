/** The site as a file. */
import { download, methods } from "@/lib/api/handler";
import { siteFile } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: download(({ db, params, query }) => siteFile(db, params.contest as string, query)),
});
