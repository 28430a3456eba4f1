/** A machine in a link: whole, or not at all. Check value of CRC-32/ISO-HDLC: catalogue of parametrised CRC algorithms. */
import { describe, expect, it } from "vitest";
import { crc32 } from "@/app/_ui/machine-form/form/crc32";
import { KINDS } from "@/app/_ui/machine-form/form/fields";
import { formToHash, linkTo, readAddress, readLink, withoutMachine } from "@/app/_ui/machine-form/form/link";
import { requestBody } from "@/app/_ui/machine-form/form/request";
import { changeForm, type FormState, startingForm } from "@/app/_ui/machine-form/form/state";
import { quantityOf } from "@/app/_ui/quantity-field";
import { changeBench, MOST_REVISIONS, newBench } from "@/app/workbench/bench/bench";

/** With wind and gust, which stand at a link's end. */
const windy = (kind: FormState["kind"]) =>
  [4, 9].reduce(
    (form, speed, index) =>
      changeForm(form, {
        type: "quantity",
        path: index === 0 ? "air.wind.speed" : "air.wind.gust",
        quantity: quantityOf(speed, "speed", "metric"),
      }),
    startingForm("metric", kind),
  );
const stateOf = (hash: string) => readLink(hash, "metric").state;
const whyOf = (hash: string) => {
  const read = readLink(hash, "metric");
  return read.state === "refused" ? read.why : read.state;
};

it("the check sum is the published one", () => {
  expect([crc32("123456789"), crc32("")]).toEqual(["CBF43926", "00000000"]);
});

describe("a link", () => {
  it.each(KINDS)(
    "that holds a machine of kind %s carries its wind, and is refused wherever it is cut",
    (kind) => {
      const form = windy(kind);
      const link = `#${formToHash(form)}`;
      const read = readLink(link, "metric");
      expect(read).toMatchObject({ state: "open", checked: true });
      if (read.state === "open") expect(requestBody(read.form)).toEqual(requestBody(form));
      expect(requestBody(form).air).toEqual({ wind: { speed: 4, gust: 9 } });
      for (let length = 5; length < link.length; length++)
        expect(stateOf(link.slice(0, length)), link.slice(0, length)).toBe("refused");
    },
  );

  it("is refused when any of its characters is another, is gone or stands twice", () => {
    const link = formToHash(windy("measured"));
    const whole = readLink(link, "metric");
    for (let at = 0; at < link.length; at++) {
      const [before, after] = [link.slice(0, at), link.slice(at + 1)];
      for (const spoilt of ["7", "=", "&", "%", "", `${link[at]}${link[at]}`]) {
        if (spoilt === link[at]) continue;
        const read = readLink(`${before}${spoilt}${after}`, "metric");
        // What is written in another way and means the same does no harm: "&&", "a" for "A" in the check sum.
        if (read.state !== "refused") expect(read, `${before}[${spoilt}]${after}`).toEqual(whole);
      }
    }
    expect(stateOf(`${link.slice(0, 60)}…${link.slice(80)}`)).toBe("refused");
    expect(stateOf(link.replaceAll("&", "&amp;"))).toBe("refused");
  });

  it("says what is wrong with it", () => {
    const link = formToHash(windy("measured"));
    const numbers = link.slice(link.indexOf("&") + 1);
    expect(whyOf(link.slice(0, -4))).toBe(
      `It is cut off, or something is missing inside: fewer than its ${numbers.length} characters have come.`,
    );
    expect(whyOf(`${link}.`)).toMatch(/more than its \d+ characters/);
    expect(whyOf(link.replace("speed=4", "speed=5"))).toMatch(/do not fit its check sum/);
    expect(whyOf(link.replace("=2.", "=4."))).toMatch(/version 4, and this program reads versions up to 3/);
    const unknown = `${numbers}&machine.wings=2`;
    expect(whyOf(`fairthrow=2.${unknown.length}.${crc32(unknown)}&${unknown}`)).toMatch(/“machine.wings”/);
  });

  it("of the older kind still opens, unchecked, as long as every part of it is understood", () => {
    const link = formToHash(windy("measured"));
    const old = link.slice(link.indexOf("&") + 1);
    expect(readLink(`#${old}`, "metric")).toMatchObject({ state: "open", checked: false });
    expect(whyOf(old.replace("releaseSpeed", "releaseSpied"))).toMatch(/“machine.releaseSpied”/);
    expect(whyOf(old.replace("gust=9", "gust="))).toMatch(/“air.wind.gust” is no number/);
    expect(whyOf(old.replace("kind=measured", "kind=measure"))).toMatch(/no kind of machine/);
    expect(whyOf(`${old}&air.wind.gust=1`)).toMatch(/twice/);
  });

  it("takes what calls STOP along, and an older program would refuse it rather than lose it", () => {
    const stop = "hold~forward~610~215.4~2031-05-03T14:20~5~a1~Loud Uncle, As built ~ 2";
    const link = formToHash(windy("measured"), [stop]);
    expect(link).toMatch(/^fairthrow=3\./);
    const read = readLink(link, "metric");
    expect(read).toMatchObject({ state: "open", checked: true, stops: [stop] });
    expect(readLink(formToHash(windy("measured"), []), "metric")).toMatchObject({ stops: [] });
    expect(readLink(formToHash(windy("measured")), "metric")).toMatchObject({ stops: null });
    expect(whyOf(link.replace("610", "61"))).toMatch(/more than its|fewer than its/);
    expect(whyOf(link.replace("=3.", "=2."))).toMatch(/“stop”, which this program does not know/);
  });

  it("that was cut before its hash says so; an address that holds no machine says nothing", () => {
    const link = new URL(
      linkTo("/workbench/film", formToHash(windy("measured")), { t: "0.5" }),
      "http://fair.test",
    );
    expect(readAddress(link, "metric").state).toBe("open");
    for (const hash of ["", "#fa"])
      expect(readAddress({ search: link.search, hash }, "metric")).toMatchObject({
        state: "refused",
        why: expect.stringContaining("cut off before its"),
      });
    expect(withoutMachine(link.search)).toBe("?t=0.5");
    expect(readAddress({ search: "?t=0.5", hash: "" }, "metric").state).toBe("none");
  });

  it("that is no link to a machine is none", () => {
    for (const hash of ["", "#", "#main", "#field-machine-longArm", "#transport"])
      expect(stateOf(hash)).toBe("none");
  });

  it("takes a place of its own on the bench, or none where there is no room", () => {
    const linked = { id: "linked", name: "From a link", note: "", form: windy("tension") };
    const add = { do: "add", revisions: [linked], chosen: "linked" } as const;
    let bench = newBench("metric");
    expect(changeBench(bench, add)).toMatchObject({ revisions: [{ id: "1" }, linked], chosen: "linked" });
    for (let index = 1; index < MOST_REVISIONS; index++)
      bench = changeBench(bench, { do: "copy", id: `copy ${index}`, name: "" });
    expect(changeBench(bench, add)).toBe(bench);
  });
});
