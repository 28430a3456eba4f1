import type { Metadata } from "next";
import Link from "next/link";
import { Caution } from "@/app/_ui/caution";
import { wholeDistance } from "@/app/_ui/kept-distance";
import { PrintButton } from "@/app/_ui/print-button";
import { readerUnits } from "@/app/_ui/reader-units";
import { overview, reading } from "@/app/_ui/reading";
import { bearingText, instantText } from "@/app/_ui/words";
import { WrittenLines } from "@/app/_ui/written-lines";
import { machineClearance, machinePage, windOfDay } from "@/lib/contest";
import { widestLimits } from "@/lib/inspection";
import { Standing } from "../../standing";
import { limitRows } from "../../words";
import styles from "./permit.module.css";

type Props = { params: Promise<{ contest: string; machine: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { contest: slug, machine: id } = await params;
  const name = (await overview(slug)).machines.find((machine) => machine.id === id)?.name ?? "machine";
  return { title: `Firing permit of ${name}` };
}

/** One page: the permit that stands, or one to be filled in and signed by hand where there is no computer. */
export default async function PermitPaper({ params }: Props) {
  const { contest: slug, machine: id } = await params;
  const contest = await overview(slug);
  const system = await readerUnits(contest.units);
  const { page, clearance, wind } = await reading(async (db, who) => ({
    page: await machinePage(db, who, slug, id),
    clearance: await machineClearance(db, who, slug, id),
    wind: await windOfDay(db, slug),
  }));
  const { machine, entrant, revisions, current, firingPoint } = page;
  const [newest] = revisions;
  const [permit = null] = clearance.permits;
  const signed = permit?.state === "fallen" ? null : permit;
  const limits =
    signed?.limits ?? (newest ? widestLimits(newest.declaration, contest.policy, wind.limit) : null);
  const distance = (metres: number) => wholeDistance(metres, system, "up");
  const blank = <span className={styles.blank}>&nbsp;</span>;
  const rows: { label: string; text: React.ReactNode }[] = [
    { label: "Contest", text: contest.name },
    { label: "Machine", text: `${machine.name} of ${entrant.number} ${entrant.name}` },
    { label: "Revision", text: signed?.revision ?? newest?.number ?? blank },
    {
      label: "Firing point, bearing",
      text: signed
        ? `${signed.firingPointNumber}, ${bearingText(signed.bearing)}`
        : firingPoint && machine.bearing !== null
          ? `${firingPoint.number}, ${bearingText(machine.bearing)}`
          : blank,
    },
    {
      label: "Nobody within",
      text: current.sheet
        ? `${distance(current.sheet.exclusion.forward)} ahead, ${distance(current.sheet.exclusion.backward)} behind, ${distance(current.sheet.exclusion.side)} beside`
        : blank,
    },
    { label: "Hazard sheet, hash of its inputs", text: current.inputHash?.slice(0, 16) ?? blank },
  ];
  return (
    <>
      <p className="button-row no-print">
        <PrintButton>Print this permit</PrintButton>
        <Link className="button button-plain" href={`/contests/${slug}/clearance/${id}`}>
          Back
        </Link>
      </p>
      <div className="no-print">
        <Standing name={machine.name} permit={permit} />
      </div>
      <div className={styles.paper}>
        <h1>Firing permit {signed ? signed.number : "No. ________"}</h1>
        <table>
          <caption>For</caption>
          <tbody>
            {rows.map(({ label, text }) => (
              <tr key={label}>
                <th scope="row">{label}</th>
                <td>{text}</td>
              </tr>
            ))}
          </tbody>
        </table>
        <table>
          <caption>
            Within these limits{signed ? "" : " at most; strike out and write in whatever is narrower"}
          </caption>
          <tbody>
            {limits &&
              limitRows({ limits }, system).map(({ label, text }) => (
                <tr key={label}>
                  <th scope="row">{label}</th>
                  <td>{text}</td>
                </tr>
              ))}
            <tr>
              <th scope="row">What else</th>
              <td>{signed ? signed.conditions || "–" : <>&nbsp;</>}</td>
            </tr>
          </tbody>
        </table>
        <p className={styles.falls}>
          It falls when the machine, its place, its bearing, the policy or the hazard sheet changes, when the
          wind passes its limit or nobody has read it, after a throw that surprises, and after any incident.
          Nobody may pass over that.
        </p>
        <Caution title="a permit clears nobody to stand nearer">
          <p>Failures can exceed every zone. The safety officer, local codes and licensed practice decide.</p>
        </Caution>
        <WrittenLines
          caption="Inspected, and permitted within these limits"
          rows={["Inspector", "Safety officer", "Chief of the crew"]}
        />
        <p className={styles.falls}>
          {signed
            ? `Signed in the program by ${signed.signedBy}, ${instantText(signed.signedAt)}. Printed ${instantText(new Date().toISOString())}.`
            : `Printed ${instantText(new Date().toISOString())}: signed by hand, it is entered in the program before the machine throws.`}
        </p>
      </div>
    </>
  );
}
