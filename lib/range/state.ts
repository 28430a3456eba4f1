/** What is known of a range. Plain data: it is stored as JSON. Instants in ms, durations in s. */

export const MACHINE_STATES = ["safe", "raising", "armed", "fired", "misfired"] as const;
export type MachineState = (typeof MACHINE_STATES)[number];

/** The safety officer's. All defaults are common practice, no source. */
export interface Times {
  /** A lease or a post that was not heard for so long has lapsed, s. */
  silence: number;
  /** A post's clear counts so long, s. */
  clearLasts: number;
  /** Nobody goes near a machine that misfired before this, s. */
  misfireWait: number;
}
export const TIMES: Times = { silence: 10, clearLasts: 600, misfireWait: 600 };

export interface Hold {
  id: string;
  /** When it was pressed. */
  at: number;
  /** The badge's label; null: the program itself. */
  by: string | null;
  why: string;
}

/** A lease: it lapses when it is no longer heard. */
export interface Hot {
  id: string;
  machineId: string;
  since: number;
  heardAt: number;
}

export interface Clear {
  /** The phone on which it was said; it must be heard on. */
  phone: string;
  at: number;
  heardAt: number;
  /** Whoever stood there has left the post. */
  left: boolean;
}

export interface Machine {
  state: MachineState;
  /** Counts its changes, so that one that comes late is known as late. */
  step: number;
  since: number;
  /** The tag of the one person who approaches after a misfire. */
  approach: string | null;
}

export interface RangeState {
  /** Counts up whenever what posts have said and what was ticked falls. */
  turn: number;
  /** Those that stand, oldest first. */
  holds: Hold[];
  /** Ids of holds that came before, newest last: none counts twice. */
  known: string[];
  liftedAt: number | null;
  hot: Hot | null;
  /** By post. */
  clears: Record<string, Clear>;
  /** Of one machine's stand-clear list, as its zone was then. */
  ticked: { machineId: string; version: string; keys: string[] } | null;
  /** Tags that are out. */
  out: string[];
  /** By machine; one that is not here is made safe. */
  machines: Record<string, Machine>;
  times: Times;
}

export const freshRange = (): RangeState => ({
  turn: 1,
  holds: [],
  known: [],
  liftedAt: null,
  hot: null,
  clears: {},
  ticked: null,
  out: [],
  machines: {},
  times: TIMES,
});

/** What hangs on the site, the permits and the zones. */
export interface Facts {
  posts: readonly { id: string; name: string }[];
  machines: readonly {
    id: string;
    name: string;
    /** Who or what with people lies in its zone, its own crew aside; null where no zone is known. */
    holds: readonly string[] | null;
    /** The machines that stand in its zone. */
    reaches: readonly string[];
  }[];
  /** Of machines that are to fire. */
  firing: Readonly<Record<string, Firing>>;
}

export interface Firing {
  /** Its stand-clear list. */
  list: readonly { key: string; name: string }[];
  /** Of the zone that the list is of: a tick counts for this one alone. */
  version: string;
  /** Posts in its zone, without cover: whoever stands there leaves. */
  mustLeave: readonly string[];
  /** Why it has no zone; null when it has. */
  noZone: string | null;
  /** Why no permit stands; empty when one does. */
  permit: readonly string[];
}

const SAFE: Machine = { state: "safe", step: 0, since: 0, approach: null };
export const machineOf = ({ machines }: Pick<RangeState, "machines">, id: string): Machine =>
  machines[id] ?? SAFE;

/** Whether something was not heard for too long; a clock that was set back tells nothing, and counts as silence. */
export const isSilent = ({ heardAt }: { heardAt: number }, at: number, { silence }: Times): boolean =>
  Math.abs(at - heardAt) > silence * 1000;

export const nameIn = (list: readonly { id: string; name: string }[], id: string): string =>
  list.find((each) => each.id === id)?.name ?? "A machine that is not on this range";

/** All that was said for one turn falls with it. */
export const nextTurn = (state: RangeState): RangeState => ({
  ...state,
  turn: state.turn + 1,
  clears: {},
  ticked: null,
});
