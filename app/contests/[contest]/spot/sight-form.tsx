"use client";
/** The bearing of one splash from one post: by compass, dial or map, and one large button that sends it. */
import { useEffect, useState } from "react";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import type { useHeading } from "@/app/_ui/heading/use-heading";
import { QuantityField, quantityOf } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import type { ControlPointInfo } from "@/lib/api/contracts";
import { type GeoPoint, groundDirect, groundInverse, normalBearing } from "@/lib/earth";
import { nothing } from "../judge/draft";
import type { JudgeShot, Range } from "../judge/entry";
import judge from "../judge/judge.module.css";
import { TapMap } from "../judge/tap-map";
import { CompassPanel } from "./compass-panel";
import { Dial, type Landmark } from "./dial";
import { remember, remembered } from "./remembered";
import { byCompass, byDial, byMap, type Sight, SURENESS, type Way } from "./sight";
import styles from "./spot.module.css";

/** Where throws land that nobody has measured yet, m: a first direction for the dial. */
const USUAL = 100;

const COMPLAINTS: Record<Way, string> = {
  compass: "Bearing: start the compass and point the phone at the splash.",
  dial: "Bearing: turn the dial to the splash, or type degrees from 0 to 360.",
  map: "Bearing: touch the map where it splashed, not on your own post.",
};

export function SightForm({
  slug,
  shot,
  post,
  range,
  phone: { compass, reading, start },
  maySend,
  onSend,
}: {
  slug: string;
  shot: JudgeShot;
  post: ControlPointInfo;
  range: Pick<Range, "pegs" | "declination">;
  /** Its compass, which goes on from shot to shot. */
  phone: ReturnType<typeof useHeading>;
  /** Whether this badge may send. */
  maySend: boolean;
  /** Null: not seen. */
  onSend: (sight: Sight | null) => void;
}) {
  const system = useUnits();
  const [way, setWay] = useState<Way>("dial");
  const [sureness, setSureness] = useState<string>(String(SURENESS[0]));
  const [north, setNorth] = useState<Sight["north"]>("true");
  const [typed, setTyped] = useState(nothing);
  const [spot, setSpot] = useState<{ at: GeoPoint; metresPerPixel: number } | null>(null);
  const [tried, setTried] = useState(false);

  // After the first picture, which must agree with the server's.
  useEffect(() => {
    const usual = remembered(slug, "way") as Way | null;
    const held = matchMedia("(pointer: coarse)").matches && window.isSecureContext;
    setWay(usual && usual in COMPLAINTS ? usual : held ? "compass" : "dial");
  }, [slug]);

  const sure = Number(sureness);
  const inCircle = typed.value !== null && typed.value >= 0 && typed.value <= 360;
  const sights: Record<Way, Sight | null> = {
    compass: reading && byCompass(reading, sure),
    dial: inCircle ? byDial(typed.value ?? 0, north, sure) : null,
    map: spot && byMap(post, spot.at, spot.metresPerPixel, sure),
  };
  const sight = sights[way];

  // What can be seen from the post, so that a dial without a compass can be turned by it.
  const turn = north === "magnetic" ? -range.declination : 0;
  const towards = (point: GeoPoint) => normalBearing(groundInverse(post, point, post.height).bearing + turn);
  const landmarks: Landmark[] = [
    { name: `Firing point ${shot.firingPointNumber}`, bearing: towards(shot.firingPoint) },
    ...range.pegs
      .filter(({ id }) => id !== post.id)
      .map((peg) => ({ name: peg.name, bearing: towards(peg) })),
  ];
  const aimed = groundDirect(shot.firingPoint, shot.bearing, shot.lastMark ?? USUAL, shot.firingPoint.height);

  const send = () => {
    setTried(true);
    if (!sight) return;
    remember(slug, "way", way);
    onSend(sight);
  };
  return (
    <form
      className={styles.form}
      aria-label="Sighting"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        send();
      }}
    >
      <ChoiceTiles
        id="way"
        legend="Bearing of the splash by"
        value={way}
        onChange={setWay}
        choices={[
          { value: "compass", label: "Compass" },
          { value: "dial", label: "Dial" },
          { value: "map", label: "Map" },
        ]}
      />
      {way === "compass" && (
        <CompassPanel
          compass={compass}
          spread={reading?.spread ?? 0}
          sight={sight}
          declination={range.declination}
          onStart={() => void start()}
        />
      )}
      {way === "dial" && (
        <>
          <Dial
            value={inCircle ? typed.value : null}
            start={towards(aimed)}
            landmarks={landmarks}
            onTurn={(bearing) => setTyped(quantityOf(bearing, "angle", system))}
          />
          <QuantityField
            id="sight-bearing"
            label="Bearing"
            fieldName="Bearing"
            dimension="angle"
            quantity={typed}
            onChange={setTyped}
            error={typed.value !== null && !inCircle ? COMPLAINTS.dial : null}
          />
          {range.declination !== 0 && (
            <ChoiceTiles
              id="sight-north"
              legend="Counted from"
              value={north}
              onChange={setNorth}
              choices={[
                { value: "true", label: "True north", note: "map, this dial" },
                { value: "magnetic", label: "Magnetic north", note: "a hand compass" },
              ]}
            />
          )}
        </>
      )}
      {way === "map" && (
        <TapMap
          shot={shot}
          range={range}
          post={post.id}
          onTap={(at, metresPerPixel) => setSpot({ at, metresPerPixel })}
        />
      )}
      <ChoiceTiles
        id="sureness"
        legend="How well did you see it?"
        value={sureness}
        onChange={setSureness}
        choices={SURENESS.map((degrees, index) => ({
          value: String(degrees),
          label: ["Well", "Roughly", "Hardly"][index] ?? "",
          note: `± ${degrees}°`,
        }))}
      />
      <p className={styles.unsure} role="status">
        {sight
          ? `${bearingText(sight.bearing)} ${sight.north}, ± ${sight.uncertainty}° (standard).`
          : tried && <strong>{COMPLAINTS[way]}</strong>}
      </p>
      {maySend && (
        <>
          <div className={styles.send}>
            <Button type="submit" look="main" wide className={judge.save} aria-disabled={!sight || undefined}>
              {sight ? `Send ${bearingText(Math.round(sight.bearing) % 360)} from ${post.name}` : "Send"}
            </Button>
          </div>
          <Button wide onClick={() => onSend(null)}>
            Not seen from here
          </Button>
        </>
      )}
    </form>
  );
}
