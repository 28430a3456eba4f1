import { ButtonLink } from "@/app/_ui/button";
import { allowed, overview, titled } from "@/app/_ui/reading";
import { siteOf } from "@/app/_ui/zones/scene-of";
import styles from "./exchange.module.css";
import { ImportDesk } from "./import-desk";

export const generateMetadata = titled("Files in and out");

const OUT = [
  { format: "geojson", title: "GeoJSON", words: "Everything, for map programs (RFC 7946)." },
  { format: "kml", title: "KML", words: "Everything, for earth viewers. Heights are in the extended data." },
  { format: "kmz", title: "KMZ", words: "The same KML, packed." },
  {
    format: "gpx",
    title: "GPX",
    words:
      "Everything, for handheld receivers. They show areas as tracks and pass over kinds, rules and stand-offs.",
  },
  {
    format: "csv",
    title: "CSV",
    words: "Points alone, for spreadsheets: lines, areas and zones are not in it.",
  },
] as const;

export default async function ExchangePage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const contest = await overview(slug);
  const { latitude, longitude } = contest;
  return (
    <>
      <h1>The site in and out of files</h1>
      <h2>Bring it in</h2>
      {who.role === "organiser" ? (
        <ImportDesk slug={slug} site={siteOf(contest)} middle={{ latitude, longitude }} />
      ) : (
        <p>Only an organiser brings files in. What is on the site can be taken out below.</p>
      )}
      <h2>Take it out</h2>
      <p>
        Features, firing points, control points and spot heights that are not retired, with the zones of the
        day. Brought in again, names, kinds, rules, stand-offs and heights are the same.
      </p>
      <ul className={styles.out}>
        {OUT.map(({ format, title, words }) => (
          <li key={format}>
            <a
              className="button button-plain"
              href={`/api/v1/contests/${slug}/export?format=${format}`}
              download
            >
              {title}
            </a>
            <span>{words}</span>
          </li>
        ))}
      </ul>
      <h2>Pegs to set out</h2>
      <p>
        Control points, firing points and the corners of every zone, with bearing and distance from a point of
        your choice: to print, or as CSV.
      </p>
      <p className="button-row">
        <ButtonLink href={`/contests/${slug}/organise/exchange/pegs`}>List of pegs</ButtonLink>
      </p>
    </>
  );
}
