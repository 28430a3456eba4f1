/** A team that enters itself through the route files. */
import { randomBytes } from "node:crypto";
import { type Answer, declaration, expecting, type Fair, send } from "./fair";

export const later = (hours = 24) => new Date(Date.now() + hours * 3600_000).toISOString();
export const newSecret = () => randomBytes(32).toString("base64url");
const bearer = (token: string) => ({ authorization: `Bearer ${token}` });

export interface Team {
  secret: string;
  ask: (status: number, method: string, path: string, body?: unknown) => Promise<Answer>;
  read: () => Promise<Answer>;
  /** Keeps the draft at the version that stands, and gives back that version. */
  save: (draft: object) => Promise<number>;
  photograph: (bytes: Uint8Array, subject?: string) => Promise<Response>;
}

export async function beginEntry(fair: Fair, token: string): Promise<Team> {
  const secret = newSecret();
  const { base } = fair;
  const headers = bearer(secret);
  await expecting(201, "POST", `${base}/entries`, { headers: bearer(token), body: { secret } });
  const ask: Team["ask"] = (status, method, path, body) =>
    expecting(status, method, `${base}/entries/own${path}`, { headers, body });
  const read = () => ask(200, "GET", "");
  return {
    secret,
    ask,
    read,
    save: async (draft) => {
      const { version } = (await read()).entry;
      return (await ask(200, "PUT", "", { ...draft, version })).version;
    },
    photograph: (bytes, subject = "machine") =>
      send("POST", `${base}/entries/own/photographs?subject=${subject}`, { headers, bytes }),
  };
}

export const newLink = (fair: Fair, more: object = {}) =>
  fair.lay("POST", "/entry-links", { endsAt: later(), ...more });

export const CAPTAIN = {
  id: "captain-0123456789",
  name: "Odalys Brand",
  contact: "odalys@crew.example",
  captain: true,
  ofAge: true,
};

/** Complete but for what is changed. */
export const fullDraft = (fair: Fair, change: object = {}) => ({
  team: "Fence Post Society",
  divisionId: fair.divisionId,
  machineName: "Long Wait",
  declaration: declaration(),
  ownNumbers: true,
  insurance: {
    insurer: "Field Mutual",
    number: "FM-7781",
    validUntil: "2031-12-31",
    coversThrowing: true,
  },
  people: [CAPTAIN],
  ...change,
});
