/** The whole scorebook as a file, to be kept elsewhere and checked without this program. */
import { download, methods } from "@/lib/api/handler";
import { scorebookFile } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: download(({ db, params }) => scorebookFile(db, params.contest as string)),
});
