"use client";
/** What this post has sent of the shot, where it is saved, and what it makes with the other posts' sightings. */
import Link from "next/link";
import { Button } from "@/app/_ui/button";
import { wholeDistance } from "@/app/_ui/kept-distance";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import { formatQuantity } from "@/lib/units";
import type { JudgeShot } from "../judge/entry";
import judge from "../judge/judge.module.css";

/** Of one post: at the server, or on this phone alone. */
export interface OwnSighting {
  /** Null: not seen. */
  bearing: number | null;
  uncertainty: number;
  sent: boolean;
  refused: boolean;
}

export function SentPanel({
  slug,
  shot,
  postName,
  own,
  next,
  onNext,
  onCorrect,
}: {
  slug: string;
  shot: JudgeShot;
  postName: string;
  own: OwnSighting;
  next: JudgeShot | null;
  onNext: () => void;
  /** Null for who may only look. */
  onCorrect: (() => void) | null;
}) {
  return (
    <section className={own.sent ? judge.saved : judge.kept} aria-label="What became of the sighting">
      <h2>
        {own.sent
          ? "Sent"
          : own.refused
            ? "Kept on this phone, not taken by the server"
            : "Kept on this phone, not sent yet"}
      </h2>
      <p className={judge.big}>
        {own.bearing === null ? "Not seen" : bearingText(own.bearing)} from {postName}
        {own.bearing !== null && <small>± {own.uncertainty}° (standard)</small>}
      </p>
      <Together slug={slug} shot={shot} />
      {next ? (
        <p className="button-row">
          <Button look="main" wide onClick={onNext}>
            Next: {next.entrantNumber} {next.entrantName}
          </Button>
        </p>
      ) : (
        <p>There is no other shot to sight in this round.</p>
      )}
      {onCorrect && (
        <p className="button-row">
          <Button onClick={onCorrect}>Sight it anew</Button>
        </p>
      )}
    </section>
  );
}

/** What all posts together make. */
function Together({ slug, shot }: { slug: string; shot: JudgeShot }) {
  const system = useUnits();
  const { rough } = shot;
  const seen = shot.sightings.filter(({ bearing }) => bearing !== null);
  if (!rough)
    return (
      <p role="status">
        {seen.length === 0
          ? "No post has seen it, as far as this phone knows."
          : `Seen from ${seen.map(({ postName }) => postName).join(", ")} so far: a point needs two posts.`}
      </p>
    );
  if (!rough.located) return <p role="status">No point yet. {rough.warnings[0]?.text}</p>;
  const { distance, bearing, ellipse } = rough.located;
  return (
    <p role="status">
      Seen from {seen.length} posts: about {formatQuantity(distance, "distance", system, { digits: 0 })} from
      firing point {shot.firingPointNumber} on {bearingText(Math.round(bearing) % 360)}, within{" "}
      {wholeDistance(ellipse.major, system, "up")} (95 %).{" "}
      <Link href={`/contests/${slug}/splash`} prefetch={false}>
        Walk to the splash
      </Link>
    </p>
  );
}
