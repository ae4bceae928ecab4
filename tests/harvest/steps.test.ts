import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { readScenario } from "../../sim/scenario/read.ts";

/**
 * Steps that the simulation took and loads that it carried, of whole days with all their rules: counts of this program's own, kept so that
 * whatever makes it faster cannot change unseen what it does. A change of the model changes them, and raises the engine's version.
 */
const COUNTED = [
  ["contractor-corn-day", 689, 85],
  ["contractor-corn-day-living", 685, 85],
  ["two-choppers-one-clamp", 1300, 156],
  ["us-corn-150-acres", 1204, 154],
  ["grass-long-road", 336, 42],
] as const;

it.each(COUNTED)("the day of %s takes %i steps for %i loads, whether its states are kept or not", (id, steps, loads) => {
  const read = readScenario(readFileSync(fileURLToPath(new URL(`../../scenarios/${id}.yaml`, import.meta.url)), "utf8"));
  if ("problems" in read) throw new Error(`${id} is unsound`);
  for (const states of [false, true]) {
    const day = rehearseDay(read.scenario, { states });
    expect([day.steps, day.trips.length]).toEqual([steps, loads]);
  }
});
