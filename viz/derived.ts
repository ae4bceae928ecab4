/** What a figure rests on, how its formula reads with the numbers in it, and which cautions stand beside it. */
import { solidDensity, waterDensity } from "../sim/forage/porespace.ts";
import type { Derivation, MeasureName } from "../sim/findings/types.ts";

/** Formulas with a place for each stated input; a figure that is counted has none. `{+}` is the sum of all inputs that the formula does not name. */
const FORMULAS: Readonly<Partial<Record<MeasureName, string>>> = {
  delivered: "{loads} x {mean load}",
  deliveryRate: "({delivered} - {first load}) / {first tip to last tip}",
  loadsPerHour: "({loads} - 1) / {first tip to last tip}",
  packingRateAtTarget: "{load} / {t*}",
  packingTimePerTonne: "{rolling by all tractors} / {fresh mass laid}",
  dryDensity: "{dry matter stored} / {volume}",
  wetDensity: "{fresh mass stored} / {volume}",
  poreSpace: `1 - {dry density} / ${solidDensity.value} - (1 - {DM}) x {wet density} / ${waterDensity.value}`,
  shareUnderTarget: "{mass in lifts under target} / {fresh mass stored}",
  fillTime: "{last lift closed} - {first tip}",
  finishedAt: "{last lift closed} - {shift start}",
  chopperWaiting: "{waiting} / ({cutting} + {turning} + {changeover} + {waiting})",
  chopperCutting: "{cutting} / ({cutting} + {turning} + {changeover} + {waiting})",
  chopperWaitingOnStorage: "({weighing} + {tipping} + {spreading} + {packing}) / {time in the field}",
  dryMatterStored: "{fresh mass laid} x {dry matter}",
  dryMatterFed: "{dry matter stored} - {lost by all lines}",
  costPerTonne: "({+}) / {delivered}",
  costPerTonneFed: "{whole cost} / {dry matter fed}",
  fuel: "{burn} x {rated power x working time, all machines}",
};

/** The formula with the stated numbers in it, or null where there is nothing to work out or an input goes by another name, as with several storages. */
export function withNumbers(name: MeasureName, { inputs }: Derivation): string | null {
  const formula = FORMULAS[name];
  if (formula === undefined) return null;
  const named = new Set([...formula.matchAll(/\{([^}]+)\}/g)].map(([, input]) => input!));
  const rest = Object.keys(inputs).filter((input) => !named.has(input) && input !== "rehearsals");
  if ([...named].some((input) => input !== "+" && inputs[input] === undefined)) return null;
  return formula.replaceAll(/\{([^}]+)\}/g, (_, input: string) => (input === "+" ? rest.map((other) => figureOf(inputs[other]!)).join(" + ") : figureOf(inputs[input]!)));
}

/** What is said behind a figure, `, by ...` or `(mark)`, is not part of it. */
const figureOf = (said: string): string => said.split(/, | \(/)[0]!;

/** The figures that go into a figure; arrows never run in a circle. */
export const RESTS_ON: Readonly<Partial<Record<MeasureName, readonly MeasureName[]>>> = {
  delivered: ["loads"],
  deliveryRate: ["delivered"],
  loadsPerHour: ["loads"],
  truckWaiting: ["loads"],
  truckCycle: ["loads"],
  dryDensity: ["dryMatterStored", "packingTimePerTonne"],
  wetDensity: ["dryDensity", "delivered"],
  poreSpace: ["dryDensity", "wetDensity"],
  shareUnderTarget: ["dryDensity"],
  debtPeak: ["packingRateAtTarget"],
  packingIdle: ["packingRateAtTarget"],
  dryMatterStored: ["delivered"],
  dryMatterFed: ["dryMatterStored", "dryDensity"],
  costPerTonne: ["delivered", "fuel"],
  costPerTonneFed: ["costPerTonne", "dryMatterFed"],
};

/** Cautions, by id, that concern a figure. */
export const CAUTIONS_AT: Readonly<Partial<Record<MeasureName, readonly string[]>>> = {
  delivered: ["road-weights"],
  dryDensity: ["wall-rating"],
  packingRateAtTarget: ["wall-rating", "roll-over"],
  dryMatterStored: ["overfilled", "above-reach"],
  dryMatterFed: ["effluent", "silo-gas"],
  fillTime: ["long-shift"],
  finishedAt: ["long-shift"],
};

/** Cautions, by id, that a storage's form, height and walls bring with them. */
export const CAUTIONS_OF_STORAGE: readonly string[] = ["face-collapse", "wall-rating", "overfilled", "above-reach", "steep-slope", "trucks-on-slopes", "narrow"];
