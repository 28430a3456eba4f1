"use client";
/** One post on one phone: clear or not, in two large buttons, and whether the server still hears it. */
import { useEffect, useState } from "react";
import { keep, kept } from "@/app/_ui/browser-memory";
import { SelectField } from "@/app/_ui/field";
import { newKey } from "@/app/_ui/write/key";
import type { RangeView } from "@/lib/api/contracts";
import styles from "../range/range.module.css";
import { BigButton, useTell } from "../range/told";
import { useBeats, useRange } from "../range/use-range";
import { momentOf } from "../range-bar/range-words";

export function PostDesk({ slug, first }: { slug: string; first: RangeView }) {
  const { view, refresh } = useRange(slug, first, null);
  const { tell, sending, said } = useTell(slug, refresh);
  const [postId, choose] = useChosen(`fairthrow:post:${slug}`);
  const [phone, setPhone] = useState("");
  // A new word with every opening: a page that was closed does not go on speaking.
  useEffect(() => setPhone(newKey()), []);
  /** Whether clear was said from this phone since it was opened. */
  const [own, setOwn] = useState(false);
  const post = view.posts.find(({ id }) => id === postId) ?? null;
  const isClear = post?.state === "clear" || post?.state === "left";
  const { lost, heardAt } = useBeats(slug, post && own && isClear ? { post: { id: post.id, phone } } : null);

  const say = async (clear: boolean, left = false) => {
    if (!post) return;
    const sent = await tell("PUT", `/posts/${post.id}`, { clear, turn: view.turn, phone, left });
    setOwn(sent.ok && clear);
  };
  return (
    <>
      <SelectField
        id="post"
        label="I stand at"
        value={postId}
        onChange={(event) => {
          setOwn(false);
          choose(event.target.value);
        }}
        choices={[
          { value: "", label: view.posts.length > 0 ? "Choose your post" : "No post is laid out yet" },
          ...view.posts.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
      {post && (
        <>
          {lost !== null && own ? (
            <p className={styles.lost} role="alert">
              Server lost, last heard {momentOf(heardAt ? new Date(heardAt) : null)}. This post counts as NOT
              CLEAR. Tell it by radio.
            </p>
          ) : (
            <p className={styles.big} role="status">
              {isClear && own
                ? `✓ ${post.name} says CLEAR${post.state === "left" ? ", post left" : ""}`
                : isClear
                  ? `✓ Clear was said on another phone; only that one is heard.`
                  : `✗ ${post.name} counts as NOT CLEAR`}
            </p>
          )}
          {said}
          {view.mode === "hot" && (
            <p>The range is hot for {view.hot?.machineName}: not clear puts it on hold.</p>
          )}
          <BigButton look="main" busy={sending || view.mode === "hold"} onPress={() => void say(true)}>
            Clear
          </BigButton>
          {post.inZoneOf.length > 0 && (
            <BigButton busy={sending || view.mode === "hold"} onPress={() => void say(true, true)}>
              Clear, and I have left the post
            </BigButton>
          )}
          <BigButton busy={sending} onPress={() => void say(false)}>
            Not clear
          </BigButton>
          <p>
            Clear means: you see all the ground you watch, and nobody is on it. It counts for one turn, and
            only while this page is open and heard.
          </p>
          {post.inZoneOf.length > 0 && (
            <p>
              <strong>This post lies in the zone of {post.inZoneOf.join(", ")}:</strong> leave it before one
              of them fires, and say clear from outside.
            </p>
          )}
        </>
      )}
    </>
  );
}

function useChosen(name: string): [string, (id: string) => void] {
  const [chosen, setChosen] = useState("");
  useEffect(() => setChosen(kept(name) ?? ""), [name]);
  return [
    chosen,
    (id) => {
      setChosen(id);
      keep(name, id);
    },
  ];
}
