/** Who is signed in. */
import { methods, read } from "@/lib/api/handler";
import { whoAmI } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, token }) => whoAmI(db, token)),
});
