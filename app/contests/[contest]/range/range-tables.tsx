"use client";
/** Posts and machines as they are now, in words. */
import { TextField } from "@/app/_ui/field";
import { Table } from "@/app/_ui/table";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { RangeMachine, RangePost, RangeView } from "@/lib/api/contracts";
import { momentOf } from "../range-bar/range-words";
import { STATES } from "./states";

const POSTS: Record<RangePost["state"], string> = {
  clear: "✓ clear",
  left: "✓ clear, post left",
  "not-clear": "✗ has not said clear",
  lost: "✗ phone lost: not clear",
};

export function PostTable({ posts }: { posts: readonly RangePost[] }) {
  return (
    <Table
      caption="Posts"
      hideCaption
      stacks
      rows={posts}
      rowKey={({ id }) => id}
      empty="No post is laid out. Draw posts among the site features."
      columns={[
        { key: "name", head: "Post", rowHead: true, cell: ({ name }) => name },
        {
          key: "state",
          head: "Says",
          cell: ({ state, since }) => `${POSTS[state]}${since ? `, ${momentOf(new Date(since))}` : ""}`,
        },
        {
          key: "zones",
          head: "Left when fires",
          cell: ({ inZoneOf }) => (inZoneOf.length > 0 ? inZoneOf.join(", ") : "no machine"),
        },
      ]}
    />
  );
}

export function MachineTable({
  slug,
  view,
  mayApproach,
  onDone,
}: {
  slug: string;
  view: RangeView;
  mayApproach: boolean;
  onDone: () => void;
}) {
  const misfires = view.machines.filter(({ state, approached }) => state === "misfired" && !approached);
  return (
    <>
      {mayApproach &&
        misfires.map((machine) => (
          <Approach key={machine.id} slug={slug} machine={machine} onDone={onDone} />
        ))}
      <Table
        caption="Machines"
        hideCaption
        stacks
        rows={view.machines}
        rowKey={({ id }) => id}
        empty="No machine stands on a firing point yet."
        columns={[
          { key: "name", head: "Machine", rowHead: true, cell: ({ name }) => name },
          {
            key: "point",
            head: "Firing point",
            number: true,
            cell: ({ firingPointNumber }) => firingPointNumber,
          },
          {
            key: "state",
            head: "Is",
            cell: ({ state, since }) => `${STATES[state]}${since ? `, ${momentOf(new Date(since))}` : ""}`,
          },
          {
            key: "holds",
            head: "Its zone holds",
            cell: ({ holds }) => (holds === null ? "not known" : few(holds)),
          },
        ]}
      />
    </>
  );
}

const SHOWN = 3;
const few = (names: readonly string[]): string =>
  names.length === 0
    ? "nobody"
    : names.length > SHOWN
      ? `${names.slice(0, SHOWN).join(", ")} and ${names.length - SHOWN} more`
      : names.join(", ");

function Approach({ slug, machine, onDone }: { slug: string; machine: RangeMachine; onDone: () => void }) {
  const from = machine.approachFrom ? new Date(machine.approachFrom) : null;
  return (
    <WriteForm
      label={`Who approaches ${machine.name}`}
      url={`/api/v1/contests/${slug}/range/machines/${machine.id}/approach`}
      fields={["name"]}
      body={(form) => ({ name: textOf(form, "name"), step: machine.step })}
      submit="Send this one person"
      onDone={onDone}
      refresh={false}
    >
      {(errorFor) => (
        <TextField
          id={`approach-${machine.id}`}
          name="name"
          label={`${machine.name} misfired: who goes there`}
          help={`One person, alone, not before ${momentOf(from)}. The name stands in the tally alone.`}
          required
          autoComplete="off"
          error={errorFor("name")}
        />
      )}
    </WriteForm>
  );
}
