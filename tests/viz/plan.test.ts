import { readFileSync, readdirSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { checkScenario } from "../../sim/scenario/read.ts";
import { at, put, type Document, type Path } from "../../viz/document.ts";
import { amountsIn, endsIn, shownOf, stepOf, typed } from "../../viz/plan/amounts.ts";
import { renamed, said, withCopy, without, withoutItem } from "../../viz/plan/change.ts";
import { asYaml } from "../../viz/plan/files.ts";
import { idFor } from "../../viz/plan/kept.ts";
import { keyAt, measuredAt, usualAt } from "../../viz/plan/keys.ts";
import { SECTIONS, type Once } from "../../viz/plan/layout.ts";
import { SPREADS, kindOfSpread, parametersOf, spreadOf, typicalByActivity } from "../../viz/plan/spreads.ts";
import { planWords } from "../../viz/words/plan.ts";

const folder = new URL("../../scenarios/", import.meta.url);
const example = (name: string): Document => parse(readFileSync(new URL(`${name}.yaml`, folder), "utf8")) as Document;
const names = readdirSync(folder).filter((file) => file.endsWith(".yaml")).map((file) => file.slice(0, -5));
const meadow = example("low-meadow");
const twoChoppers = example("two-choppers-one-clamp");

function settled(document: Document) {
  const checked = checkScenario(document);
  if ("problems" in checked) throw new Error(checked.problems.map(({ detail }) => detail).join("\n"));
  return checked;
}

const everyPlace = SECTIONS.flatMap(({ parts }) => parts.flatMap(({ id, place, more, inner = [] }) => {
  const texts = id === "crop" ? [planWords.sentences.crop!, planWords.sentences.cropWet!] : [planWords.sentences[id]!];
  const keysIn = (text: string) => [...text.matchAll(/\{-(\w+)\}/g)].map(([, key]) => key!);
  const within = inner.flatMap((group) => keysIn(planWords.sentences[group.id]!).map((key) => `${place}.${group.id}.${key}`));
  return [...[...texts.flatMap(keysIn), ...more].map((key) => (place === "" ? key : `${place}.${key}`)), ...within];
}));

describe("the plan's editor", () => {
  it("knows every key that it shows, with its help and its label", () => {
    expect(everyPlace.length).toBeGreaterThan(80);
    for (const place of everyPlace) {
      expect(keyAt(place).help, place).toMatch(/^[A-Z].*\.$/);
      expect(planWords.labels[place.split(".").at(-1)!], place).toBeTruthy();
    }
    expect(() => keyAt("fields[].colour")).toThrow("no fields[].colour");
  });

  it("says the limits that the check holds to", () => {
    expect(keyAt("fields[].area")).toEqual({ kind: { is: "amount", dimension: "area", least: 0, most: 50_000_000 }, help: "Area to cut. Over 0 ha and up to 5000 ha." });
    expect(keyAt("trucks[].count").kind).toEqual({ is: "count", least: 1, most: 500 });
    expect(keyAt("tractors[].hireable").kind).toEqual({ is: "switch" });
    expect(keyAt("packing.whenBehind").kind).toMatchObject({ is: "choice", options: expect.arrayContaining(["hold", "ease"]) });
  });

  it("calls usual what the engine fills in, for every example and every key", () => {
    for (const name of names) {
      const document = example(name);
      for (const { path, value, mark } of settled(document).defaults) {
        const steps: Path = [...path.matchAll(/\w+/g)].map(([step]) => (/^\d+$/.test(step) ? Number(step) : step));
        const place = path.replaceAll(/\[\d+\]/g, "[]").replace("packing.tractors", "tractors");
        // What an outline or a gate gave is told at the outline or the gate, and shown at the keys that it stands for.
        if (!everyPlace.includes(place) || mark === planWords.map.measured) continue;
        expect(usualAt(document, steps, place), `${name} ${path}`).toEqual({ value, mark });
      }
    }
  });

  it("shows area, rows and road as measured on the map where the plan has an outline in their place, and nothing while the answer is about another field", () => {
    const mapped = example("mapped-fields");
    const { scenario } = settled(mapped);
    const shown = (document: Document) => ["area", "rowLength", "distance"].map((key) => measuredAt(scenario, document, ["fields", 0, key], "m")?.value ?? null);
    const field = scenario.fields[0]!;
    expect(shown(mapped).map((text) => parseFloat(text!))).toEqual([expect.closeTo(field.area / 1e4, 1), expect.closeTo(field.rowLength, -0.5), expect.closeTo(field.distance / 1000, 1)]);
    expect(shown(put(mapped, ["fields", 0, "name"], "Another"))).toEqual([null, null, null]);
  });

  it("shows an amount in the unit it was written in unless that is of the other system, and writes what is typed in the unit beside it", () => {
    expect(shownOf("35000 lb", "machineMass", "us")).toEqual({ figure: 35_000, unit: "lb" });
    expect(shownOf("35000 lb", "machineMass", "metric")).toEqual({ figure: 15.9, unit: "t" });
    expect(shownOf("20 s", "time", "us")).toEqual({ figure: 20, unit: "s" });
    expect(shownOf(0.4, "share", "metric")).toEqual({ figure: 40, unit: "%" });
    expect(shownOf("much", "area", "metric")).toBeNull();
    expect([typed("16", "t"), typed(" 35000 lb ", "t"), typed("2,5", "ha"), typed("a lot", "ha"), typed("-3", "ha")]).toEqual(["16 t", "35000 lb", "2.5 ha", "a lot", "-3 ha"]);
    expect([stepOf(14, "ha"), stepOf(2.4, "km"), stepOf(35_000, "lb"), stepOf(34, "%"), stepOf(0, "ha")]).toEqual([1, 0.1, 1000, 1, 1]);
    expect(endsIn("acre", "area", 0, 4046.8564224)).toEqual([0, 1]);
  });

  it("reads back whatever figure it wrote", () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 49_999 }), fc.constantFrom("metric", "us"), (tenths, system) => {
      const figure = tenths / 10;
      const unit = system === "us" ? "acre" : "ha";
      expect(shownOf(typed(String(figure), unit), "area", system)).toEqual({ figure, unit });
    }));
  });
});

describe("what most plans leave out", () => {
  it("begins as something that the check takes, wherever it is put: breakdowns, first rounds, the crew search", () => {
    const once = SECTIONS.flatMap(({ parts }) => parts).filter((part): part is Once => "path" in part && part.starts !== undefined);
    expect(once.map(({ id }) => id)).toEqual(expect.arrayContaining(["breakdownsTrucks", "searchTrucks", "searchTractors"]));
    for (const { path, starts } of once) settled(said(meadow, path, starts!));
    const inner = SECTIONS.flatMap(({ parts }) => parts).flatMap((part) => ("list" in part && !part.ifThere && part.inner ? part.inner.map((group) => ({ path: [...part.list, 0, group.id], starts: group.starts })) : []));
    expect(inner.map(({ path }) => path[0]).sort()).toEqual(["choppers", "fields", "packing", "trucks"]);
    for (const { path, starts } of inner) settled(said(meadow, path, starts));
  });

  it("can be said one by one where one word stood for all of it", () => {
    const off = settled(said({ ...meadow, losses: "off" }, ["losses", "face"], "on")).scenario.losses;
    expect(off).toEqual({ effluent: false, fermentation: false, density: false, topLayer: false, face: true });
    expect(settled(said({ ...meadow, losses: "on" }, ["losses", "face"], "off")).scenario.losses).toEqual({ effluent: true, fermentation: true, density: true, topLayer: true, face: false });
    expect(said({ ...meadow, breakdowns: "none" }, ["breakdowns", "trucks"], { between: "40 h", repair: "1 h" }).breakdowns).toEqual({ trucks: { between: "40 h", repair: "1 h" } });
  });

  it("varies by activity as it did when the plan said typical, until one of them is changed", () => {
    const typical = settled({ ...meadow, variation: "typical" }).scenario.variation;
    expect(settled({ ...meadow, variation: typicalByActivity() }).scenario.variation).toEqual(typical);
    for (const kind of SPREADS) {
      const said = spreadOf(kind, "tip", "25 %");
      expect(kindOfSpread(said)).toBe(kind);
      const { tip } = settled({ ...meadow, variation: { ...typicalByActivity(), tip: said } }).scenario.variation;
      if (kind === "none" || kind === "fixed") expect(tip).toBeNull();
      else expect(tip).toMatchObject({ kind });
    }
    expect([parametersOf("30 %"), parametersOf({ shape: "uniform", low: 1, high: 2 })]).toEqual([[], ["low", "high"]]);
  });

  it("reads several amounts out of one box", () => {
    expect([amountsIn("12, 15 cm", "cm"), amountsIn("5 in, 6", "cm"), amountsIn("80; 100", "%"), amountsIn("12,5 cm", "cm"), amountsIn("thick", "cm")]).toEqual([["12 cm", "15 cm"], ["5 in", "6 in"], ["80 %", "100 %"], ["12.5 cm"], ["thick"]]);
    expect(settled({ ...meadow, search: { layers: [...amountsIn("10, 12", "cm")], pace: [...amountsIn("90, 100", "%")] } }).scenario.search).toMatchObject({ layers: [0.1, 0.12], pace: [0.9, 1] });
  });

  it("is followed when a kind of truck that the search names is called otherwise", () => {
    const searched = said(meadow, ["search", "trucks"], { kind: String(at(meadow, ["trucks", 0, "kind"])), from: 2, to: 3 });
    const other = renamed(searched, ["trucks", 0, "kind"], "Big tipper");
    expect(at(other, ["search", "trucks", "kind"])).toBe("Big tipper");
    settled(other);
  });
});

describe("a change to the plan", () => {
  it("copies a thing under a name nobody has, and takes one out again", () => {
    const twice = withCopy(withCopy(meadow, ["fields"], 0, "name"), ["fields"], 0, "name");
    expect((twice.fields as Document[]).map(({ name }) => name)).toEqual(["Long Strip", "Long Strip 3", "Long Strip 2"]);
    settled(twice);
    expect(withoutItem(withCopy(meadow, ["fields"], 0, "name"), ["fields"], 1)).toEqual(meadow);
  });

  it("that renames a chopper or a storage is followed by whatever names it, so that the plan stays sound", () => {
    const other = renamed(twoChoppers, ["choppers", 1, "name"], "Big one");
    expect(at(other, ["fields", 1, "chopper"])).toBe("Big one");
    expect(at(other, ["fields", 0, "chopper"])).toBe("Near chopper");
    const crew = ["Heavy roller", "First blade", "Second blade", "Middle roller", "Light roller"];
    const tied = put(put(twoChoppers, ["fields", 0, "storage"], ["Long clamp"]), ["storage", 0, "tractors"], crew);
    const moved = renamed(renamed(tied, ["storage", 0, "name"], "Clamp A"), ["packing", "tractors", 2, "name"], "Heaviest");
    expect([at(moved, ["fields", 0, "storage"]), at(moved, ["storage", 0, "tractors"])]).toEqual([["Clamp A"], crew.map((name) => (name === "Heavy roller" ? "Heaviest" : name))]);
    settled(other);
    settled(moved);
  });

  it("back to usual leaves the key out, and a plan that never had it as it is", () => {
    expect(at(without(meadow, ["choppers", 0, "turnTime"]), ["choppers", 0])).not.toHaveProperty("turnTime");
    expect(without(meadow, ["herd", "season"])).toEqual(meadow);
  });
});

describe("a plan as a file and under a name", () => {
  it("comes back from YAML as it went out, for every example", async () => {
    for (const name of names) expect(parse(await asYaml(example(name)))).toEqual(example(name));
  });

  it("is kept under small letters, digits and single hyphens, whatever it is called", () => {
    expect([idFor("Contractor's corn day"), idFor("Größe 2, Hof"), idFor("  ?! ")]).toEqual(["contractors-corn-day", "gro-e-2-hof", ""]);
    fc.assert(fc.property(fc.string({ maxLength: 200, unit: "grapheme" }), (name) => {
      expect(idFor(name)).toMatch(/^([a-z0-9]+(-[a-z0-9]+)*)?$/);
      expect(idFor(name).length).toBeLessThanOrEqual(60);
    }));
  });
});
