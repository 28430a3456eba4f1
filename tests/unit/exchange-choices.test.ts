/** What a person makes of a previewed file: which places come in, as what. */
import { expect, it } from "vitest";
import { firstChoice, hindrance, ordered, wanted, waysOf } from "@/app/_ui/site-import/choices";
import { importItem, type PreviewItem } from "@/lib/api/contracts";

const item = (part: Partial<PreviewItem> = {}): PreviewItem => ({
  where: "feature 1",
  what: "feature",
  kind: "post",
  name: "Gate",
  geometry: { type: "Point", coordinates: [-31.6, 44.2] },
  height: null,
  heightFrom: "ellipsoid",
  standOff: null,
  rule: null,
  number: null,
  accuracy: null,
  bearing: null,
  note: "",
  warnings: [],
  problem: null,
  fate: "new",
  ...part,
});
const walk: PreviewItem["geometry"] = {
  type: "LineString",
  coordinates: [
    [-31.6, 44.2],
    [-31.599, 44.2],
    [-31.599, 44.201],
  ],
};
const leave = { keep: false } as const;

it("chooses beforehand what is new and known, and nothing that is there already", () => {
  expect(firstChoice(item())).toEqual({ chosen: true, as: "feature:post", name: "Gate" });
  expect(firstChoice(item({ kind: null })).chosen).toBe(false);
  expect(firstChoice(item({ fate: "same-name" })).chosen).toBe(false);
  expect(firstChoice(item({ fate: "identical" })).chosen).toBe(false);
  expect(firstChoice(item({ problem: "Broken." })).chosen).toBe(false);
});

it("offers only what a shape can be; a spot height needs a height", () => {
  const values = (part: Partial<PreviewItem>) => waysOf(item(part)).map(({ value }) => value);
  expect(values({})).toContain("control-point");
  expect(values({})).not.toContain("spot-height");
  expect(values({})).not.toContain("feature:road");
  expect(values({ height: 3 })).toContain("spot-height");
  expect(values({ geometry: walk })).toEqual(
    expect.arrayContaining(["feature:road", "feature:boundary:area"]),
  );
  expect(values({ geometry: walk })).not.toContain("feature:boundary");
});

it("sends what is chosen as its own route would take it, with a line closed where an area is meant", () => {
  const items = [
    item({ geometry: walk, kind: "road", standOff: 8, rule: "hot" }),
    item({ what: "firing-point", kind: null, number: 3, name: "" }),
  ];
  const choices = [
    { chosen: true, as: "feature:boundary:area", name: " Hedge " },
    { chosen: true, as: "firing-point", name: "" },
  ];
  const { items: sent, from } = wanted(items, choices, leave);
  expect(from).toEqual([0, 1]);
  for (const each of sent) expect(importItem.safeParse(each).success).toBe(true);
  // The stand-off and the rule were a road's.
  expect(sent[0]).toMatchObject({
    kind: "boundary",
    name: "Hedge",
    standOff: null,
    rule: null,
    geometry: { type: "Polygon" },
  });
  expect(sent[1]).toEqual({
    what: "firing-point",
    name: "",
    number: 3,
    accuracy: 5,
    latitude: 44.2,
    longitude: -31.6,
  });
});

it("keeps heights from the sea level only with what that lies above the ellipsoid", () => {
  const spot = item({ what: "spot-height", kind: null, height: 10, heightFrom: "sea-level" });
  const choice = firstChoice(spot);
  expect(hindrance(spot, choice, leave)).toMatch(/sea level/);
  expect(hindrance(spot, choice, { keep: true, offset: null })).toMatch(/sea level/);
  expect(wanted([spot], [choice], leave).items).toEqual([]);
  expect(wanted([spot], [choice], { keep: true, offset: 45.5 }).items).toMatchObject([{ height: 55.5 }]);
  const peg = item({ what: "control-point", kind: null, height: 10, heightFrom: "sea-level" });
  expect(wanted([peg], [firstChoice(peg)], leave).items[0]).not.toHaveProperty("height");
});

it("lists what needs a person first", () => {
  const items = [item({ fate: "identical" }), item(), item({ kind: null }), item({ problem: "Broken." })];
  expect(ordered(items)).toEqual([3, 2, 1, 0]);
});
