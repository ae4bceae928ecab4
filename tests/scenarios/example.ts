/** The worked examples as tests meet them: read from the folder, altered in one place, rehearsed on the same luck. */
import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { factsOf, type DayFacts } from "../../sim/findings/facts.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { Day } from "../../sim/harvest/daylog.ts";
import { readScenario } from "../../sim/scenario/read.ts";
import type { AppliedDefault, Scenario } from "../../sim/scenario/types.ts";

const FOLDER = join(import.meta.dirname, "../../scenarios");

/** Names of all worked examples, without their ending. */
export const exampleNames = readdirSync(FOLDER).filter((file) => file.endsWith(".yaml")).map((file) => basename(file, ".yaml")).sort();

/** The text of an example as it stands in the folder. */
export const exampleText = (name: string): string => readFileSync(join(FOLDER, `${name}.yaml`), "utf8");

/** Reads a scenario that must be sound; throws with what is wrong when it is not. */
export function sound(text: string): { readonly scenario: Scenario; readonly defaults: readonly AppliedDefault[] } {
  const checked = readScenario(text);
  if ("problems" in checked) throw new Error(checked.problems.map(({ pointer, detail }) => `${pointer} ${detail}`).join("\n"));
  return checked;
}

export const example = (name: string): Scenario => sound(exampleText(name)).scenario;

/** The example with something else written in one place. Throws when that place is not there, or there more than once. */
export function altered(name: string, written: string, instead: string): Scenario {
  const parts = exampleText(name).replaceAll(/^#.*$/gm, "").split(written);
  if (parts.length !== 2) throw new Error(`"${written}" stands ${parts.length - 1} times in ${name}, not once`);
  return sound(parts.join(instead)).scenario;
}

export interface RehearsedDay { readonly day: Day; readonly facts: DayFacts }

/** Days 0 to n - 1 of a scenario, each with what it says; the same numbers mean the same luck, whatever the fleet. */
export function days(scenario: Scenario, n: number, seed = 1): RehearsedDay[] {
  return Array.from({ length: n }, (_, rehearsal) => {
    const day = rehearseDay(scenario, { seed, rehearsal });
    return { day, facts: factsOf(scenario, day) };
  });
}

export const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** The middle value; of an even number the mean of the two in the middle. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return (sorted[Math.floor((sorted.length - 1) / 2)]! + sorted[Math.ceil((sorted.length - 1) / 2)]!) / 2;
}

/** Distance from an expected value as a share of it. */
export const off = (actual: number, expected: number): number => Math.abs(actual / expected - 1);

/** t/h that went into a storage between two times of day (h): what was tipped after the first tip in that time, over the time from that tip to the last. */
export function deliveredBetween({ trips }: Day, from: number, to: number): number {
  const tips = trips.filter((trip) => trip.tipFrom >= from * 3600 && trip.tipFrom < to * 3600).sort((a, b) => a.tipFrom - b.tipFrom);
  const mass = tips.slice(1).reduce((sum, trip) => sum + trip.mass, 0);
  return (mass / (tips.at(-1)!.tipFrom - tips[0]!.tipFrom)) * 3.6;
}
