import { describe, expect, it } from "vitest";
import { BEHIND_RULES, type BehindRule, type Scenario } from "../../sim/scenario/types.ts";
import { HIRED, withCrew, withoutTractor, withTrucks } from "../../sim/study/change.ts";
import { remediesFor, together, type Family } from "../../sim/study/remedies.ts";
import { blade, bunker, chopper, field, roller, trucks } from "../harvest/plan.ts";
import { example, exampleNames } from "../scenarios/example.ts";
import { smallDay } from "./small.ts";

const BREAK = { shift: { breaks: [{ at: 12 * 3600, for: 1800 }] } };

/** Places where two scenarios differ, as paths; a list that grows or shrinks is one place. */
function places(a: unknown, b: unknown, path = ""): string[] {
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return Object.is(a, b) ? [] : [path];
  if (Array.isArray(a) && Array.isArray(b) && a.length !== b.length) return [path];
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].flatMap((key) =>
    places((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key], `${path}/${key.replace(/^\d+$/u, "#")}`));
}

const CHANGES: Readonly<Record<Family, RegExp>> = {
  "truck-more": /^\/trucks\/#\/count$/u, "truck-fewer": /^\/trucks(\/#\/count)?$/u,
  "tractor-more": /^\/storages\/#\/tractors$/u, "tractor-fewer": /^\/storages\/#\/tractors$/u,
  ballast: /^\/storages\/#\/tractors\/#\/mass$/u, "thinner-layer": /^\/packing\/layer$/u, "slower-chopper": /^\/choppers\/#\/(speed|throughput)$/u,
  "tipping-place": /^\/storages\/#\/tippingPlaces$/u, "second-clamp": /^\/(storages|fields\/#\/storages)$/u, longer: /^\/shift\/end$/u, apron: /^\/storages\/#\/apron$/u, rule: /^\/packing\/whenBehind$/u,
  rolling: /^\/storages\/#\/tractors\/#\/rolling$/u, breaks: /^\/shift\/breaks$/u, earlier: /^\/shift\/start$/u,
};

const SAYS: Readonly<Record<BehindRule, string>> = {
  hold: "When behind, hold the trucks until the lift is packed", bury: "When behind, keep the trucks moving and bury it",
  "hold-then-bury": "When behind, hold until the apron is full, then bury", ease: "When behind, ease the chopper to the crew's pace",
};

describe("The list of remedies", () => {
  it.each(exampleNames)("changes in %s what each says it changes and nothing else, and leaves the scenario as it was", (name) => {
    const scenario = example(name);
    const before = JSON.stringify(scenario);
    const { remedies } = remediesFor(scenario);
    expect(new Set(remedies.map(({ id }) => id)).size).toBe(remedies.length);
    for (const remedy of remedies) {
      const changed = places(scenario, remedy.apply(scenario));
      expect(changed.length, remedy.id).toBeGreaterThan(0);
      for (const place of changed) expect(place, remedy.id).toMatch(CHANGES[remedy.family]);
    }
    expect(JSON.stringify(scenario)).toBe(before);
  });

  it("hires from the tractors that are marked hireable, and one like the crew's mean where none is", () => {
    const more = (scenario: Scenario) => remediesFor(scenario).remedies.filter(({ family }) => family === "tractor-more").map(({ apply }) => apply(scenario).storages[0]!.tractors.at(-1)!);
    const crew = [blade(), roller(), roller(21_000, { name: "Big one", hireable: true })];
    expect(more(smallDay({ storages: [bunker({ tractors: crew })] }))).toMatchObject([{ mass: 21_000, name: "Big one 2", costPerHour: 90 }]);
    expect(more(smallDay({ storages: [bunker({ tractors: [blade(10_000), roller(20_000)] })] }))).toMatchObject([{ mass: 15_000, name: HIRED, spreads: null }]);
  });

  it("ballasts up to the maker's limit and never beyond, and says when no limit is known", () => {
    const heavy = smallDay({ storages: [bunker({ tractors: [blade(14_000, { maxMass: 16_500 }), roller()] })] });
    const remedy = remediesFor(heavy).remedies.find(({ family }) => family === "ballast")!;
    expect(remedy.apply(heavy).storages[0]!.tractors.map(({ mass }) => mass)).toEqual([16_500, 16_000]);
    expect(remediesFor(smallDay()).notTried.find(({ family }) => family === "ballast")!.because).toContain("maker's limit");
  });

  it("never takes the last blade of a storage or the last truck of a chopper, and says so", () => {
    const lone = smallDay({ trucks: [trucks(1)], storages: [bunker({ tractors: [blade()] })] });
    const { remedies, notTried } = remediesFor(lone);
    expect(remedies.some(({ family }) => family === "truck-fewer" || family === "tractor-fewer")).toBe(false);
    expect(notTried.map(({ family }) => family)).toEqual(expect.arrayContaining(["truck-fewer", "tractor-fewer"]));
    expect(() => withoutTractor(lone, 0, 0)).toThrow(/nobody|nothing could be laid/u);
    expect(() => withCrew(lone, 0, [roller()])).toThrow(RangeError);
    const tied = smallDay({ choppers: [chopper(), chopper({ name: "Other" })], trucks: [trucks(2, { chopper: 0 }), trucks(1, { kind: "Big", chopper: 1 })] });
    expect(() => withTrucks(tied, 0, 1)).toThrow(/Other would be left without a truck/u);
  });

  it("names each burden that a remedy puts on people, walls and yard", () => {
    const { remedies } = remediesFor(smallDay({ ...BREAK, storages: [bunker({ tractors: [blade(14_000, { maxMass: 16_000, rolling: 0.8 }), roller()] })] }));
    const burdened = (burden: "weight" | "hours" | "traffic") => remedies.filter(({ burdens }) => burdens.includes(burden)).map(({ family }) => family);
    expect(burdened("weight")).toEqual(["tractor-more", "ballast", "second-clamp"]);
    expect(burdened("hours")).toEqual(["rolling", "breaks", "earlier"]);
    expect(burdened("traffic")).toEqual(["truck-more", "tractor-more", "tipping-place", "second-clamp"]);
  });

  it("opens a second place to which the fields lead in turns, by mass, and that takes what the first has no room for", () => {
    const scenario = smallDay({ fields: [field({ name: "A" }), field({ name: "B", area: 100_000 }), field({ name: "C", area: 100_000 })] });
    const second = remediesFor(scenario).remedies.find(({ family }) => family === "second-clamp")!.apply(scenario);
    expect(second.fields.map(({ storages }) => storages)).toEqual([[0, 1], [1, 0], [1, 0]]);
    expect(second.storages[1]!.tractors).toHaveLength(2);
  });

  it("says of another rule what the crew then does, and names no key of the file", () => {
    for (const whenBehind of BEHIND_RULES) {
      const rules = remediesFor(smallDay({ packing: { whenBehind } })).remedies.filter(({ family }) => family === "rule");
      expect(rules.map(({ what }) => what)).toEqual(BEHIND_RULES.filter((rule) => rule !== whenBehind).map((rule) => SAYS[rule]));
    }
  });

  it("puts two remedies together one after the other", () => {
    const scenario = smallDay(BREAK);
    const { remedies } = remediesFor(scenario);
    const [more, thin] = ["truck-more", "thinner-layer"].map((family) => remedies.find((remedy) => remedy.family === family)!);
    expect(together(more!, thin!).note).toBe(thin!.note);
    const both = together(more!, thin!).apply(scenario);
    expect(both.trucks[0]!.count).toBe(6);
    expect(both.packing.layer).toBe(0.1);
  });
});
