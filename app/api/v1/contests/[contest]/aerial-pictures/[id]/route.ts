/** The picture itself; pinning, showing, hiding and retiring it. */
import { lasting, methods, write } from "@/lib/api/handler";
import { aerialPictureContent, changeAerialPicture } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: lasting(({ db, params }) => aerialPictureContent(db, params.contest, params.id)),
  PATCH: write(({ call, params, body }) => changeAerialPicture(call, params.contest, params.id, body)),
});
