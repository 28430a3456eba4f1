/** People at the demo contest: a page signed in by role, and what the API says of the contest. */
import type { BrowserContext, Page } from "playwright-core";
import type { ContestOverview, Role, ShotHistory, ShotInfo, Standings, Zones } from "@/lib/api/contracts";
import { openPage, programUrl, type Screen, visitor } from "./support";

interface SignIn {
  role: Role;
  label: string;
  code: string;
}

/** The code of the demo's first badge of a role. */
export function codeOf(role: Role): string {
  const signIns = JSON.parse(process.env.FAIRTHROW_TEST_SIGN_INS ?? "[]") as SignIn[];
  const found = signIns.find((signIn) => signIn.role === role);
  if (!found)
    throw new Error(`FAIRTHROW_TEST_SIGN_INS holds no ${role}: use \`npm test\`, which starts one.`);
  return found.code;
}

let keys = 0;
export const newTestKey = () => `browser-test-${process.pid}-${Date.now()}-${++keys}`;

export const signIn = (context: BrowserContext, role: Role) => signInWith(context, codeOf(role));

export async function signInWith(context: BrowserContext, code: string): Promise<void> {
  await sendAs(context, "/sign-in", { code });
}

/** A write as whoever is signed in there; throws when it is refused. */
export async function sendAs<T>(context: BrowserContext, path: string, data: object): Promise<T> {
  const answer = await context.request.post(`/api/v1${path}`, {
    data,
    headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
  });
  if (!answer.ok()) throw new Error(`POST ${path}: ${answer.status()} ${await answer.text()}`);
  return (await answer.json()) as T;
}

/** A contest of a test's own; whoever is in this context is its organiser then. Answers how to lay things out there. */
export async function ownContest(context: BrowserContext, body: { slug: string; [field: string]: unknown }) {
  await signIn(context, "organiser");
  const { badge } = await sendAs<{ badge: { code: string } }>(context, "/contests", body);
  await signInWith(context, badge.code);
  return <T = { id: string }>(path: string, data: object) =>
    sendAs<T>(context, `/contests/${body.slug}${path}`, data);
}

/** One of them with one machine, exact but for its usual tolerances; `place` aims it. */
export async function contestWithMachine(
  context: BrowserContext,
  { slug, name, at }: { slug: string; name: string; at: { latitude: number; longitude: number } },
) {
  const contest = { slug, name, date: "2031-10-04", ...at, height: 50, rounds: 1 };
  const lay = await ownContest(context, contest);
  const { id: divisionId } = await lay("/divisions", { name: "Open" });
  const { id: entrantId } = await lay("/entrants", { divisionId, name: "Gate Latch Society" });
  const { id: firingPointId } = await lay("/firing-points", at);
  const { id: machineId } = await lay("/machines", {
    entrantId,
    name: "Slow Gate",
    declaration: {
      machine: { kind: "measured", releaseSpeed: 20, launchAngle: 42, launchHeight: 2 },
      projectile: { mass: 3, diameter: 0.2 },
    },
  });
  const place = (bearing: number) =>
    context.request.patch(`/api/v1/contests/${slug}/machines/${machineId}/placement`, {
      data: { firingPointId, bearing },
      headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
    });
  return { lay, machineId, place };
}

/** A page of the contest as someone of this role sees it, null for anyone. */
export async function openAs(role: Role | null, screen: Screen, path: string) {
  const context = await visitor(screen);
  if (role) await signIn(context, role);
  const opened = await openPage(context, path);
  return { ...opened, context, done: () => context.close() };
}

async function fromApi<T>(path: string): Promise<T> {
  const answer = await fetch(`${programUrl()}/api/v1${path}`);
  if (!answer.ok) throw new Error(`GET ${path}: ${answer.status}`);
  return (await answer.json()) as T;
}

let slug: Promise<string> | undefined;
/** Of the demo contest. */
export function contestSlug(): Promise<string> {
  slug ??= fromApi<{ contests: { slug: string; demo: boolean }[] }>("/contests").then(({ contests }) => {
    const demo = contests.find((contest) => contest.demo);
    if (!demo) throw new Error("The program under test has no demo contest.");
    return demo.slug;
  });
  return slug;
}

export const contestPath = async (part = "") => `/contests/${await contestSlug()}${part}`;
export const overviewOf = async () => fromApi<ContestOverview>(`/contests/${await contestSlug()}`);
export const zonesOf = async () => fromApi<Zones>(`/contests/${await contestSlug()}/zones`);
export const historyOf = async (shot: string) =>
  fromApi<ShotHistory>(`/contests/${await contestSlug()}/shots/${shot}`);
export const standingsOf = async () => fromApi<Standings>(`/contests/${await contestSlug()}/standings`);
export const shotsOf = async (round?: number) =>
  (
    await fromApi<{ shots: ShotInfo[] }>(
      `/contests/${await contestSlug()}/shots${round === undefined ? "" : `?round=${round}`}`,
    )
  ).shots;

/** Faults that are not the lack of a network or a refusal that the test asked for. */
export const realFaults = (faults: readonly string[]) =>
  faults.filter((fault) => !/ERR_INTERNET_DISCONNECTED|ERR_FAILED|status of 4\d\d/.test(fault));

/** Presses Tab until the focus is on what the selector names: keyboard alone must get there. */
export async function tabTo(page: Page, selector: string): Promise<void> {
  for (let presses = 0; presses < 150; presses++) {
    await page.keyboard.press("Tab");
    if (await page.locator(`${selector}:focus`).count()) return;
  }
  throw new Error(`Tab never reaches ${selector}`);
}
