"use client";
/** Photographs: made small on the phone, sent one by one, looked at as they are kept. */
import { useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { drawAnew } from "@/app/_ui/draw-anew";
import { FieldFrame } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { newKey } from "@/app/_ui/write/key";
import { send } from "@/app/_ui/write/send";
import { MOST_PHOTOGRAPHS, PHOTOGRAPH_BYTES, type PhotographInfo } from "@/lib/api/contracts";
import { bearing } from "./ask-as";
import styles from "./enter.module.css";

/** As the server keeps them, px a side. */
const SIDE = 2048;
/** A photograph by a slow network, ms. */
const PATIENCE = 120_000;

type Subject = PhotographInfo["subject"];
const SUBJECTS: Record<Subject, string> = { machine: "The machine", insurance: "The insurance’s paper" };

interface Unsent {
  file: File;
  subject: Subject;
  key: string;
  trouble: string;
}

export function PhotographPart({
  slug,
  secret,
  photographs,
  onPhotographs,
}: {
  slug: string;
  secret: string;
  photographs: readonly PhotographInfo[];
  onPhotographs: (photographs: readonly PhotographInfo[]) => void;
}) {
  const url = `/api/v1/contests/${slug}/entries/own/photographs`;
  const [subject, setSubject] = useState<Subject>("machine");
  const [sending, setSending] = useState(0);
  const [unsent, setUnsent] = useState<readonly Unsent[]>([]);
  const known = useRef(photographs);
  known.current = photographs;
  const tell = (next: readonly PhotographInfo[]) => {
    known.current = next;
    onPhotographs(next);
  };

  const put = async ({ file, subject, key }: Omit<Unsent, "trouble">) => {
    const drawn = await drawAnew(file, SIDE);
    const blob = drawn?.blob ?? file;
    const trouble = (words: string) =>
      setUnsent((before) => [...before, { file, subject, key, trouble: words }]);
    if (blob.size > PHOTOGRAPH_BYTES) return trouble("The file is larger than 12 MB: make it smaller first.");
    const sent = await send<PhotographInfo>("POST", `${url}?subject=${subject}`, blob, key, PATIENCE, secret);
    if (sent.ok) {
      const others = known.current.filter(({ id }) => id !== sent.data.id);
      tell([...others, sent.data]);
    } else
      trouble(sent.reached ? sent.problem.detail.replace(/^photograph: /, "") : "The server did not answer.");
  };
  const putAll = async (all: readonly Omit<Unsent, "trouble">[]) => {
    setUnsent((before) => before.filter(({ key }) => !all.some((each) => each.key === key)));
    setSending((before) => before + all.length);
    // One by one: each that is through is kept, whatever becomes of the next.
    for (const one of all) {
      await put(one);
      setSending((before) => before - 1);
    }
  };
  const takeOut = async (id: string) => {
    const sent = await send("POST", `${url}/${id}/removal`, {}, newKey(), undefined, secret);
    if (sent.ok) tell(known.current.filter((each) => each.id !== id));
  };

  return (
    <>
      <p>
        From the side, with somebody beside it for its size; the trigger, the pivot, how the counterweight is
        held. They are drawn anew on the way: place, time and phone do not go along. At most{" "}
        {MOST_PHOTOGRAPHS}.
      </p>
      <ChoiceTiles
        id="photograph-subject"
        legend="Of what"
        value={subject}
        onChange={setSubject}
        choices={[
          { value: "machine", label: SUBJECTS.machine },
          { value: "insurance", label: SUBJECTS.insurance },
        ]}
      />
      <FieldFrame id="photograph-file" label="Choose or take photographs" help="JPEG, PNG or WebP.">
        <input
          id="photograph-file"
          type="file"
          aria-describedby="photograph-file-help"
          accept="image/jpeg,image/png,image/webp"
          multiple
          onChange={(event) => {
            const files = [...(event.target.files ?? [])];
            event.target.value = "";
            void putAll(files.map((file) => ({ file, subject, key: newKey() })));
          }}
        />
      </FieldFrame>
      <p role="status">{sending > 0 ? `Sending: ${sending} to go…` : ""}</p>
      {unsent.map((one) => (
        <Notice key={one.key} kind="problem" title={`${one.file.name}: not sent`}>
          <p>{one.trouble}</p>
          <p className="button-row">
            <Button onClick={() => void putAll([one])}>Send it again</Button>
            <Button onClick={() => setUnsent((before) => before.filter(({ key }) => key !== one.key))}>
              Leave it out
            </Button>
          </p>
        </Notice>
      ))}
      <ul className={styles.photographs}>
        {photographs.map((photograph, index) => (
          <li key={photograph.id}>
            <OwnPhotograph
              url={`${url}/${photograph.id}`}
              secret={secret}
              label={`Photograph ${index + 1}: ${SUBJECTS[photograph.subject].toLowerCase()}`}
            />
            <Button onClick={() => void takeOut(photograph.id)}>Take photograph {index + 1} out</Button>
          </li>
        ))}
      </ul>
    </>
  );
}

/** Fetched with the team's secret, which no address of a picture can carry. */
function OwnPhotograph({ url, secret, label }: { url: string; secret: string; label: string }) {
  const [source, setSource] = useState<string | null>(null);
  useEffect(() => {
    let made: string | null = null;
    const stop = new AbortController();
    fetch(url, { headers: bearing(secret), signal: stop.signal })
      .then(async (response) => {
        if (!response.ok) return;
        made = URL.createObjectURL(await response.blob());
        setSource(made);
      })
      .catch(() => {
        // No network: its place stays empty, with its words.
      });
    return () => {
      stop.abort();
      if (made) URL.revokeObjectURL(made);
    };
  }, [url, secret]);
  if (!source) return <p>{label}</p>;
  // biome-ignore lint/performance/noImgElement: it comes from this page's own memory
  return <img src={source} alt={label} />;
}
