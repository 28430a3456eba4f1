/**
 * The firing order of a contest of this test's own: the organiser plans the day at a desk; on a team's phone its own
 * turn stands out, follows what is thrown and moved, and is there without a network.
 */
import { afterAll, expect, it } from "vitest";
import type { FiringOrder } from "@/lib/api/contracts";
import { Client } from "@/tests/by-http/client";
import { newJudges } from "@/tests/by-http/fair";
import { codeOf, realFaults, signInWith } from "./fair-visitors";
import { closeBrowser, openPage, programUrl, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

const SLUG = "order-test-fair";
const PLACE = { latitude: 44.3, longitude: -31.6 };
const BASE = `/contests/${SLUG}`;
const API = () => `${programUrl()}/api/v1`;

/** Three teams, each with a machine on one line, and two rounds to throw. */
async function lay() {
  const someone = new Client(API());
  await someone.signIn(codeOf("organiser"));
  const { badge } = await someone.ask<{ badge: { code: string } }>("POST", "/contests", {
    slug: SLUG,
    name: "Order Test Fair",
    date: "2031-10-04",
    ...PLACE,
    height: 20,
    rounds: 2,
  });
  const organiser = new Client(API());
  await organiser.signIn(badge.code);
  const add = (path: string, body: object, method = "POST") =>
    organiser.ask<{ id: string; code: string }>(method, `${BASE}${path}`, body);
  const division = await add("/divisions", { name: "Open" });
  const teams: { id: string; code: string }[] = [];
  for (let number = 1; number <= 3; number++) {
    const point = await add("/firing-points", { ...PLACE, latitude: PLACE.latitude + number * 1e-4 });
    const entrant = await add("/entrants", { divisionId: division.id, name: `Team ${number}` });
    const declaration = {
      machine: { kind: "measured", releaseSpeed: 20 + number, launchAngle: 42, launchHeight: 2 },
      projectile: { mass: 3, diameter: 0.2 },
      tolerances: { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 },
    };
    const machine = await add("/machines", { entrantId: entrant.id, name: `Machine ${number}`, declaration });
    await add(`/machines/${machine.id}/placement`, { firingPointId: point.id, bearing: 90 }, "PATCH");
    const label = `Team ${number}`;
    teams.push({
      ...entrant,
      code: (await add("/badges", { role: "team", label, entrantId: entrant.id })).code,
    });
  }
  const judge = new Client(API());
  const [code] = await newJudges(organiser, SLUG, 1);
  await judge.signIn(code as string);
  return { organiser, code: badge.code, judge, teams };
}

it("the organiser plans the day at a desk, and a team's phone knows its turn, live and without a network", async () => {
  const { code, judge, teams, organiser } = await lay();
  const desk = await visitor("desk");
  await signInWith(desk, code);
  const { page: plan, faults } = await openPage(desk, `${BASE}/organise/rounds`);
  await expect.poll(() => plan.getByLabel("First turn, not before").inputValue()).toBe("2031-10-04T09:00");
  await plan.getByLabel("Measuring, minutes").fill("soon");
  await plan.getByRole("button", { name: "Show what it would come to" }).click();
  await plan.getByText("Measuring: give minutes, such as 4.").waitFor();
  await plan.getByLabel("Measuring, minutes").fill("3");
  await plan.getByRole("button", { name: "Show what it would come to" }).click();
  const ways = plan.getByRole("table", { name: "Ways to throw the rest of the day" });
  await ways.getByRole("row").filter({ hasText: "Plain rota" }).waitFor();
  expect(await seriousFaults(plan)).toEqual([]);
  await plan.getByRole("button", { name: "Make this the order" }).click();
  await plan.getByRole("heading", { name: "Plan the rest of the day anew" }).waitFor();

  const order = () => organiser.ask<FiringOrder>("GET", `${BASE}/firing-order`);
  const { turns } = await order();
  expect(turns).toHaveLength(6);
  const own = teams.find(({ id }) => id === turns[1]?.entrantId);
  const phone = await visitor("phone");
  await signInWith(phone, own?.code ?? "");
  const { page, faults: phoneFaults } = await openPage(phone, `${BASE}/order`);
  await page.getByText("One turn before you.").waitFor();
  const next = page.getByRole("list", { name: "The next turns" });
  expect(await next.getByRole("listitem").count()).toBe(3);
  expect(await next.getByRole("listitem").nth(0).textContent()).toContain(turns[0]?.entrantName);
  expect(await seriousFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);

  await judge.ask("POST", `${BASE}/shots/${turns[0]?.shotId}/fixes`, { fix: { outcome: "foul" } });
  await page.getByText("You are up.").waitFor();
  // Passed over at the desk: the phone hears of it.
  await plan.getByRole("heading", { name: "Round 1, 1 of 3 thrown" }).waitFor();
  // By its head: every row names the other teams, after which its own turn may come.
  const head = plan.getByRole("rowheader").filter({ hasText: turns[1]?.entrantName ?? "" });
  const row = plan.getByRole("row").filter({ has: head }).first();
  await row.getByText("Pass over or move").click();
  await row.getByLabel("Why").fill("Sling torn");
  await row.getByRole("button", { name: "Move it" }).click();
  await page.getByText("One turn before you.").waitFor();
  await page.getByText(/moved: Sling torn/).waitFor();

  await page.getByText("Without a network this page opens from this phone").waitFor();
  await phone.setOffline(true);
  await page.reload();
  await page.getByText("One turn before you.").waitFor();
  await page.getByText("the server is not heard").waitFor();
  expect([realFaults(faults), realFaults(phoneFaults)]).toEqual([[], []]);
  await phone.close();
  await desk.close();
}, 120_000);
