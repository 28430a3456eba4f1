"use client";
/** Who is downrange: out and in at the line, by name or by the number of a tag. */
import { useCallback, useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import type { RangeView, TagInfo, Tally } from "@/lib/api/contracts";
import styles from "../range/range.module.css";
import { BigButton, useTell } from "../range/told";
import { useRange } from "../range/use-range";
import { momentOf } from "../range-bar/range-words";
import { PaperTally } from "./paper-tally";

export function TallyDesk({
  slug,
  first,
  tally: before,
  mayErase,
}: {
  slug: string;
  first: RangeView;
  tally: Tally;
  mayErase: boolean;
}) {
  const { view, refresh, lost } = useRange(slug, first, null);
  const { tally, read } = useTally(slug, before, view.sequence);
  const { tell, sending, said } = useTell(slug, () => {
    refresh();
    void read();
  });
  const [who, setWho] = useState("");
  const [refused, setRefused] = useState(false);

  const out = async (already: boolean) => {
    const typed = who.trim();
    const body = /^\d+$/.test(typed) ? { number: typed, already } : { name: typed, already };
    const sent = await tell("POST", "/tags", body);
    if (sent.ok) setWho("");
    setRefused(!sent.ok && sent.reached && sent.problem.code === "range");
  };
  const isOpen = view.mode === "cold" && view.machines.every(({ state }) => state === "safe");
  return (
    <>
      <p className={styles.big} role="status">
        {lost
          ? "✗ Server lost: who is out is not known here. Keep the tally on paper"
          : tally.out.length === 0
            ? "✓ Nobody is out"
            : tally.out.length === 1
              ? "✗ One is out"
              : `✗ ${tally.out.length} are out`}
      </p>
      {!isOpen && !lost && (
        <p className={styles.lost}>
          Nobody goes downrange now: the range is not cold, or a machine is not made safe.
        </p>
      )}
      {said}
      <TextField
        id="tag"
        label="Name, or number of the tag"
        help="Before they cross the line."
        value={who}
        autoComplete="off"
        onChange={(event) => {
          setWho(event.target.value);
          setRefused(false);
        }}
      />
      <BigButton look="main" busy={sending || who.trim() === ""} onPress={() => void out(false)}>
        Tag out
      </BigButton>
      {refused && (
        <BigButton busy={sending} onPress={() => void out(true)}>
          They are out there already: write it down and HOLD
        </BigButton>
      )}
      <h2>{lost ? "Out when the server was last heard" : "Out"}</h2>
      {tally.out.length === 0 ? (
        <p>No tag is out.</p>
      ) : (
        <ul className={styles.tags}>
          {tally.out.map((tag) => (
            <li key={tag.id} className={styles.tag}>
              <span>
                <strong>{nameOf(tag)}</strong>, since {momentOf(new Date(tag.outAt))}
                {tag.machineName && `, at ${tag.machineName}`}
              </span>
              <Button look="main" onClick={() => void tell("POST", `/tags/${tag.id}/in`)}>
                In<span className="aloud">: {nameOf(tag)}</span>
              </Button>
            </li>
          ))}
        </ul>
      )}
      <h2>Back</h2>
      {tally.back.length === 0 ? (
        <p>Nobody yet.</p>
      ) : (
        <ul>
          {tally.back.map((tag) => (
            <li key={tag.id}>
              {nameOf(tag)}, {momentOf(new Date(tag.outAt))} to{" "}
              {momentOf(tag.inAt ? new Date(tag.inAt) : null)}
              {tag.witness && ` (from paper, seen by ${tag.witness})`}
            </li>
          ))}
        </ul>
      )}
      {mayErase && tally.back.some(({ name }) => name !== null) && (
        <p>
          <Button onClick={() => void tell("POST", "/tags/erase")}>
            Erase the names of those who are back
          </Button>
        </p>
      )}
      <PaperTally
        slug={slug}
        onDone={() => {
          refresh();
          void read();
        }}
      />
      <p>
        Names stand here alone, never in the scorebook; those of people who are back are erased after 30 days
        by themselves.
      </p>
    </>
  );
}

const nameOf = ({ name, number }: TagInfo): string => name ?? (number ? `Tag ${number}` : "Name erased");

function useTally(slug: string, before: Tally, sequence: number) {
  const [tally, setTally] = useState(before);
  const asked = useRef(0);
  const read = useCallback(async () => {
    const own = ++asked.current;
    try {
      const response = await fetch(`/api/v1/contests/${slug}/range/tags`, { cache: "no-store" });
      if (response.ok && own === asked.current) setTally((await response.json()) as Tally);
    } catch {
      // No network: the bar above says so.
    }
  }, [slug]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read anew with every change
  useEffect(() => void read(), [read, sequence]);
  return { tally, read };
}
