/** Where each figure comes from: one derivation for every measure, kept by the table or relation it is read from. */
import type { Scenario } from "../scenario/types.ts";
import { fromDensity } from "./derivations/density.ts";
import { fromLifts } from "./derivations/lifts.ts";
import { fromMoney } from "./derivations/money.ts";
import { fromPace } from "./derivations/pace.ts";
import { fromStates } from "./derivations/states.ts";
import { fromTrips } from "./derivations/trips.ts";
import { viewOf, type Derive } from "./derivations/view.ts";
import type { DayFacts } from "./facts.ts";
import { counted } from "./figure.ts";
import type { Derivation, Measure, MeasureName } from "./types.ts";

const DERIVE: Readonly<Record<MeasureName, Derive>> = { ...fromTrips, ...fromLifts, ...fromStates, ...fromDensity, ...fromPace, ...fromMoney };

/**
 * One derivation for each of the measures: a formula to redo by hand, what went in, source, mark and range. Inputs are means over the
 * days; with several days a ratio of them comes close to the mean of the days' own ratios and is not exactly it, so the inputs say how
 * many there are.
 */
export function derivationsOf(
  scenario: Scenario, days: readonly DayFacts[], measures: Partial<Record<MeasureName, Measure>>,
): Partial<Record<MeasureName, Derivation>> {
  const view = viewOf(scenario, days, measures);
  const derivations: Partial<Record<MeasureName, Derivation>> = {};
  for (const name of Object.keys(measures) as MeasureName[]) {
    const derivation = DERIVE[name](view);
    derivations[name] = days.length === 1 ? derivation : {
      ...derivation, inputs: { ...derivation.inputs, rehearsals: `${counted(days.length)}; worked out on each and averaged, inputs likewise` },
    };
  }
  return derivations;
}
