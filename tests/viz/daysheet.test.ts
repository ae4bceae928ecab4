/** The figures of the day sheet, out of rehearsed worked examples. */
import { describe, expect, it } from "vitest";
import { stopRules } from "../../sim/findings/stoprules.ts";
import { storedIn } from "../../sim/findings/stored.ts";
import { LOG_SCHEMA, writeLog } from "../../sim/harvest/log.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { ENGINE_VERSION } from "../../sim/version.ts";
import { PACES, daySheetOf, paceLength } from "../../viz/crew/daysheet.ts";
import { readRehearsed } from "../../viz/rehearsed.ts";
import { example, exampleNames } from "../scenarios/example.ts";

const made = new Map<string, ReturnType<typeof make>>();

/** The sheet of a worked example, made once. */
function sheetOf(name: string) {
  const sheet = made.get(name) ?? make(name);
  made.set(name, sheet);
  return sheet;
}

function make(name: string) {
  const scenario = example(name);
  const { findings, day, rehearsal } = rehearse(scenario, { rehearsals: 8 });
  const story = readRehearsed(writeLog({ schema: LOG_SCHEMA, engine: ENGINE_VERSION, scenario: findings.scenario, seed: findings.seed, rehearsal, plan: scenario }, day));
  return { scenario, findings, day, sheet: daySheetOf(findings, story) };
}

describe("the day sheet", () => {
  it("lists the fields as the choppers came to them, with all their crop and the loads it makes", () => {
    const { sheet, scenario } = sheetOf("haylage-drying");
    const starts = sheet.fields.map(({ start }) => start!);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
    expect(sheet.fields.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(scenario.fields.reduce((sum, { area, yield: crop }) => sum + area * crop, 0), 6);
    const [{ load }] = scenario.trucks as [typeof scenario.trucks[number]];
    for (const { mass, loads } of sheet.fields) {
      expect(loads * load).toBeGreaterThanOrEqual(mass - 1e-6);
      expect((loads - 1) * load).toBeLessThan(mass);
    }
  });

  it("gives the clock of the finish with its spread: eight of ten days lie between, and what is rolled by then is covered after it", () => {
    const { sheet: { finish: [early, mean, late], clamps }, findings, scenario } = sheetOf("contractor-corn-day-living");
    expect(early).toBeLessThan(mean);
    expect(mean).toBeLessThan(late);
    expect((mean - scenario.shift.start) / 3600).toBeCloseTo(findings.measures.finishedAt!.mean, 9);
    const [clamp] = clamps as [typeof clamps[number]];
    expect(clamp.cover!.from).toBe(mean);
    expect(clamp.cover!.until - clamp.cover!.from).toBeCloseTo(findings.storages[0]!.cover.hours * 3600, 6);
  });

  it("sends the trucks home when they have tipped their last load, and not after the crew", () => {
    const { sheet, day } = sheetOf("two-choppers-one-clamp");
    const tipped = day.trips.map((trip) => trip.tipped).filter((at) => !Number.isNaN(at));
    expect(sheet.home![1]).toBeCloseTo(Math.max(...tipped), 3);
    expect(sheet.home![0]).toBeLessThanOrEqual(sheet.home![1]);
    expect(sheet.home![1]).toBeLessThan(day.until);
  });

  it("spaces the loads as they came: so many minutes apart make so many loads an hour", () => {
    const { sheet, findings } = sheetOf("low-meadow");
    expect(60 / sheet.every).toBeCloseTo(findings.measures.loadsPerHour!.mean, 9);
  });

  it("never lets the slope be steeper than is advised, and says it in paces", () => {
    for (const name of exampleNames) {
      const { sheet } = sheetOf(name);
      for (const { run, riseInTen, pacesToTop, storage } of sheet.clamps) {
        expect(run).toBeGreaterThanOrEqual(3);
        expect(riseInTen * run).toBeCloseTo(PACES * paceLength.value, 9);
        expect(pacesToTop * paceLength.value).toBeGreaterThanOrEqual(storage.height * run - 1e-9);
      }
    }
  });

  it("takes the stop rules as the engine reckons them, and the loosest tenth from the lifts", () => {
    const { sheet: { clamps }, scenario, day } = sheetOf("us-corn-150-acres");
    expect(clamps.map(({ rules }) => rules)).toEqual(stopRules(scenario));
    const densities = storedIn(day, scenario, 0).densities;
    expect(clamps[0]!.loosest).toBeGreaterThanOrEqual(Math.min(...densities) - 0.1);
    expect(clamps[0]!.loosest).toBeLessThan(densities.reduce((sum, density) => sum + density, 0) / densities.length);
  });

  it("stops the chopper outside the published window of the crop", () => {
    const { most, least, mark } = sheetOf("alfalfa-pile").sheet.moisture;
    expect([most, least].map((share) => Number(share.toFixed(9)))).toEqual([0.65, 0.6]);
    expect(mark).toBe("published");
  });
});
