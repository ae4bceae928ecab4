/** Where the figures of keeping pace come from: t*, the steady time a load takes at target, and the debt that is reckoned in it. */
import { RELATION, referenceLayer } from "../../forage/packing.ts";
import { cycleAtTarget, layerSeen, plannedDepth, pushRate, usualLoad } from "../../harvest/pace.ts";
import { BEHIND_FOR } from "../debt.ts";
import { figure } from "../figure.ts";
import type { Derivation, MeasureName } from "../types.ts";
import { crewInWords } from "./density.ts";
import { METRIC_RELATION, outsideSurvey, SURVEY } from "./relation.ts";
import { sinceWhen } from "../words.ts";
import { atStorage, type Derive, type View } from "./view.ts";

/** s */
const steadySeconds = ({ scenario }: View, s: number): number => cycleAtTarget(scenario, scenario.storages[s]!, usualLoad(scenario, s), plannedDepth(scenario, s));

const perStorage = (view: View, rows: (s: number) => Derivation["inputs"]): Derivation["inputs"] =>
  Object.fromEntries(view.used.flatMap((s) => Object.entries(rows(s)).map(([what, words]) => [atStorage(view, s, what), words])));

function packingRateAtTarget(view: View): Derivation {
  const { scenario, used } = view;
  const { targets, packing } = scenario;
  return {
    formula: `packing rate at target = load / t*${used.length > 1 ? ", summed over the storages" : ""}; t* = time to spread the load + wait `
      + "until the lift, rolled by everybody meanwhile and by "
      + `the tractors that do not push while the next load is spread, has the target density; ${METRIC_RELATION}`,
    inputs: {
      ...perStorage(view, (s) => {
        const load = usualLoad(scenario, s);
        return {
          load: figure(load.mass / 1000, "t"), "t*": figure(steadySeconds(view, s) / 3600, "h"),
          "time to spread the load": figure(load.mass / pushRate(scenario.storages[s]!.tractors, packing.layer) / 3600, "h"),
          DM: figure(load.dryMass / load.mass, "1"), "D, as planned": figure(plannedDepth(scenario, s), "m"), tractors: crewInWords(view, s),
        };
      }),
      target: figure(targets.dryDensity, "kg DM/m3"), "L, as the relation sees it": figure(100 * layerSeen(scenario, packing.layer), "cm"),
      "spreading scales with the layer":
        `rates hold at ${figure(100 * referenceLayer.value, "cm")}; half the layer, half the rate (assumption of this project)`,
    },
    source: RELATION.source, mark: RELATION.mark, range: SURVEY, outside: outsideSurvey(targets.dryDensity),
  };
}

const byDebt = (view: View, formula: string, more: Derivation["inputs"] = {}): Derivation => ({
  formula: `simulated: ${formula}; a tipped load adds its t* to the debt, a working minute of the full crew takes one minute off, a smaller `
    + "crew less, and rolling beyond what is owed earns nothing (table of trips)",
  inputs: { ...perStorage(view, (s) => ({ "t* of a usual load": figure(steadySeconds(view, s) / 60, "min") })), ...more },
  source: `this rehearsal; debt as a reflected queue after Lindley 1952, t* by ${RELATION.source}`,
  mark: "simulated; packing debt is an assumption of this project", range: SURVEY, outside: outsideSurvey(view.scenario.targets.dryDensity),
});

export const fromPace = {
  packingRateAtTarget,
  packingIdle: (view) => byDebt(view, `packing idle = working time without debt / working time, from ${sinceWhen(view.scenario, view.over((day) => day.from))} to the last lift closed`),
  debtPeak: (view) => byDebt(view, "debt peak = highest debt at any one storage, in minutes of the full crew's work", {
    "packing is behind": `above one usual load's t* for ${figure(BEHIND_FOR / 60, "min")} or more (assumption of this project)`,
  }),
} as const satisfies Partial<Record<MeasureName, Derive>>;
