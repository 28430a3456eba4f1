import Link from "next/link";
import { ButtonLink } from "@/app/_ui/button";
import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { contestDays } from "@/app/_ui/words";
import { listEntries, listHeldFixes } from "@/lib/contest";
import { isLoosened } from "@/lib/zones/kinds";
import styles from "./organise.module.css";

export const generateMetadata = titled("Organise");

const some = (count: number, one: string, many: string) => `${count} ${count === 1 ? one : many}`;

export default async function OrganisePage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const contest = await overview(slug);
  const { waiting: toConfirm } = await reading((db, asking) => listHeldFixes(db, asking, slug));
  const entries = await reading((db, asking) => listEntries(db, asking, slug));
  const sent = entries.filter(({ state }) => state === "sent");
  const organiser = who.role === "organiser";
  const placed = contest.machines.filter(({ firingPointId, bearing }) => firingPointId && bearing !== null);
  const features = contest.features.filter(({ retired }) => !retired);
  const machines = contest.machines.filter(({ retired }) => !retired);
  const undeclared = machines.filter(({ revision }) => revision === null);
  const points = contest.firingPoints.filter(({ retired }) => !retired);
  const waiting = features.filter((feature) => isLoosened(feature) && !feature.allowance);
  const pegs = contest.controlPoints.filter(({ retired }) => !retired);
  const lastRound =
    contest.roundsMade.find(({ shots, entered }) => entered < shots) ?? contest.roundsMade.at(-1);
  const steps = [
    {
      at: "contest",
      title: "The contest itself",
      state: `${contestDays(contest)}${contest.place ? `, ${contest.place}` : ""}; ${some(contest.rounds, "round", "rounds")}`,
      mine: organiser,
    },
    {
      at: "teams",
      title: "Divisions and teams",
      state: `${some(contest.divisions.length, "division", "divisions")}, ${some(contest.entrants.length, "team", "teams")}`,
      mine: organiser,
    },
    {
      at: "entries",
      title: "Entries by teams themselves",
      state:
        sent.length > 0
          ? `${some(sent.length, "entry waits", "entries wait")} for your answer`
          : entries.length > 0
            ? `${some(entries.length, "entry", "entries")}, none waits`
            : "A link for teams; people, consents, insurance, photographs",
      mine: organiser,
    },
    {
      at: "site",
      title: "Site features and firing points",
      state: `${some(features.length, "feature", "features")}, ${some(points.length, "firing point", "firing points")}, ${some(pegs.length, "control point", "control points")}${
        features.some(({ kind }) => kind === "boundary") ? "" : "; no boundary yet"
      }`,
      mine: organiser,
    },
    {
      at: "exchange",
      title: "The site in and out of files",
      state: "GeoJSON, KML, GPX, CSV, and the list of pegs to set out",
      mine: organiser,
    },
    {
      at: "machines",
      title: "Machines and where they stand",
      state: `${some(machines.length, "machine", "machines")}, ${placed.length} placed${
        undeclared.length > 0 ? `, ${undeclared.length} not declared yet` : ""
      }`,
      mine: true,
    },
    {
      at: "conditions",
      title: "Policy, air and protections",
      state: `Margins, angles, least distances, and the wind machines may fire in: the safety officer’s${
        waiting.length > 0 ? `; ${some(waiting.length, "protection", "protections")} to allow or not` : ""
      }`,
      mine: !organiser,
    },
    {
      at: "consents",
      title: "Register of consents",
      state: "Landowner, neighbours, utility, road, aerodrome, fire service, insurer: who agreed, until when",
      mine: true,
    },
    {
      at: "safety-plan",
      title: "Safety plan",
      state: "Emergency, who stops the range, weather limits, briefings",
      mine: true,
    },
    {
      at: "badges",
      title: "Badges",
      state: "How officials and teams sign in",
      mine: organiser,
    },
    {
      at: "rounds",
      title: "Firing order",
      state: lastRound
        ? `Round ${lastRound.round}: ${lastRound.entered} of ${lastRound.shots} shots entered`
        : "No round made yet",
      mine: organiser,
    },
    {
      at: "marking",
      title: "Marks and protests",
      state: "From where marks count, to which place, in which unit; the landing sector; time for protests",
      mine: organiser,
    },
    {
      at: "rulings",
      title: "Rulings and protests",
      state:
        toConfirm.length > 0
          ? `${some(toConfirm.length, "entry of an ended badge waits", "entries of ended badges wait")} to be confirmed`
          : "Did not start, did not finish, foul, re-throw, and back; which entry counts; answers to protests",
      mine: true,
    },
  ];
  return (
    <>
      <h1>Organise {contest.name}</h1>
      <p>
        You are signed in as {who.label}. What is not yours to change is there to read; the server holds to it
        too.
      </p>
      <ol className={styles.steps}>
        {steps.map((step) => (
          <li key={step.at}>
            <Link href={`/contests/${slug}/organise/${step.at}`} prefetch={false}>
              {step.title}
            </Link>
            <span>
              {step.state}
              {!step.mine && " (to read)"}
            </span>
          </li>
        ))}
      </ol>
      <p>
        <Link href={`/contests/${slug}/placing`} prefetch={false}>
          Where machines stand and aim
        </Link>
        : clear bearings, cures for what a zone touches, and a place for every machine on the map.
      </p>
      <p>
        <Link href={`/contests/${slug}/clearance`} prefetch={false}>
          Inspections and firing permits
        </Link>
        : which machine was inspected, whose permit stands, and why another’s has fallen.
      </p>
      <p>
        <Link href={`/contests/${slug}/incidents`} prefetch={false}>
          Incidents
        </Link>
        : what failed, where pieces went, whether the zone held them. Never public.
      </p>
      <h2>On paper</h2>
      <p className="button-row">
        <ButtonLink href={`/contests/${slug}/range-plan`}>Range plan to scale</ButtonLink>
        <ButtonLink href={`/contests/${slug}/order/paper`}>Firing order to fill in by hand</ButtonLink>
        <ButtonLink href={`/contests/${slug}/order/tally`}>Tally sheet to fill in by hand</ButtonLink>
        <ButtonLink href={`/contests/${slug}/landing-log`}>Landing log to fill in by hand</ButtonLink>
        <ButtonLink href={`/contests/${slug}/incidents/paper`}>Incident form to fill in by hand</ButtonLink>
        <ButtonLink href={`/contests/${slug}/safety-file`}>
          Safety file for insurer, landowner and emergency services
        </ButtonLink>
      </p>
    </>
  );
}
