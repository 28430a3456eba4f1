"use client";
/** One change of a badge: a new code, another end, or revoking it. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { localText } from "@/app/_ui/clock-fields";
import { SelectField, TextField } from "@/app/_ui/field";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { BadgeInfo } from "@/lib/api/contracts";
import { endIn } from "./badge-form";
import type { MadeBadge } from "./new-code";

export type Asked = "code" | "end" | "revoke";

export function BadgeChange({
  slug,
  badge: { id, label, role, endsAt },
  own,
  what,
  onCode,
  onDone,
}: {
  slug: string;
  badge: BadgeInfo;
  own: boolean;
  what: Asked;
  onCode: (made: MadeBadge) => void;
  onDone: () => void;
}) {
  const url = `/api/v1/contests/${slug}/badges/${id}`;
  const [devices, setDevices] = useState("add");
  return (
    <>
      {what === "code" && (
        <WriteForm<MadeBadge>
          label={`New code for ${label}`}
          url={`${url}/code`}
          fields={["devices"]}
          body={() => ({ devices })}
          submit={`Make a new code for ${label}`}
          look="plain"
          onDone={(made) => {
            onCode(made);
            onDone();
          }}
        >
          {(errorFor) => (
            <SelectField
              id={`devices-${id}`}
              label="Its devices"
              value={devices}
              onChange={(event) => setDevices(event.target.value)}
              error={errorFor("devices")}
              help="The code before works no more. What a device that is ended had seen before, and delivers later, waits under Rulings until you confirm it."
              choices={[
                { value: "add", label: "go on: the code adds one" },
                ...(own ? [] : [{ value: "replace", label: "end now: the code takes their place" }]),
              ]}
            />
          )}
        </WriteForm>
      )}
      {what === "end" && (
        <WriteForm
          label={`End of ${label}`}
          method="PATCH"
          url={url}
          fields={["endsAt"]}
          body={(form) => ({ endsAt: endIn(form) })}
          submit={`Set the end of ${label}`}
          look="plain"
          onDone={onDone}
        >
          {(errorFor) => (
            <TextField
              id={`end-${id}`}
              name="endsAt"
              type="datetime-local"
              defaultValue={endsAt ? localText(endsAt) : ""}
              label="Ends"
              help={`By this device’s clock. ${role === "organiser" ? "Left empty it has no end. " : ""}Its devices go on without a new code.`}
              error={errorFor("endsAt")}
            />
          )}
        </WriteForm>
      )}
      {what === "revoke" && (
        <WriteForm
          label={`Revoke ${label}`}
          url={`${url}/revoke`}
          body={() => ({})}
          submit={`Yes, revoke ${label}`}
          look="plain"
          onDone={onDone}
        >
          {() => (
            <p>
              Whoever is signed in with it is signed out at once, for good. What its phone had seen before and
              delivers later waits under Rulings until you confirm it.
            </p>
          )}
        </WriteForm>
      )}
      <Button look="quiet" onClick={onDone}>
        Leave it
      </Button>
    </>
  );
}
