"use client";
import { SelectField, TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { ConsentInfo } from "@/lib/api/contracts";
import { CONSENT_TITLES } from "./words";

export interface Named {
  id: string;
  name: string;
}

const FIELDS = ["kind", "party", "reference", "featureId", "givenOn", "expiresOn", "note"] as const;

/** A new consent, or one that is changed. */
export function ConsentForm({
  slug,
  features,
  before,
}: {
  slug: string;
  features: readonly Named[];
  before?: ConsentInfo;
}) {
  const url = `/api/v1/contests/${slug}/consents${before ? `/${before.id}` : ""}`;
  const id = (field: string) => `consent-${before?.id ?? "new"}-${field}`;
  return (
    <WriteForm<ConsentInfo>
      label={before ? `Change the consent of ${before.party}` : "Enter a consent"}
      method={before ? "PATCH" : "POST"}
      url={url}
      fields={FIELDS}
      look={before ? "plain" : "main"}
      submit={before ? "Save the change" : "Enter the consent"}
      body={(form) => ({
        kind: textOf(form, "kind"),
        party: textOf(form, "party"),
        reference: textOf(form, "reference"),
        featureId: textOf(form, "featureId") || null,
        givenOn: textOf(form, "givenOn") || null,
        expiresOn: textOf(form, "expiresOn") || null,
        note: textOf(form, "note"),
      })}
      done={({ party }) => <p>The consent of {party} is in the register.</p>}
    >
      {(errorFor) => (
        <>
          <SelectField
            id={id("kind")}
            name="kind"
            label="Kind"
            defaultValue={before?.kind ?? "landowner"}
            error={errorFor("kind")}
            choices={Object.entries(CONSENT_TITLES).map(([value, label]) => ({ value, label }))}
          />
          <TextField
            id={id("party")}
            name="party"
            label="Who gives it"
            help="A firm or an office where you can. It stays out of the scorebook, but safety files that are frozen keep it."
            required
            defaultValue={before?.party}
            error={errorFor("party")}
          />
          <TextField
            id={id("reference")}
            name="reference"
            label="Where the paper is"
            help="Letter number, folder, page."
            optional
            defaultValue={before?.reference}
            error={errorFor("reference")}
          />
          <SelectField
            id={id("featureId")}
            name="featureId"
            label="About"
            help="An agreement on an overhead line or a road counts for that line or road alone."
            defaultValue={before?.featureId ?? ""}
            error={errorFor("featureId")}
            choices={[
              { value: "", label: "The whole range" },
              ...features.map(({ id: value, name }) => ({ value, label: name })),
            ]}
          />
          <TextField
            id={id("givenOn")}
            name="givenOn"
            type="date"
            label="Given on"
            help="Empty while it is only asked for."
            optional
            defaultValue={before?.givenOn ?? ""}
            error={errorFor("givenOn")}
          />
          <TextField
            id={id("expiresOn")}
            name="expiresOn"
            type="date"
            label="Last day on which it holds"
            help="Empty when it names no end."
            optional
            defaultValue={before?.expiresOn ?? ""}
            error={errorFor("expiresOn")}
          />
          <TextField
            id={id("note")}
            name="note"
            label="Note"
            optional
            defaultValue={before?.note}
            error={errorFor("note")}
          />
        </>
      )}
    </WriteForm>
  );
}
