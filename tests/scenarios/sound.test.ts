/** Every worked example is sound, says first what it shows, and holds nothing that a contractor or a dairy owner would shake the head at. */
import { describe, expect, it } from "vitest";
import { workingSpeed } from "../../sim/forage/capacity.ts";
import { capacityOf } from "../../sim/forage/geometry/index.ts";
import { surveyRange } from "../../sim/forage/packing.ts";
import { chopLengthWindow } from "../../sim/forage/window.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { days, example, exampleNames, exampleText, mean, off, sound } from "./example.ts";

const TOLD = [
  "alfalfa-pile", "bunker-12x45", "contractor-corn-day", "contractor-corn-day-fixed", "contractor-corn-day-living",
  "dairy-bunker-900-cows", "dairy-pile-900-cows", "grass-long-road", "haylage-drying", "low-meadow", "mapped-fields", "pile-for-12x45",
  "two-choppers-one-clamp", "us-corn-150-acres",
];

it("are all told of here: an example without a test of what it shows does not slip in", () => {
  expect(exampleNames).toEqual(TOLD);
});

it("have names of their own", () => {
  const names = exampleNames.map((name) => example(name).name);
  expect(new Set(names).size).toBe(names.length);
});

describe.each(exampleNames)("%s", (name) => {
  const { scenario, defaults } = sound(exampleText(name));
  const { fields, storages, choppers, trucks, targets } = scenario;
  const dryMass = fields.reduce((sum, field) => sum + field.area * field.yield * field.dryMatter, 0);
  const room = storages.reduce((sum, storage) => sum + capacityOf(storage), 0);

  it("says in the first line, in one sentence, what it shows", () => {
    const first = exampleText(name).split("\n")[0]!;
    expect(first).toMatch(/^# [A-Z].*[a-z]\.$/);
    expect(first.slice(2, -1)).not.toMatch(/[.!?] [A-Z]/);
    expect(first.length).toBeLessThan(175);
  });

  it("brings a crop that fits its storage at the target density, and does not leave it half empty for nothing", () => {
    const filled = dryMass / targets.dryDensity / room;
    expect(filled).toBeLessThan(0.95);
    expect(filled).toBeGreaterThan(0.5);
  });

  it("has machines and roads as they are", () => {
    for (const { speed, width } of choppers) {
      const [slowest, fastest] = workingSpeed.value;
      expect(speed * 3.6).toBeGreaterThanOrEqual(slowest);
      expect(speed * 3.6).toBeLessThanOrEqual(fastest);
      expect(width).toBeGreaterThanOrEqual(3);
      expect(width).toBeLessThanOrEqual(12);
    }
    for (const { load, loadedSpeed, emptySpeed } of trucks) {
      expect(load).toBeLessThanOrEqual(22 * 907.2);
      expect(loadedSpeed * 3.6).toBeGreaterThanOrEqual(20);
      expect(emptySpeed).toBeGreaterThan(loadedSpeed);
      expect(emptySpeed * 3.6).toBeLessThanOrEqual(75);
    }
    for (const { distance } of fields) expect(distance).toBeLessThanOrEqual(15_000);
    for (const { tractors, width } of storages) {
      for (const { mass } of tractors) {
        expect(mass).toBeGreaterThanOrEqual(10_000);
        expect(mass).toBeLessThanOrEqual(25_000);
      }
      // A machine wants about 4.5 m of width to work on the clamp.
      expect(tractors.length * 4.5).toBeLessThanOrEqual(width);
    }
  });

  it("has a crop fit to be stored, chopped as is usual", () => {
    const [shortest, longest] = chopLengthWindow.value;
    expect(scenario.crop.chopLength).toBeGreaterThanOrEqual(shortest - 0.0005);
    expect(scenario.crop.chopLength).toBeLessThanOrEqual(longest + 0.0005);
    for (const { dryMatter } of fields) {
      expect(dryMatter).toBeGreaterThanOrEqual(0.3);
      expect(dryMatter).toBeLessThanOrEqual(0.45);
    }
  });

  it("ends as such a day may end: nothing lost, nothing overfull, a depth under the wall, a density that was found on farms", () => {
    const { findings } = rehearse(scenario, { rehearsals: 30, defaults });
    const { measures, verdict } = findings;
    const stored = findings.storages.reduce((sum, storage) => sum + storage.filledT, 0);
    expect(off(stored, measures.delivered!.mean)).toBeLessThan(1e-9);
    findings.storages.forEach((storage, s) => {
      expect(storage.full).toBe(false);
      expect(storage.meanDepth).toBeGreaterThan(1);
      expect(storage.meanDepth).toBeLessThan(storages[s]!.height);
      expect((storage.dryT * 1000) / storage.dryDensity.mean).toBeLessThan(capacityOf(storages[s]!));
      expect(storage.dryDensity.mean).toBeGreaterThan(surveyRange.value[0]);
      expect(storage.dryDensity.mean).toBeLessThan(surveyRange.value[1]);
      expect(storage.poreSpace).toBeGreaterThan(0.3);
      expect(storage.poreSpace).toBeLessThan(0.6);
    });
    const left = mean(days(scenario, 30).map(({ facts }) => facts.uncut));
    expect(left, "kg left standing").toBeLessThan(0.01 * fields.reduce((sum, field) => sum + field.area * field.yield, 0));
    expect(scenario.shift.start / 3600 + measures.finishedAt!.mean).toBeLessThan(22);
    expect(verdict.headline).toMatch(/^Packing (keeps pace|falls behind)/);
    expect(verdict.chance >= 0.9).toBe(verdict.keepsPace);
  });
});
