"use client";
/** Where something landed, asked of the machine that the calculator holds. */
import Link from "next/link";
import { useEffect, useRef, useState } from "react";
import { Button, ButtonLink } from "@/app/_ui/button";
import { kindTitle } from "@/app/_ui/hazard-sheet/words";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import "@/app/_ui/machine-form/machine-form.css";
import "@/app/_ui/throw-pictures/pictures.css";
import { keep, kept } from "@/app/_ui/browser-memory";
import { formToHash } from "@/app/_ui/machine-form/form/link";
import { type FieldErrors, problemErrors, readForm } from "@/app/_ui/machine-form/form/request";
import { LinkNotice } from "@/app/_ui/machine-form/link-notice";
import { Explanations } from "@/app/_ui/replay/explanations";
import { LandingFields } from "@/app/_ui/replay/landing-fields";
import {
  type LandingForm,
  landingFromText,
  readLanding,
  startingLanding,
} from "@/app/_ui/replay/landing-form";
import { useForm } from "../use-form";
import "@/app/_ui/replay/replay.css";
import { type Problem, useReplay } from "./use-replay";

const LANDING_KEY = "fairthrow-replay";

export function AccidentReplay() {
  const system = useUnits();
  const [machine, , loaded, link] = useForm();
  const [landing, setLanding] = useState<LandingForm>(() => startingLanding(system));
  const [remembered, setRemembered] = useState(false);
  const [errors, setErrors] = useState<FieldErrors>({});
  const { answered, asked, ask } = useReplay();
  const result = useRef<HTMLDivElement>(null);

  useEffect(() => {
    if (remembered) return;
    const before = landingFromText(kept(LANDING_KEY), system);
    if (before) setLanding(before);
    setRemembered(true);
  }, [remembered, system]);
  useEffect(() => {
    if (remembered) keep(LANDING_KEY, JSON.stringify(landing));
  }, [remembered, landing]);

  const reading = loaded ? readForm(machine) : null;
  const body = () => {
    const place = readLanding(landing, system);
    if (!place.ok || !reading?.ok) return null;
    return { request: reading.body, landing: place.landing, found: landing.found, place: landing.place };
  };
  const askNow = async () => {
    const place = readLanding(landing, system);
    setErrors(place.ok ? {} : place.errors);
    const question = body();
    if (!question) {
      const [first] = place.ok ? [] : Object.keys(place.errors);
      if (first) document.getElementById(`landing-${first}`)?.focus();
      return;
    }
    await ask(question, machine.kind);
    requestAnimationFrame(() => result.current?.focus());
  };
  const refused = asked.state === "refused" ? asked.problem : null;
  const shown = { ...landingErrors(refused), ...errors };
  const moved = answered && JSON.stringify(body()) !== answered.body;

  return (
    <div className="calculator">
      <LinkNotice {...link} />
      <section aria-labelledby="replay-machine">
        <h2 id="replay-machine">The machine</h2>
        <p>
          {kindTitle(machine.kind)}, with its projectile, wind, ground and tolerances as they stand in the
          calculator.
        </p>
        {reading && !reading.ok ? (
          <Notice kind="problem" title="The calculator's numbers cannot be computed yet">
            <Sentences errors={reading.errors} />
          </Notice>
        ) : null}
        <p className="button-row">
          <ButtonLink href={`/calculator#${formToHash(machine)}`}>Change it in the calculator</ButtonLink>
        </p>
      </section>
      <section aria-labelledby="replay-place">
        <h2 id="replay-place">Where it landed</h2>
        <LandingFields landing={landing} onChange={setLanding} errors={shown} />
        <p className="button-row">
          <Button look="main" onClick={askNow} aria-disabled={asked.state === "asking"}>
            {asked.state === "asking" ? "Searching…" : "Find what explains it"}
          </Button>
        </p>
      </section>
      <section aria-label="Explanations">
        <div ref={result} tabIndex={-1} className="result">
          <p className="aloud" role="status">
            {asked.state === "asking" ? "Searching." : answered ? "The explanations are below." : ""}
          </p>
          {refused ? (
            <Notice kind="problem" title="Not answered">
              <Sentences errors={requestErrors(refused, machine)} />
            </Notice>
          ) : null}
          {answered ? (
            <>
              <h2>What the model says</h2>
              {moved ? (
                <Notice title="Of earlier numbers">Ask again: the numbers have changed since.</Notice>
              ) : null}
              <Explanations answered={answered} system={system} />
              <p>
                The zone and what may break stand on the <Link href="/calculator">hazard sheet</Link>.
              </p>
            </>
          ) : null}
        </div>
      </section>
    </div>
  );
}

/** The fields of these stand in the calculator, not on this page. */
const Sentences = ({ errors }: { errors: FieldErrors }) => (
  <ul>
    {Object.entries(errors).map(([path, message]) => (
      <li key={path}>{message}</li>
    ))}
  </ul>
);

/** What the server refused of the landing, by field. */
function landingErrors(problem: Problem | null): FieldErrors {
  const errors: Record<string, string> = {};
  for (const { field, message } of problem?.errors ?? []) {
    if (field.startsWith("landing.")) errors[field.slice("landing.".length)] = message;
  }
  return errors;
}

/** What it refused of the machine, in the calculator's words. */
function requestErrors(problem: Problem, machine: Parameters<typeof problemErrors>[0]): FieldErrors {
  const errors = (problem.errors ?? []).map(({ field, message }) => ({
    field: field.replace(/^request\./, ""),
    message,
  }));
  return problemErrors(machine, { ...problem, errors });
}
