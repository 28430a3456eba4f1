/** The text of a frozen safety file, byte for byte. */
import { download, methods } from "@/lib/api/handler";
import { safetyFileText } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: download(({ db, actor, params }) => safetyFileText(db, actor, params.contest, params.id)),
});
