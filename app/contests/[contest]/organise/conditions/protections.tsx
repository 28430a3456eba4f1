"use client";
/** Site features that are to be protected less than their kind is: each for the safety officer to allow or not. */
import { Caution } from "@/app/_ui/caution";
import { TextField } from "@/app/_ui/field";
import { RULE_WORDS } from "@/app/_ui/site-editor/rules";
import { useUnits } from "@/app/_ui/units";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { ContestOverview } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { featureKind, isLoosened, ruleOf, standOffOf } from "@/lib/zones/kinds";

type Feature = ContestOverview["features"][number];

/** "protected always, 10 m away" */
function words(feature: Parameters<typeof standOffOf>[0], system: UnitSystem): string {
  return `${RULE_WORDS[ruleOf(feature)]}, ${formatQuantity(standOffOf(feature), "distance", system)} away`;
}

export function Protections({
  slug,
  features,
  mayAllow,
}: {
  slug: string;
  features: readonly Feature[];
  mayAllow: boolean;
}) {
  const system = useUnits();
  const loosened = features.filter((feature) => !feature.retired && isLoosened(feature));
  if (loosened.length === 0) return <p>Every site feature is protected as much as its kind is, or more.</p>;
  return (
    <>
      {loosened.map((feature) => {
        const asked = words({ ...feature, allowance: "asked" }, system);
        const { kind, title } = featureKind(feature.kind);
        return (
          <section key={feature.id} aria-labelledby={`protection-${feature.id}`}>
            <h3 id={`protection-${feature.id}`}>
              {feature.name} ({title.toLowerCase()})
            </h3>
            <p>
              Asked for: {asked}. Its kind by itself: {words({ kind }, system)}.{" "}
              {feature.allowance
                ? `Allowed: ${feature.allowance}`
                : "Not allowed: its kind’s rule and stand-off hold."}
            </p>
            {mayAllow && <AllowForm slug={slug} feature={feature} asked={asked} />}
          </section>
        );
      })}
    </>
  );
}

function AllowForm({ slug, feature, asked }: { slug: string; feature: Feature; asked: string }) {
  const { id, name, rule, standOff, geometry, allowance } = feature;
  const allowed = !allowance;
  return (
    <WriteForm
      key={String(allowed)}
      label={`${allowed ? "Allow" : "Take back"} for ${name}`}
      method="PUT"
      url={`/api/v1/contests/${slug}/features/${id}/allowance`}
      fields={["reason"]}
      body={(form) => ({
        allowed,
        ...(allowed && { rule, standOff, geometry }),
        reason: textOf(form, "reason"),
      })}
      submit={allowed ? `Allow ${name}: ${asked}` : `Take back what was allowed for ${name}`}
      look="plain"
    >
      {(errorFor) => (
        <>
          {allowed && (
            <Caution kind="mandatory" title="your allowance lets a zone come nearer to people">
              <p>
                It stands as long as the feature keeps this rule, stand-off and outline. Local codes come
                first.
              </p>
            </Caution>
          )}
          <TextField
            id={`allow-${id}`}
            name="reason"
            label={allowed ? "Why less is enough here" : "Why it is taken back"}
            help="Stands in the scorebook, on the map and in the safety file: no person’s name."
            required
            error={errorFor("reason")}
          />
        </>
      )}
    </WriteForm>
  );
}
