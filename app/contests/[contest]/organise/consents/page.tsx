import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { contestDays } from "@/app/_ui/words";
import { listConsents } from "@/lib/contest";
import { ConsentForm } from "./consent-form";
import { ConsentList } from "./consent-list";

export const generateMetadata = titled("Consents");

export default async function ConsentsPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  await allowed(slug, ["organiser", "safety-officer"]);
  const { features } = await overview(slug);
  const register = await reading((db, who) => listConsents(db, who, slug));
  const drawn = features.filter(({ retired }) => !retired).map(({ id, name, kind }) => ({ id, name, kind }));
  return (
    <>
      <h1>Register of consents</h1>
      <p>
        Who agreed to the range, on what paper, until when. Every one must hold on{" "}
        {contestDays({ date: register.day, lastDate: register.lastDay })}. The register says where the paper
        is; it is not the paper.
      </p>
      <h2>What is missing</h2>
      {register.gaps.length === 0 ? (
        <p>Every consent that this register asks for is entered and holds on the day.</p>
      ) : (
        <ul aria-label="What is missing">
          {register.gaps.map(({ text }) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      )}
      <p className="field-help">
        Which of them to ask for is common practice, from no standard: local codes may ask for more.
      </p>
      <h2>The register</h2>
      <ConsentList slug={slug} consents={register.consents} features={drawn} />
      <h2>Enter a consent</h2>
      <ConsentForm slug={slug} features={drawn} />
    </>
  );
}
