/** Small invented days for the tests of findings: written as a user would, rehearsed, summed up. */
import { factsOf, type DayFacts } from "../../sim/findings/facts.ts";
import { measuresOf } from "../../sim/findings/findings.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { checkScenario } from "../../sim/scenario/read.ts";
import type { Scenario, Storage } from "../../sim/scenario/types.ts";

/** One field of 8 ha, one chopper, four trucks, a bunker, a blade and a roller; nothing varies. */
export const LONG_STRIP = {
  name: "Long Strip",
  crop: { kind: "corn", dryMatter: "34 %" },
  fields: [{ name: "Strip", area: "8 ha", yield: "45 t/ha", distance: "2 km" }],
  choppers: [{ name: "Chopper", width: "6 m", speed: "6 km/h", throughput: "160 t/h", power: "450 kW" }],
  trucks: [{ kind: "Tipper", count: 4, load: "16 t", power: "150 kW" }],
  weighing: { time: "1 min" },
  storage: [{ name: "North", form: "bunker", width: "12 m", length: "45 m", height: "3.2 m" }],
  packing: {
    tractors: [{ name: "Blade", mass: "14 t", spreads: "220 t/h", power: "180 kW" }, { name: "Roller", mass: "16 t", power: "160 kW" }],
  },
  variation: "none",
} as const;

/** A checked scenario; problems fail the test in the user's words. */
export function sound(document: unknown): Scenario {
  const checked = checkScenario(document);
  if ("problems" in checked) throw new Error(checked.problems.map((problem) => `${problem.pointer} ${problem.detail}`).join("; "));
  return checked.scenario;
}

/** Days, their measures and the scenario, ready for any of the findings. */
export function rehearsed(scenario: Scenario, rehearsals = 1) {
  const days: DayFacts[] = [];
  for (let rehearsal = 0; rehearsal < rehearsals; rehearsal++) days.push(factsOf(scenario, rehearseDay(scenario, { rehearsal })));
  return [scenario, days, measuresOf(days)] as const;
}

/** The scenario with its first storage changed. */
export const withStorage = (scenario: Scenario, change: Partial<Storage>): Scenario =>
  ({ ...scenario, storages: [{ ...scenario.storages[0]!, ...change }, ...scenario.storages.slice(1)] });

/** The days with the first storage's facts changed. */
export const withFacts = (days: readonly DayFacts[], change: Partial<DayFacts["storages"][number]>): DayFacts[] =>
  days.map((day) => ({ ...day, storages: [{ ...day.storages[0]!, ...change }, ...day.storages.slice(1)] }));
