import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { checkScenario } from "../../sim/scenario/read.ts";
import { RANGES, applyEdits, controlsOf, type Amount, type Edits } from "../../viz/controls.ts";
import type { Document } from "../../viz/document.ts";
import { written } from "../../viz/quantity.ts";

const example = (name: string): Document => parse(readFileSync(new URL(`../../scenarios/${name}.yaml`, import.meta.url), "utf8")) as Document;
const worked = example("contractor-corn-day");
const amounts = (document: Document) => controlsOf(document, []).filter((control): control is Amount => control.type === "amount");
const valueOf = (document: Document, id: string) => controlsOf(document, []).find((control) => control.id === id)?.value;

function sound(document: Document) {
  const checked = checkScenario(document);
  if ("problems" in checked) throw new Error(checked.problems.map(({ pointer, detail }) => `${pointer} ${detail}`).join("\n"));
  return checked.scenario;
}

describe("the controls of a plan", () => {
  it("are read from the document: the worked example has 5 trucks over 2.4 km, a 14 t blade and a 16 t roller", () => {
    expect(amounts(worked).map(({ id, value }) => [id, value])).toEqual([
      ["pace.0", expect.closeTo(160_000 / 3600, 6)], ["trucks.0", 5], ["road", 2400], ["tips.0", 1], ["tractors", 2], ["tractor.0", 14_000], ["tractor.1", 16_000], ["layer", 0.15],
    ]);
    expect(valueOf(worked, "rule")).toBe("bury");
  });

  it("know the road of fields that are told by their outline only, from the answer; set, it becomes the road of each", () => {
    const mapped = example("mapped-fields");
    const { fields } = sound(mapped);
    const road = (document: Document, measured = sound(document).fields) => controlsOf(document, [], measured).find(({ id }) => id === "road")?.value as number;
    const whole = fields.reduce((sum, { area }) => sum + area, 0);
    expect(road(mapped)).toBeCloseTo(fields.reduce((sum, { area, distance }) => sum + (area / whole) * distance, 0), 6);
    expect(valueOf(mapped, "road")).toBeNull();
    expect(road(applyEdits(mapped, { road: "3 km" }))).toBeCloseTo(3000, 6);
    // The speed rises for a pace that it cannot bring, whether or not the areas are written out.
    const [chopper] = sound(applyEdits(mapped, { "pace.0": "400 t/h" })).choppers;
    expect(chopper!.speed).toBeGreaterThan(sound(mapped).choppers[0]!.speed);
  });

  it("write what they are set to, so that it is read back as it was set, in either system", () => {
    const settings = amounts(worked).flatMap(({ id, what, dimension }) => (["metric", "us"] as const).map((system) => ({ id, what, dimension, system })));
    fc.assert(fc.property(fc.constantFrom(...settings), fc.double({ min: 0, max: 1, noNaN: true }), ({ id, what, dimension, system }, share) => {
      const [least, most, step] = RANGES[what][system];
      const shown = Number((least + Math.round((share * (most - least)) / step) * step).toFixed(6));
      const edited = applyEdits(worked, { [id]: dimension === null ? String(shown) : written(shown, dimension, system) });
      const factor = dimension === null ? 1 : valueOf(applyEdits(worked, { [id]: written(1, dimension, system) }), id) as number;
      expect(valueOf(edited, id)).toBeCloseTo(shown * factor, 6);
      sound(edited);
    }));
  });

  it("leave the example itself as it was, and the plan as the example when nothing is set", () => {
    const before = structuredClone(worked);
    applyEdits(worked, { "trucks.0": "9", tractors: "4", layer: "10 cm", "pace.0": "250 t/h" });
    expect(worked).toEqual(before);
    expect(applyEdits(worked, {})).toEqual(worked);
  });

  it("add tractors that only pack, and take away the last ones first", () => {
    const more = sound(applyEdits(worked, { tractors: "4", "tractor.3": "20 t" })).storages[0]!.tractors;
    expect(more.map(({ mass }) => mass)).toEqual([14_000, 16_000, 16_000, 20_000]);
    expect(more.map(({ spreads }) => spreads !== null)).toEqual([true, false, false, false]);
    expect(new Set(more.map(({ name }) => name)).size).toBe(4);
    expect(sound(applyEdits(worked, { tractors: "1" })).storages[0]!.tractors.map(({ name }) => name)).toEqual(["Blade"]);
  });

  it("stretch the roads of several fields alike, so that their mean by area is what was set", () => {
    const both = example("us-corn-150-acres");
    const scenario = sound(applyEdits(both, { road: "10 km" }));
    const area = scenario.fields.reduce((sum, field) => sum + field.area, 0);
    expect(scenario.fields.reduce((sum, field) => sum + field.distance * field.area, 0) / area).toBeCloseTo(10_000, 3);
    const [a, b] = sound(both).fields;
    expect(scenario.fields[1]!.distance / scenario.fields[0]!.distance).toBeCloseTo(b!.distance / a!.distance, 6);
  });

  it("make the chopper drive faster when the pace asks for more than its header brings, and only then", () => {
    const [slow] = sound(applyEdits(worked, { "pace.0": "100 t/h" })).choppers;
    expect(slow!.speed).toBeCloseTo(6 / 3.6, 9);
    const [fast] = sound(applyEdits(worked, { "pace.0": "270 t/h" })).choppers;
    // 270 t/h on 6 m of 45 t/ha is 10 km/h.
    expect(fast!.speed).toBeCloseTo(10 / 3.6, 6);
  });

  it("leave out edits that fit nothing in the plan, whatever an address says", () => {
    const strange: Edits = { "trucks.7": "3", "tips.4": "2", "mass.0.3": "9 t", "pace.3": "90 t/h", tractors: "-2", "crew.0": "1e9" };
    expect(applyEdits(worked, strange)).toEqual(worked);
  });

  it("turn the crew of a storage that has tractors of its own", () => {
    const { packing, storage, ...rest } = worked as unknown as { packing: { tractors: object[] }; storage: object[] } & Record<string, never>;
    const { tractors, ...how } = packing;
    const own = { ...rest, packing: how, storage: [{ ...storage[0], tractors }] } as unknown as Document;
    expect(valueOf(own, "crew.0")).toBe(2);
    expect(valueOf(own, "mass.0.1")).toBe(16_000);
    const edited = sound(applyEdits(own, { "crew.0": "3", "mass.0.2": "25 t" }));
    expect(edited.storages[0]!.tractors.map(({ mass }) => mass)).toEqual([14_000, 16_000, 25_000]);
  });

  it("take from the list of defaults what the document does not say", () => {
    const { layer: _, ...packing } = worked.packing as unknown as { layer: string };
    const silent = { ...worked, packing } as unknown as Document;
    const checked = checkScenario(silent);
    if ("problems" in checked) throw new Error("unsound");
    expect(controlsOf(silent, checked.defaults).find(({ id }) => id === "layer")?.value).toBeCloseTo(0.15, 9);
  });
});
