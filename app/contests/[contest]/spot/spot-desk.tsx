"use client";
/** A spotter's screen: the post, the shot that comes next, its bearing, and what has not been sent yet. */
import { useCallback, useEffect, useRef, useState } from "react";
import { Button, ButtonLink } from "@/app/_ui/button";
import { useHeading } from "@/app/_ui/heading/use-heading";
import { Notice } from "@/app/_ui/notice";
import { serverNow } from "@/app/_ui/offline/clock";
import { bearingText } from "@/app/_ui/words";
import type { SightingInfo } from "@/lib/api/contracts";
import { type JudgeShot, rangeOf } from "../judge/entry";
import { isSighting, type KeptSighting } from "../judge/outbox";
import { ShotChooser } from "../judge/shot-chooser";
import { ShotUp } from "../judge/shot-up";
import { Unsent } from "../judge/unsent";
import { useOutbox } from "../judge/use-outbox";
import { type Given, useRoundView } from "../judge/use-round-view";
import { KeptPages, WhereSaved } from "../judge/where-saved";
import { remember, remembered } from "./remembered";
import { type OwnSighting, SentPanel } from "./sent-panel";
import { likelyShot, type Sight, sightingFor } from "./sight";
import { SightForm } from "./sight-form";
import styles from "./spot.module.css";

export function SpotDesk({ label, ...given }: Given & { label: string }) {
  const { slug, owner } = given;
  const { view, changeShot, heard } = useRoundView(given);
  const [postId, setPostId] = useState<string | null>(null);
  const [choosing, setChoosing] = useState(false);
  /** Null while the likely shot stands. */
  const [chosen, setChosen] = useState<string | null>(null);
  const [again, setAgain] = useState(false);
  const top = useRef<HTMLHeadingElement>(null);
  const phone = useHeading();
  // After the first picture, which must agree with the server's.
  useEffect(() => setPostId(remembered(slug, "post")), [slug]);

  const onSaved = useCallback(
    ({ shotId }: KeptSighting, answer: SightingInfo) =>
      changeShot(shotId, ({ sightings }) => ({
        sightings: [...sightings.filter(({ from }) => from !== answer.from), answer],
      })),
    [changeShot],
  );
  const { outbox, waiting } = useOutbox(slug, owner, { sighting: onSaved });

  const range = rangeOf(view);
  const post = range.pegs.find(({ id }) => id === postId) ?? null;
  const kept = waiting.entries.filter(isSighting);
  const ownOf = (shot: JudgeShot): OwnSighting | null => {
    const waits = kept.findLast(({ shotId, body }) => shotId === shot.id && body.from === postId);
    if (waits) {
      const { bearing, uncertainty } = waits.body;
      return { bearing, uncertainty, sent: false, refused: waits.refused !== null };
    }
    const sent = shot.sightings.find(({ from }) => from === postId);
    return sent ? { ...sent, sent: true, refused: false } : null;
  };
  const isDone = (shot: JudgeShot) => ownOf(shot) !== null;
  const likely = likelyShot(view.shots, isDone);
  const shot = view.shots.find(({ id }) => id === chosen) ?? likely ?? view.shots.at(-1) ?? null;
  const next = likelyShot(view.shots, (one) => isDone(one) || one.id === shot?.id);
  const upId = view.shots.find(({ fix, out }) => fix === null && !out)?.id ?? null;
  /** From the first touch on the shot stays, whatever is entered elsewhere meanwhile. */
  const hold = () => setChosen(shot?.id ?? null);
  const go = (id: string) => {
    setChosen(id);
    setAgain(false);
    top.current?.focus();
  };

  const where = <WhereSaved waiting={waiting} heard={heard} />;
  if (view.round === null || !shot) {
    return (
      <>
        <p>
          No firing order is made yet. When the organiser makes one, the shot that comes next appears here.
        </p>
        {where}
      </>
    );
  }
  const own = ownOf(shot);
  const standAt = (id: string) => {
    remember(slug, "post", id);
    setPostId(id);
    setChoosing(false);
    setChosen(null);
  };
  const send = async (sight: Sight | null) => {
    if (!post) return;
    hold();
    const entry = sightingFor(slug, shot, post, sight, owner, serverNow());
    await outbox.keep(entry);
    setAgain(false);
    void outbox.dispatch<SightingInfo>(entry.key);
    top.current?.focus();
  };
  return (
    <>
      {where}
      <Unsent waiting={waiting} outbox={outbox} mayTakeOver={owner !== null} />
      {owner === null && (
        <Notice>
          <p>
            {label ? `You are signed in as ${label}. ` : ""}Only a judge&rsquo;s badge can send a sighting;
            this is to look at.
          </p>
        </Notice>
      )}
      {range.pegs.length === 0 ? (
        <Notice title="No posts yet">
          <p>
            A spotter stands at a control point of the site, and there is none. The organiser enters them
            under Organise, Site.
          </p>
        </Notice>
      ) : !post || choosing ? (
        <div className={styles.posts} role="group" aria-labelledby="post-legend">
          <p id="post-legend">
            <strong>At which post do you stand?</strong>
          </p>
          {range.pegs.map(({ id, name, note }) => (
            <Button key={id} wide onClick={() => standAt(id)}>
              {name}
              {note && `: ${note}`}
            </Button>
          ))}
        </div>
      ) : (
        <p className={styles.post}>
          <span>
            Your post: <strong>{post.name}</strong>
          </span>
          <Button onClick={() => setChoosing(true)}>Another post</Button>
        </p>
      )}
      <ShotUp heading={top} view={view} shot={shot} upId={upId} />
      {post && (own === null || again) && (
        <div onPointerDownCapture={hold} onKeyDownCapture={hold}>
          {shot.fix && (
            <Notice title="Entered already">
              <p>A judge has entered this shot. A sighting of it still counts as one.</p>
              {next && <Button onClick={() => go(next.id)}>To {next.entrantName}</Button>}
            </Notice>
          )}
          <SightForm
            key={shot.id}
            slug={slug}
            shot={shot}
            post={post}
            range={range}
            phone={phone}
            maySend={owner !== null}
            onSend={(sight) => void send(sight)}
          />
        </div>
      )}
      {post && own && !again && (
        <SentPanel
          slug={slug}
          shot={shot}
          postName={post.name}
          own={own}
          next={next}
          onNext={() => next && go(next.id)}
          onCorrect={owner === null ? null : () => setAgain(true)}
        />
      )}
      <ShotChooser
        slug={slug}
        page="spot"
        view={view}
        upId={upId}
        chosen={shot.id}
        kept={new Set(kept.map(({ shotId }) => shotId))}
        moving={false}
        words={(one) => seenWords(one)}
        onChoose={go}
      />
      <p className="button-row">
        <ButtonLink href={`/contests/${slug}/splash`}>Walk to the splash</ButtonLink>
        <ButtonLink href={`/contests/${slug}/judge`}>Enter landing points</ButtonLink>
      </p>
      <KeptPages slug={slug} rounds={view.rounds} />
    </>
  );
}

/** "Oak 135°, Elm 180°": what the server has. */
function seenWords({ sightings }: JudgeShot): string {
  const seen = sightings.map(
    ({ postName, trueBearing }) =>
      `${postName} ${trueBearing === null ? "nothing" : bearingText(Math.round(trueBearing) % 360)}`,
  );
  return seen.join(", ") || "not sighted";
}
