/** What this phone keeps for itself, in IndexedDB: entries that the server does not have, and pages' last data. */
import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { FixRequest, IncidentRequest, JudgeView, Problem, SightingRequest } from "@/lib/api/contracts";

/** What the server has not answered for. */
interface KeptBase {
  /** Its idempotency key: the same with every try. */
  key: string;
  slug: string;
  /** The badge that made it, which alone may send it: keys count by badge. Null for whoever is signed in. */
  owner: string | null;
  url: string;
  shotId: string;
  /** "Round 3, 5 Gourd Gliders". */
  title: string;
  /** "132.44 m" or "foul", "123° from Oak". */
  result: string;
  /** ISO 8601. */
  madeAt: string;
  /** It may have reached the server: from then on it can only be sent again, not changed. */
  tried: boolean;
  /** What the server said when it would not take it. */
  refused: Problem | null;
}

/** A judge's entry of a shot. */
export interface KeptEntry extends KeptBase {
  /** The first version kept nothing else, and did not say so. */
  kind?: "fix";
  body: FixRequest;
}
/** A spotter's sighting. */
export interface KeptSighting extends KeptBase {
  kind: "sighting";
  body: SightingRequest;
}
/** An incident, of no shot. */
export interface KeptIncident extends KeptBase {
  kind: "incident";
  body: IncidentRequest;
}
export type KeptWrite = KeptEntry | KeptSighting | KeptIncident;

export const isEntry = (kept: KeptWrite): kept is KeptEntry => kept.kind === undefined || kept.kind === "fix";
export const isSighting = (kept: KeptWrite): kept is KeptSighting => kept.kind === "sighting";

/** A judge's view as this phone last knew it. */
export interface KeptView {
  id: string;
  view: JudgeView;
  /** By the server's clock, ISO 8601. */
  at: string;
}

interface Kept extends DBSchema {
  entries: { key: string; value: KeptWrite; indexes: { slug: string } };
  views: { key: string; value: KeptView };
}

let opened: Promise<IDBPDatabase<Kept>> | null = null;

/** Rejects where the browser stores nothing. */
export function phoneDatabase(): Promise<IDBPDatabase<Kept>> {
  opened ??= openDB<Kept>("fairthrow", 1, {
    upgrade(database) {
      database.createObjectStore("entries", { keyPath: "key" }).createIndex("slug", "slug");
      database.createObjectStore("views", { keyPath: "id" });
    },
    // Another tab of a newer version must not wait for this one; the next use opens it again.
    blocking: (_now, _wanted, event) => {
      (event.target as IDBDatabase).close();
      opened = null;
    },
    terminated: () => {
      opened = null;
    },
  });
  opened.catch(() => {
    opened = null;
  });
  return opened;
}
