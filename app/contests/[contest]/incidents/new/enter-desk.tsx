"use client";
/** What happened first, in three touches, with no network too; then where pieces lie and what there is to say. */
import { useCallback, useRef, useState } from "react";
import { Button, ButtonLink } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { LongTextField, SelectField } from "@/app/_ui/field";
import { useLive } from "@/app/_ui/live/use-live";
import { Notice } from "@/app/_ui/notice";
import { serverNow } from "@/app/_ui/offline/clock";
import type { KeptIncident } from "@/app/_ui/offline/database";
import { KeptHere } from "@/app/_ui/offline/kept-here";
import { readPosition } from "@/app/_ui/position";
import { type PhonePosition, PositionField } from "@/app/_ui/position-field";
import { SeenFields, seenIn } from "@/app/_ui/seen-fields";
import { useUnits } from "@/app/_ui/units";
import { textOf } from "@/app/_ui/write/form-values";
import { newKey } from "@/app/_ui/write/key";
import type { IncidentPart, IncidentReceipt, IncidentRequest } from "@/lib/api/contracts";
import type { Stand } from "../../judge/entry";
import { Unsent } from "../../judge/unsent";
import { useOutbox } from "../../judge/use-outbox";
import { WhereSaved } from "../../judge/where-saved";
import { PieceForm } from "../piece-form";
import type { Pegs } from "../stand";
import { FOUND_WORDS, type HURT_WORDS, PART_WORDS, titleOf, zoneWords } from "../words";

const nothing = () => {};
type Hurt = keyof typeof HURT_WORDS;
type Found = keyof typeof FOUND_WORDS;

interface MachineChoice {
  id: string;
  name: string;
  label: string;
  stand: Stand | null;
}

export function EnterDesk({
  slug,
  owner,
  sequence,
  mayRead,
  chosen,
  pegs,
  machines,
}: {
  slug: string;
  owner: string;
  sequence: number;
  /** Whether this reader may open incidents. */
  mayRead: boolean;
  chosen: string | null;
  pegs: Pegs;
  machines: readonly MachineChoice[];
}) {
  const heard = useLive(`/api/v1/contests/${slug}/live`, sequence, nothing);
  const [kept, setKept] = useState<{ key: string; machineId: string } | null>(null);
  const [receipt, setReceipt] = useState<IncidentReceipt | null>(null);
  const top = useRef<HTMLHeadingElement>(null);
  const onSaved = useCallback(
    ({ key }: KeptIncident, answer: IncidentReceipt) =>
      setKept((now) => {
        if (now?.key === key) setReceipt(answer);
        return now;
      }),
    [],
  );
  const { outbox, waiting } = useOutbox(slug, owner, { incident: onSaved });
  const save = async (body: IncidentRequest) => {
    const name = machines.find(({ id }) => id === body.machineId)?.name ?? "a machine";
    const entry: KeptIncident = {
      kind: "incident",
      key: newKey(),
      slug,
      owner,
      url: `/api/v1/contests/${slug}/incidents`,
      body,
      shotId: "",
      title: `with ${name}`,
      result: "Incident",
      madeAt: serverNow().toISOString(),
      tried: false,
      refused: null,
    };
    setReceipt(null);
    setKept({ key: entry.key, machineId: body.machineId });
    await outbox.keep(entry);
    void outbox.dispatch<IncidentReceipt>(entry.key);
    requestAnimationFrame(() => top.current?.focus());
  };
  const machine = machines.find(({ id }) => id === kept?.machineId);
  return (
    <>
      <WhereSaved waiting={waiting} heard={heard} />
      <Unsent waiting={waiting} outbox={outbox} mayTakeOver />
      {kept === null ? (
        <>
          <Caution kind="mandatory" title="help first">
            <p>Horn, flag and radio stop the range. Call for help, then press HOLD above, then write here.</p>
          </Caution>
          <EntryForm machines={machines} chosen={chosen} onSave={(body) => void save(body)} />
        </>
      ) : (
        <section aria-labelledby="saved-title">
          <h2 id="saved-title" tabIndex={-1} ref={top}>
            {receipt ? titleOf(receipt) : "Kept on this phone"}
          </h2>
          {receipt ? (
            <Entered receipt={receipt} />
          ) : (
            <p>It goes out by itself when the network is back. Tell the safety officer by radio.</p>
          )}
          {receipt && machine?.stand && (
            <>
              <h3>Where a piece came down</h3>
              <PieceForm slug={slug} incidentId={receipt.id} stand={machine.stand} pegs={pegs} />
            </>
          )}
          <p className="button-row">
            {receipt && mayRead && (
              <ButtonLink href={`/contests/${slug}/incidents/${receipt.id}`} look="main">
                Open incident {receipt.number}
              </ButtonLink>
            )}
            <Button onClick={() => setKept(null)}>Another incident</Button>
          </p>
        </section>
      )}
      <KeptHere
        pages={[`/contests/${slug}/incidents/new`]}
        ready="Without a network this page opens from this phone."
      />
    </>
  );
}

function Entered({ receipt }: { receipt: IncidentReceipt }) {
  const system = useUnits();
  const { piece, held, machineName, sequence } = receipt;
  return (
    <Notice kind="done" title="Entered" live>
      <p>
        The firing permit of {machineName} has fallen. Scorebook entry {sequence} says that an incident was
        entered for it, and no more.
      </p>
      {piece && <p>{zoneWords(piece, system)}.</p>}
      {held && (
        <p>
          <strong>The range is on hold.</strong> Only the safety officer lifts it.
        </p>
      )}
    </Notice>
  );
}

function EntryForm({
  machines,
  chosen,
  onSave,
}: {
  machines: readonly MachineChoice[];
  chosen: string | null;
  onSave: (body: IncidentRequest) => void;
}) {
  const known = machines.some(({ id }) => id === chosen) ? chosen : null;
  const [machineId, setMachineId] = useState(known ?? "");
  const [hurt, setHurt] = useState<Hurt | null>(null);
  const [part, setPart] = useState<IncidentPart>("unknown");
  const [found, setFound] = useState<Found>("unknown");
  const [at, setAt] = useState("");
  const [phone, setPhone] = useState<PhonePosition | null>(null);
  const [wrong, setWrong] = useState<{ machine?: string; hurt?: string; at?: string }>({});
  const form = useRef<HTMLFormElement>(null);
  const submit = () => {
    const position = at.trim() === "" ? null : readPosition(at);
    const missing = {
      ...(machineId === "" && { machine: "Machine: choose the one that it happened with." }),
      ...(hurt === null && { hurt: "Is anybody hurt? Choose one, also if it is not known." }),
      ...(position && !position.ok && { at: position.message }),
    };
    setWrong(missing);
    if (hurt === null || Object.keys(missing).length > 0 || !form.current) {
      requestAnimationFrame(() =>
        form.current
          ?.querySelector<HTMLElement>(
            "select[aria-invalid='true'], [aria-invalid='true'] input, input[aria-invalid='true']",
          )
          ?.focus(),
      );
      return;
    }
    const filled = new FormData(form.current);
    const account = textOf(filled, "account");
    onSave({
      machineId,
      part,
      hurt,
      // Told late, it says when it was all the same.
      observedAt: serverNow().toISOString(),
      ...seenIn(filled),
      ...(account && { account }),
      ...(position?.ok && {
        piece: {
          found,
          place: "rest" as const,
          fix: {
            outcome: "landed" as const,
            method: "position" as const,
            ...position.position,
            ...(phone && { accuracy: phone.accuracy }),
            accuracyLevel: 95 as const,
            landing: "rest" as const,
          },
        },
      }),
    });
  };
  return (
    <form
      ref={form}
      aria-label="Incident"
      method="post"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
    >
      <SelectField
        id="incident-machine"
        label="Machine"
        value={machineId}
        onChange={(event) => setMachineId(event.target.value)}
        choices={[
          { value: "", label: "Choose a machine" },
          ...machines.map(({ id, label }) => ({ value: id, label })),
        ]}
        error={wrong.machine ?? null}
      />
      <ChoiceTiles
        id="incident-hurt"
        legend="Is anybody hurt?"
        value={hurt}
        onChange={setHurt}
        error={wrong.hurt ?? null}
        choices={[
          { value: "nobody", label: "Nobody" },
          { value: "somebody", label: "Somebody", note: "the range holds" },
          { value: "unknown", label: "Not known", note: "the range holds" },
        ]}
      />
      <ChoiceTiles
        id="incident-part"
        legend="What failed?"
        value={part}
        onChange={setPart}
        choices={(Object.keys(PART_WORDS) as IncidentPart[]).map((value) => ({
          value,
          label: PART_WORDS[value],
        }))}
      />
      <Button type="submit" look="main" wide>
        Enter the incident
      </Button>
      <details>
        <summary>Where something lies, what happened, from paper</summary>
        <PositionField
          id="incident-at"
          label="Where something lies: latitude, longitude"
          help="Stand beside it and take this phone’s position. Every other way to measure comes after this page."
          text={at}
          onChange={(text) => {
            setAt(text);
            setPhone(null);
          }}
          onPhone={setPhone}
          error={wrong.at ?? null}
        />
        <ChoiceTiles
          id="incident-found"
          legend="What lies there?"
          value={found}
          onChange={setFound}
          choices={(Object.keys(FOUND_WORDS) as Found[]).map((value) => ({
            value,
            label: FOUND_WORDS[value],
          }))}
        />
        <LongTextField
          id="incident-account"
          name="account"
          rows={4}
          maxLength={4000}
          label="What happened"
          help="May name people: only the organiser and the safety officer read it, and it is erased on its day."
          optional
        />
        <SeenFields id="incident" />
      </details>
    </form>
  );
}
