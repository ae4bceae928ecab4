/** How things stand at noon, as a crew writes it: what is read, and what is refused and where. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkNow, readNow } from "../../sim/scenario/now.ts";
import { crewDensity, takenUp } from "../../sim/harvest/takeup.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { storedIn } from "../../sim/findings/stored.ts";
import { bunker, blade, field, HOUR, plan, roller, trucks } from "../harvest/plan.ts";
import { sum } from "../harvest/reading.ts";
import { example } from "../scenarios/example.ts";

const day = plan({ fields: [field({ area: 150_000 }), field({ name: "Far Field", area: 150_000 })] });
const two = plan({
  fields: [field({ storages: [0, 1] }), field({ name: "Far Field", storages: [1] })],
  storages: [bunker(), bunker({ name: "South bunker", tractors: [blade(14_000, { name: "South blade" }), roller(16_000, { name: "South roller" })] })],
});
const noon = { at: "12:00", delivered: [{ field: "Long Strip", mass: "310 t" }] };

type Bad = readonly [what: string, state: unknown, pointer: string, says: RegExp];
const BAD: readonly Bad[] = [
  ["nothing at all", null, "", /^The state of the day is empty: a group of keys would do: at, delivered/u],
  ["no time", {}, "/at", /^at is missing: a time of day/u],
  ["a time that is none", { at: "25:10" }, "/at", /time of day/u],
  ["a time before the shift", { at: "06:10" }, "/at", /"06:10", outside the shift of 07:00 to 20:00/u],
  ["a time after it", { at: "20:01" }, "/at", /outside the shift/u],
  ["a key that nobody knows", { at: "12:00", aprom: "45 t" }, "/aprom", /no key "aprom"; did you mean apron\?/u],
  ["a key that nobody knows further in", { at: "12:00", delivered: [{ field: "Long Strip", mas: "3 t" }] }, "/delivered/0/mas", /did you mean mass\?/u],
  ["a mass without its unit", { at: "12:00", apron: 45 }, "/apron", /unit|mass/u],
  ["a unit of something else", { at: "12:00", delivered: [{ field: "Long Strip", mass: "310 ha" }] }, "/delivered/0/mass", /ha is the unit of an area/u],
  ["a field that is not there", { at: "12:00", delivered: [{ field: "Long Stripe", mass: "3 t" }] }, "/delivered/0/field", /did you mean "Long Strip"\?/u],
  ["a field twice", { at: "12:00", delivered: [{ field: "Far Field", mass: "3 t" }, { field: "Far Field", mass: "4 t" }] }, "/delivered/1/field", /stands in this list already/u],
  ["neither mass nor share", { at: "12:00", delivered: [{ field: "Far Field" }] }, "/delivered/0/mass", /cut: 60 %/u],
  ["more than the field holds", { at: "12:00", delivered: [{ field: "Far Field", mass: "900 t" }] }, "/delivered/0/mass", /"Far Field" holds 675\.0 t/u],
  ["more than all of a field", { at: "12:00", delivered: [{ field: "Far Field", cut: "120 %" }] }, "/delivered/0/cut", /up to 100 %/u],
  ["less than nothing", { at: "12:00", delivered: [{ field: "Far Field", mass: "-1 t" }] }, "/delivered/0/mass", /from 0 t/u],
  ["more on the apron than came", { ...noon, delivered: [{ field: "Long Strip", mass: "30 t" }], apron: "40 t" }, "/apron", /more than the 30\.0 t that came/u],
  ["more on the apron than it holds", { ...noon, apron: "80 t" }, "/apron", /the apron of "North bunker" holds 60\.0 t/u],
  ["more in the clamp than it holds", { at: "12:00", delivered: [{ field: "Long Strip", mass: "675 t" }], density: "10 kg/m3" }, "/delivered", /more than it holds at that density/u],
  ["denser than solid", { ...noon, density: "500 kg/m3" }, "/density", /nothing is packed denser than/u],
  ["a machine that is not there", { at: "12:00", machines: [{ name: "Rollar", down: "all day" }] }, "/machines/0/name", /did you mean "Roller"\?/u],
  ["a kind of truck without its number", { at: "12:00", machines: [{ name: "Tipper", down: "all day" }] }, "/machines/0/name", /say which, "Tipper 1" to "Tipper 5"/u],
  ["a machine twice", { at: "12:00", machines: [{ name: "Roller", down: "all day" }, { name: "Roller", down: "until 14:00" }] }, "/machines/1/name", /already/u],
  ["down without saying how long", { at: "12:00", machines: [{ name: "Roller", down: "a while" }] }, "/machines/0/down", /"until 14:00" or "all day"/u],
  ["down until a time that is past", { at: "12:00", machines: [{ name: "Roller", down: "until 11:00" }] }, "/machines/0/down", /over at 12:00: leave it out/u],
  ["nobody left to spread", { at: "12:00", machines: [{ name: "Blade", down: "all day" }] }, "/machines", /nobody to spread/u],
  ["more loads than trucks", { at: "12:00", onTheRoad: 6 }, "/onTheRoad", /only 5 trucks are there/u],
  ["half a load", { at: "12:00", onTheRoad: 1.5 }, "/onTheRoad", /a whole number/u],
  ["keys that reach into the language", JSON.parse('{"at": "12:00", "__proto__": {"at": 1}}'), "/__proto__", /no key/u],
];

describe("The state of a day", () => {
  it.each(BAD)("with %s is refused, with its place", (_, state, pointer, says) => {
    const checked = checkNow(state, day);
    const [first] = "problems" in checked ? checked.problems : [];
    expect(first?.pointer).toBe(pointer);
    expect(first?.detail).toMatch(says);
  });

  it("with several storages says on which apron, and where a field's crop went", () => {
    const wrong = (state: object) => (checkNow({ at: "12:00", ...state }, two) as { problems: { pointer: string; detail: string }[] }).problems[0];
    expect(wrong({ apron: "3 t" })).toMatchObject({ pointer: "/apron", detail: expect.stringMatching(/\[\{storage: North bunker/u) as string });
    expect(wrong({ apron: [{ storage: "West", mass: "3 t" }] })).toMatchObject({ pointer: "/apron/0/storage" });
    expect(wrong({ delivered: [{ field: "Far Field", mass: "3 t", storage: "North bunker" }] })).toMatchObject({ pointer: "/delivered/0/storage", detail: expect.stringMatching(/does not lead/u) as string });
    const right = checkNow({ at: "12:00", delivered: [{ field: "Long Strip", mass: "30 t", storage: "South bunker" }], apron: [{ storage: "South bunker", mass: "5 t" }] }, two);
    expect(right).toMatchObject({ now: { delivered: [{ field: 0, storage: 1, mass: 30_000, cut: null }], apron: [0, 5000] } });
  });

  it("as text has line and column of what is wrong, and of text that cannot be read at all", () => {
    expect(readNow("at: \"12:00\"\napron: 80 ha\n", day)).toMatchObject({ problems: [{ pointer: "/apron", line: 2, column: 1 }] });
    expect(readNow("at: [", day)).toMatchObject({ problems: [{ line: 1 }] });
  });

  it("tells everything that is wrong, not only the first", () => {
    const checked = checkNow({ at: "03:00", delivered: [{ field: "Nowhere", mass: "3 t" }], machines: [{ name: "Nobody", down: "all day" }] }, day);
    expect("problems" in checked ? checked.problems.map(({ pointer }) => pointer) : []).toEqual(["/at", "/delivered/0/field", "/machines/0/name"]);
  });
});

describe("The state that a day is taken up in", () => {
  const up = (state: object, scenario = day) => {
    const checked = checkNow(state, scenario);
    if ("problems" in checked) throw new Error(JSON.stringify(checked.problems));
    return takenUp(scenario, checked.now);
  };
  const there = (start: ReturnType<typeof takenUp>) => sum([...start.storages.flatMap(({ lifts, apron }) => [...lifts, ...apron]), ...start.onTheRoad].map(({ mass }) => mass));

  it("has what was tipped on the clamp and the apron and what is on the road besides, from the field in hand", () => {
    const start = up({ ...noon, delivered: [{ field: "Long Strip", mass: "675 t" }, { field: "Far Field", mass: "100 t" }], apron: "40 t", onTheRoad: 3 });
    expect(start.fields).toEqual([{ taken: 675_000, left: null }, { taken: 148_000, left: null }]);
    expect(start.onTheRoad.map((load) => [load.field, load.mass])).toEqual([1, 1, 1].map((f) => [f, 16_000]));
    expect(start.storages[0]!.apron.map(({ mass }) => mass)).toEqual([16_000, 16_000, 8000]);
    expect(start.storages[0]!.lifts.map(({ mass }) => mass)).toEqual([719_000, 16_000]);
    expect(there(start)).toBeCloseTo(sum(start.fields.map(({ taken }) => taken)), 6);
  });

  it("takes loads on the road out of a share that is cut, and lets mass and share tell both", () => {
    const byShare = up({ at: "12:00", delivered: [{ field: "Long Strip", cut: "60 %" }], onTheRoad: 2 });
    expect(byShare.fields[0]).toEqual({ taken: 405_000, left: 0.4 });
    expect(there(byShare)).toBeCloseTo(405_000, 6);
    expect(up({ at: "12:00", delivered: [{ field: "Long Strip", mass: "500 t", cut: "60 %" }] }).fields[0]).toEqual({ taken: 500_000, left: 0.4 });
  });

  it("takes the density given, or the one that the crew gives in the time it had, which on a worked day is about what it gave", () => {
    expect(up({ ...noon, density: "222 kg/m3" }).storages[0]!.lifts.map(({ density }) => density)).toEqual([222, 222]);
    const scenario = plan({ packing: { whenBehind: "bury" } });
    const whole = rehearseDay(scenario);
    const lies = whole.lifts.filter((lift) => lift.closed <= 12 * HOUR);
    const { densities } = storedIn({ ...whole, lifts: lies }, scenario, 0);
    const mass = sum(lies.map((lift) => lift.mass));
    const meant = crewDensity(scenario, 0, 12 * HOUR, { mass, dryMass: mass * 0.34 });
    // The first load lies after a fill, a drive and a tip, some 20 min of 5 h: 7 % of the time, 3.5 % of what packing adds.
    expect(Math.abs(meant / (mass * 0.34 / sum(lies.map((lift, i) => lift.dryMass / densities[i]!))) - 1)).toBeLessThan(0.035);
    expect(crewDensity(scenario, 0, 12 * HOUR, { mass: 1, dryMass: 0.34 })).toBeLessThan(600);
  });

  it("keeps who is away, by kind", () => {
    const start = up({ at: "12:00", machines: [{ name: "Roller", down: "until 14:30" }, { name: "Tipper 3", down: "all day" }, { name: "Chopper", down: "until 13:00" }] }, plan({ trucks: [trucks(3)] }));
    expect(start.away).toEqual([{ kind: "tractor", name: "Roller", until: 14.5 * HOUR }, { kind: "truck", name: "Tipper 3", until: null }, { kind: "chopper", name: "Chopper", until: 13 * HOUR }]);
  });

  it("is read from the example beside the scenarios, and the rest of that day is rehearsed", () => {
    const meadow = example("low-meadow");
    const checked = readNow(readFileSync("scenarios/now/low-meadow-noon.yaml", "utf8"), meadow);
    if ("problems" in checked) throw new Error(JSON.stringify(checked.problems));
    const start = takenUp(meadow, checked.now);
    const rest = rehearseDay(meadow, { start });
    expect(rest.from).toBe(13 * HOUR + 600);
    expect(sum(rest.lifts.map(({ mass }) => mass))).toBeCloseTo(310_000 + sum(rest.trips.map(({ mass }) => mass)), 3);
    expect(start.onTheRoad.length).toBe(2);
  });
});
