"use client";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { CheckField, TextField } from "@/app/_ui/field";
/** The crew: whom to reach, who is a minor, and what a minor's guardian agrees to. */
import { contestDays } from "@/app/_ui/words";
import styles from "./enter.module.css";
import { type DraftPerson, newPerson } from "./kept-entry";
import type { OnEntry } from "./use-own-entry";

const MOST = 40;

export function PeoplePart({ slug, entry: { own, draft, setValues } }: { slug: string; entry: OnEntry }) {
  const { people } = draft.values;
  const { consentText, keepDays, keptUntil } = own.invitation;
  const form = `/contests/${slug}/enter/consent-form?days=${keepDays}`;
  const set = (id: string, change: Partial<DraftPerson>) =>
    setValues({ people: people.map((person) => (person.id === id ? changed(person, change) : person)) });
  return (
    <>
      <p>
        Everybody who works at the machine. For the organiser and the safety officer alone; erased after{" "}
        {contestDays({ date: keptUntil })}.
      </p>
      <ol className={styles.people}>
        {people.map((person, index) => (
          <li key={person.id}>
            <fieldset className={styles.person}>
              <legend>{person.name || `Person ${index + 1}`}</legend>
              <PersonFields
                form={form}
                person={person}
                number={index + 1}
                consentText={consentText}
                onChange={(change) => set(person.id, change)}
                onCaptain={() =>
                  setValues({ people: people.map((each) => ({ ...each, captain: each.id === person.id })) })
                }
              />
              {people.length > 1 && (
                <Button onClick={() => setValues({ people: people.filter(({ id }) => id !== person.id) })}>
                  Take {person.name || `person ${index + 1}`} out
                </Button>
              )}
            </fieldset>
          </li>
        ))}
      </ol>
      {people.length < MOST && (
        <p className="button-row">
          <Button onClick={() => setValues({ people: [...people, newPerson(people.length === 0)] })}>
            Add a person
          </Button>
        </p>
      )}
    </>
  );
}

/** A consent is this guardian's for this minor: with another name it falls. */
function changed(person: DraftPerson, change: Partial<DraftPerson>): DraftPerson {
  const names = ["name", "guardianName", "consentWay", "ofAge"] as const;
  const falls = names.some((name) => name in change && change[name] !== person[name]);
  return { ...person, ...(falls && { agreedTo: null, consentAt: null }), ...change };
}

function PersonFields({
  form,
  person,
  number,
  consentText,
  onChange,
  onCaptain,
}: {
  /** The consent on paper. */
  form: string;
  person: DraftPerson;
  number: number;
  consentText: string;
  onChange: (change: Partial<DraftPerson>) => void;
  onCaptain: () => void;
}) {
  const { captain, ofAge } = person;
  const id = (field: string) => `person-${number}-${field}`;
  return (
    <>
      <TextField
        id={id("name")}
        label="Name"
        maxLength={80}
        value={person.name}
        onChange={(event) => onChange({ name: event.target.value })}
      />
      <CheckField
        id={id("captain")}
        label="Captain: leads the crew, and is whom the organiser calls"
        checked={captain}
        onChange={() => !captain && onCaptain()}
      />
      <TextField
        id={id("contact")}
        label="Telephone or e-mail"
        optional={!captain}
        maxLength={120}
        value={person.contact}
        onChange={(event) => onChange({ contact: event.target.value })}
      />
      <ChoiceTiles
        id={id("age")}
        legend="Age on the day"
        value={ofAge === null ? null : ofAge ? "of-age" : "minor"}
        onChange={(chosen) => onChange({ ofAge: chosen === "of-age" })}
        choices={[
          { value: "of-age", label: "Of age" },
          { value: "minor", label: "A minor", note: "A guardian must agree" },
        ]}
      />
      {ofAge === false && (
        <>
          <TextField
            id={id("guardian")}
            label="Guardian’s name"
            maxLength={80}
            value={person.guardianName}
            onChange={(event) => onChange({ guardianName: event.target.value })}
          />
          <TextField
            id={id("guardian-contact")}
            label="Guardian’s telephone during the contest"
            maxLength={120}
            value={person.guardianContact}
            onChange={(event) => onChange({ guardianContact: event.target.value })}
          />
          <ChoiceTiles
            id={id("way")}
            legend="How the guardian agrees"
            value={person.consentWay}
            onChange={(consentWay) => onChange({ consentWay })}
            choices={[
              { value: "here", label: "Reads and ticks it here" },
              { value: "paper", label: "Signs on paper", note: "The organiser sees it" },
            ]}
          />
          {person.consentWay === "here" ? (
            <div className={styles.consent}>
              <p>{consentText}</p>
              <CheckField
                id={id("agreed")}
                label={`I am ${person.guardianName || "the guardian"}, and I agree to this for ${person.name || "this minor"}.`}
                help={
                  person.guardianName && person.name ? undefined : "Enter both names first: it is for these."
                }
                disabled={!person.guardianName || !person.name}
                checked={person.agreedTo !== null}
                onChange={(event) => onChange({ agreedTo: event.target.checked ? consentText : null })}
              />
            </div>
          ) : (
            <p>
              {person.consentAt ? "✓ The organiser has seen the signed form. " : ""}
              <a href={form} target="_blank" rel="noreferrer">
                Form to print and sign
              </a>
              . Bring or send it to the organiser, who marks it as seen.
            </p>
          )}
        </>
      )}
    </>
  );
}
