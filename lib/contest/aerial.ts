/** The picture underneath the map: stored with the contest, pinned to known coordinates, served to everybody. */
import { createHash } from "node:crypto";
import type { z } from "zod";
import {
  type AerialPictureInfo,
  aerialPictureChange,
  aerialPictureRequest,
  PICTURE_BYTES,
  PICTURE_SIDE,
} from "../api/contracts";
import type { Database } from "../db";
import { fitPicture, type PictureModel } from "../earth";
import { invalid, notFound, parse } from "./errors";
import { type ContestRow, contestBySlug } from "./find";
import { mustBeNear } from "./fitting";
import { contestToLayOut } from "./layout";
import { type PictureBytes, readPictureBytes } from "./picture-bytes";
import { newId } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

type Pin = z.output<typeof aerialPictureRequest>["pins"][number];

/** Everything but the content. */
const FIELDS = {
  id: true,
  name: true,
  mediaType: true,
  width: true,
  height: true,
  sha256: true,
  pins: true,
  opacity: true,
  shown: true,
  retired: true,
  createdAt: true,
} as const;

export async function addAerialPicture(
  call: Call,
  slug: string,
  body: unknown,
): Promise<Reply<AerialPictureInfo>> {
  const { content: text, name, opacity, pins, model } = parse(aerialPictureRequest, body);
  const contest = await contestToLayOut(call, slug);
  const content = Uint8Array.from(Buffer.from(text, "base64"));
  const { mediaType, width, height } = acceptable(content);
  mustFit(contest, pins, model);
  const hash = createHash("sha256").update(content).digest("hex");
  const request = { act: "aerial-picture", contest: contest.id, hash, name, opacity, pins, model };
  return committed(call, contest.id, request, async (tx, book) => {
    const row = await tx.aerialPicture.create({
      data: {
        id: newId(),
        contestId: contest.id,
        name,
        mediaType,
        width,
        height,
        content,
        sha256: hash,
        pins: JSON.stringify({ model, pins }),
        opacity,
        createdAt: book.at,
      },
      select: FIELDS,
    });
    const picture = aerialPictureInfo(row);
    await book.append("aerial-picture-added", row.id, {
      mediaType,
      width,
      height,
      sha256: hash,
      ...official(picture),
    });
    return picture;
  });
}

export async function changeAerialPicture(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<AerialPictureInfo>> {
  const change = parse(aerialPictureChange, body);
  const contest = await contestToLayOut(call, slug);
  const request = { act: "change-aerial-picture", id, change };
  return committed(
    call,
    contest.id,
    request,
    async (tx, book) => {
      const found = await tx.aerialPicture.findFirst({
        where: { id, contestId: contest.id },
        select: FIELDS,
      });
      if (!found) throw notFound("aerial picture");
      const before = aerialPictureInfo(found);
      const { pins = before.pins, model = before.model } = change;
      if (change.pins || change.model !== undefined) mustFit(contest, pins, model);
      const { name = before.name, opacity = before.opacity } = change;
      const { shown = before.shown, retired = before.retired } = change;
      const row = await tx.aerialPicture.update({
        where: { id },
        data: { name, opacity, shown, retired, pins: JSON.stringify({ model, pins }) },
        select: FIELDS,
      });
      const after = aerialPictureInfo(row);
      await book.append("aerial-picture-changed", id, { from: official(before), to: official(after) });
      return after;
    },
    { status: 200 },
  );
}

/** A picture's bytes, for anyone. They never change under one id; a retired one is served no more. */
export async function aerialPictureContent(
  db: Database,
  slug: string,
  id: string,
): Promise<{ content: Uint8Array; mediaType: string; sha256: string }> {
  const contest = await contestBySlug(db, slug);
  const row = await db.aerialPicture.findFirst({
    where: { id, contestId: contest.id, retired: false },
    select: { content: true, mediaType: true, sha256: true },
  });
  if (!row) throw notFound("aerial picture");
  return row;
}

/** Of one contest, without their content; retired ones too. */
export async function aerialPicturesOf(db: Database, contestId: string): Promise<AerialPictureInfo[]> {
  const rows = await db.aerialPicture.findMany({
    where: { contestId },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    select: FIELDS,
  });
  return rows.map(aerialPictureInfo);
}

function acceptable(content: Uint8Array): PictureBytes {
  const refused = (message: string) => invalid("content", message);
  if (content.byteLength > PICTURE_BYTES)
    throw refused("The picture is larger than 12 MB: make it smaller or compress it more.");
  const read = readPictureBytes(content);
  if (!read)
    throw refused("This is no JPEG, PNG or WebP picture, or it is cut off. Save it as one of these.");
  const { width, height, describesItself } = read;
  if (width > PICTURE_SIDE || height > PICTURE_SIDE)
    throw refused(`The picture has ${width} × ${height} pixels: at most ${PICTURE_SIDE} on either side.`);
  if (width < 16 || height < 16)
    throw refused(`The picture has only ${width} × ${height} pixels: at least 16 on either side.`);
  if (describesItself)
    throw refused(
      "The file carries Exif, XMP or text data, which may tell where and by whom it was taken. Save it without them.",
    );
  return read;
}

function mustFit(contest: ContestRow, pins: readonly Pin[], model: PictureModel | null): void {
  for (const [index, pin] of pins.entries()) mustBeNear(contest, pin, `pins.${index}.latitude`);
  if (pins.length === 0) return;
  const answer = fitPicture(pins, model ?? undefined);
  if (!answer.ok) throw invalid("pins", answer.problem);
}

/** What enters the scorebook: its name may say who took it. */
function official({ pins, model, opacity, shown, retired }: AerialPictureInfo) {
  return { model, pins: pins.map(({ label: _, ...place }) => place), opacity, shown, retired };
}

interface Row extends Omit<AerialPictureInfo, "pins" | "model" | "createdAt" | "mediaType"> {
  mediaType: string;
  pins: string;
  createdAt: Date;
}

function aerialPictureInfo({ pins, createdAt, mediaType, ...row }: Row): AerialPictureInfo {
  const stored = JSON.parse(pins) as Pick<AerialPictureInfo, "pins" | "model">;
  return {
    ...row,
    mediaType: mediaType as AerialPictureInfo["mediaType"],
    pins: stored.pins,
    model: stored.model,
    createdAt: createdAt.toISOString(),
  };
}
