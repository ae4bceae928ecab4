/** Where the density figures come from: the packing relation lift by lift, and what follows from it. */
import { explainedShare, referenceLayer, RELATION } from "../../forage/packing.ts";
import { solidDensity, waterDensity } from "../../forage/porespace.ts";
import { chanceOfTarget, residualSd, surveyCrop } from "../../forage/scatter.ts";
import { layerSeen } from "../../harvest/pace.ts";
import type { StorageFacts } from "../facts.ts";
import { figure, meanOver, percent } from "../figure.ts";
import { AT_TARGET } from "../stored.ts";
import type { Derivation, MeasureName } from "../types.ts";
import { METRIC_RELATION, outsideSurvey, PUBLISHED_RELATION, SURVEY } from "./relation.ts";
import { atStorage, type Derive, type View } from "./view.ts";

const total = (view: View, what: "mass" | "dryMass" | "volume"): number =>
  view.over((day) => day.storages.reduce((sum, storage) => sum + storage[what], 0));

/** Mean of a storage's figure over the days on which anything was laid in it. */
const whereUsed = ({ days }: View, s: number, of: (storage: StorageFacts) => number): number =>
  meanOver(days.map((day) => day.storages[s]!).filter((storage) => storage.mass > 0), of);

/** Outside as soon as one storage's mean density is. */
const anyOutside = (view: View): boolean => view.used.some((s) => outsideSurvey(whereUsed(view, s, (storage) => storage.dryDensity)));

/** What hangs on the relation carries its source, mark and range. */
const byRelation = (view: View, formula: string, inputs: Derivation["inputs"]): Derivation => ({
  formula, inputs, source: RELATION.source, mark: RELATION.mark, range: SURVEY, outside: anyOutside(view),
});

/** Tractors of a crew: mass and the share of its time each rolls. */
export const crewInWords = ({ scenario }: View, s: number): string =>
  scenario.storages[s]!.tractors
    .map((tractor) => `${figure(tractor.mass / 1000, "t")}${tractor.spreads === null ? "" : " (pushes)"} rolling ${percent(tractor.rolling)}`)
    .join(", ");

function dryDensity(view: View): Derivation {
  const { scenario, used } = view;
  const { layer } = scenario.packing;
  const seen = layerSeen(scenario, layer);
  const scatter = residualSd[surveyCrop(scenario.crop.kind)];
  return byRelation(view,
    `dry density = dry matter stored / volume; volume = sum over the lifts of dry matter / density of the lift; `
    + `${METRIC_RELATION}; ${PUBLISHED_RELATION}`, {
      "dry matter stored": figure(total(view, "dryMass") / 1000, "t"), volume: figure(total(view, "volume"), "m3"),
      DM: figure(total(view, "dryMass") / total(view, "mass"), "1"),
      "L, as set": figure(100 * layer, "cm")
        + (seen === layer ? "" : `; the layer term is off and the relation sees ${figure(100 * seen, "cm")} (${referenceLayer.mark})`),
      "E, mean of all lifts": figure(view.mean("packingTimePerTonne") / 60, "h/t"),
      ...Object.fromEntries(used.flatMap((s) => [
        [atStorage(view, s, "D, as it came to"), figure(whereUsed(view, s, (storage) => storage.depth), "m")],
        [atStorage(view, s, "tractors"), crewInWords(view, s)],
      ])),
      "share of the variation between bunkers that the packing factor explains": `${percent(explainedShare.value, 1)} (${explainedShare.mark})`,
      "standard deviation between storages packed alike": `${figure(scatter.value, scatter.unit, 3)} (${scatter.mark})`,
      "chance of the target by that scatter": percent(chanceOfTarget(view.mean("dryDensity"), scenario.targets.dryDensity, scenario.crop.kind)),
    });
}

export const fromDensity = {
  dryDensity,
  wetDensity: (view) => byRelation(view, "wet density = fresh mass stored / volume; the volume is that of the dry density, by the packing relation", {
    "fresh mass stored": figure(total(view, "mass") / 1000, "t"), volume: figure(total(view, "volume"), "m3"),
  }),
  poreSpace: (view) => ({
    formula: `pore space = 1 - dry density / ${solidDensity.value} - (1 - DM) wet density / ${waterDensity.value}, `
      + "densities in kg/m3; they come from the packing relation",
    inputs: {
      "dry density": `${figure(view.mean("dryDensity"), "kg DM/m3")}, by the packing relation (${RELATION.mark})`,
      "wet density": figure(view.mean("wetDensity"), "kg/m3"),
      DM: figure(total(view, "dryMass") / total(view, "mass"), "1"),
    },
    source: solidDensity.source, mark: solidDensity.mark, range: `densities that go in: ${SURVEY}`, outside: anyOutside(view),
  }),
  shareUnderTarget: (view) => byRelation(view,
    "share under target = fresh mass in lifts less dense than the target x tolerance / fresh mass stored; each lift's density by the "
    + "packing relation at the storage's mean depth", {
      "mass in lifts under target": figure(view.mean("shareUnderTarget") * total(view, "mass") / 1000, "t"),
      "fresh mass stored": figure(total(view, "mass") / 1000, "t"),
      target: figure(view.scenario.targets.dryDensity, "kg DM/m3"), tolerance: `${AT_TARGET} (assumption of this project)`,
    }),
} as const satisfies Partial<Record<MeasureName, Derive>>;
