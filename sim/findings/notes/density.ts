/** What qualifies the density: the relation's scatter, its limits, and whom it gives no credit. */
import { baseUnderSlopes } from "../../forage/geometry/index.ts";
import { explainedShare, referenceLayer, surveyRange } from "../../forage/packing.ts";
import { targetsAgree } from "../../forage/porespace.ts";
import { chanceOfTarget, densityForChance, residualSd, surveyCrop } from "../../forage/scatter.ts";
import { isOutside } from "../../forage/sourced.ts";
import { thickestLayer } from "../../forage/thumb.ts";
import { INCH } from "../../forage/us.ts";
import type { DayFacts } from "../facts.ts";
import { counted, figure, likely, meanOver, percent, tonnes } from "../figure.ts";
import { formatNumber } from "../../scenario/units.ts";
import { capital } from "../../scenario/words.ts";
import { METRIC, SURE_ENOUGH } from "../headline.ts";
import type { Note } from "./note.ts";

/** Distance of the chance from one half within which it is called a coin toss (assumption of this project). */
const COIN_TOSS = 0.1;

/** A plan that predicts the target reaches it on every second storage only. */
export const chance: Note = ({ crop, targets }, _days, measures) => {
  const density = measures.dryDensity?.mean;
  if (density === undefined) return [];
  const reached = chanceOfTarget(density, targets.dryDensity, crop.kind);
  return [
    `${METRIC.density(density)} predicted is ${Math.abs(reached - 0.5) < COIN_TOSS ? "a coin toss for" : "no promise of"} the target of `
    + `${METRIC.density(targets.dryDensity)}: by the relation's own scatter the chance is ${likely(reached)}, `
    + `${percent(SURE_ENOUGH)} would ask for a prediction of ${METRIC.density(densityForChance(targets.dryDensity, SURE_ENOUGH, crop.kind))}, `
    + `and packing explained ${percent(explainedShare.value, 1)} of the variation found on farms.`,
  ];
};

/** Lifts that the relation cannot tell apart. */
export const lifts: Note = ({ crop }, _days, measures) => {
  const under = measures.shareUnderTarget?.mean ?? 0;
  if (under <= 0 || under >= 1) return [];
  return [
    `${capital(likely(under))} of the mass lies in lifts under the target, but lifts that differ by less than `
    + `${counted(residualSd[surveyCrop(crop.kind)].value)} kg DM/m3 are not told apart by the relation: within that band a difference `
    + "is no finding.",
  ];
};

/** Tractors that rolled in vain, by the relation, on most days. */
export const uncredited: Note = ({ storages }, days) => storages.flatMap((storage, s) => storage.tractors
  .filter((_, i) => days.filter((day) => day.storages[s]!.uncredited.includes(i)).length > days.length / 2)
  .map((tractor) => `The relation gives the ${tonnes(tractor.mass)} tractor ${tractor.name} no credit at ${storage.name}, `
    + "because it is so much lighter than the others; it is not sent home."));

/** Densities that the survey behind the relation never met. */
export const outside: Note = ({ storages }, days) => storages.flatMap((storage, s) => {
  const used = days.filter((day) => day.storages[s]!.mass > 0);
  if (used.length === 0) return [];
  const density = meanOver(used, (day) => day.storages[s]!.dryDensity);
  if (!isOutside(density, surveyRange.value)) return [];
  return [`${METRIC.density(density)} at ${storage.name} lies outside the ${surveyRange.value.join(" to ")} kg DM/m3 found in the survey `
    + "behind the relation: there it is a guess."];
});

/** Where dry density and pore space say different things. */
export const pores: Note = ({ targets }, days, measures) => {
  const [density, pore] = [measures.dryDensity?.mean, measures.poreSpace?.mean];
  if (density === undefined) return [];
  const dryMatter = meanOver(days, drynessOf);
  if (!isOutside(dryMatter, targetsAgree.value)) return [];
  const drier = dryMatter > targetsAgree.value[1];
  const shown = pore === undefined
    ? "the relation promises more dry matter than there is room for beside the water, so no pore space is shown"
    : `${METRIC.density(density)} (target ${METRIC.density(targets.dryDensity)}) goes with a pore space of ${formatNumber(pore, 2)} (target under `
      + `${formatNumber(targets.poreSpace, 2)})`;
  return [
    `At ${percent(dryMatter, 1)} dry matter, ${drier ? "above" : "below"} the ${percent(targetsAgree.value[0])} to `
    + `${percent(targetsAgree.value[1])} at which the two targets agree, the crop scores `
    + `${drier ? "denser in dry matter, worse in pore space" : "less dense in dry matter, better in pore space"}: ${shown}.`,
  ];
};

const drynessOf = (day: DayFacts): number => {
  const sum = (what: "mass" | "dryMass") => day.storages.reduce((total, storage) => total + storage[what], 0);
  return sum("dryMass") / sum("mass");
};

// 6 in and 15 cm are the same advice.
const SIX_INCHES = 6 * INCH * (1 + 1e-9);

/** What the layer does in the relation, and what was found since. */
export const layer: Note = ({ packing }) => {
  const notes: string[] = [];
  const usual = figure(100 * referenceLayer.value, "cm");
  const set = figure(100 * packing.layer, "cm", 3);
  if (!packing.layerTerm) {
    notes.push(`The layer term is switched off: whatever the layer, the relation sees ${usual}.`);
  } else if (packing.layer < referenceLayer.value || packing.layer > SIX_INCHES) {
    notes.push(`The relation ${packing.layer < referenceLayer.value ? "credits" : "faults"} the ${set} layer against ${usual}, but the `
      + "survey's authors later found a thicker layer as dense for the same packing time per tonne: look at the result with the layer term off too.");
  }
  if (packing.layer > SIX_INCHES) {
    notes.push(`The ${set} layer is thicker than the ${figure(100 * thickestLayer.value, "cm")} that is the most advised.`);
  }
  return notes;
};

/** A pile's mean depth hides its shoulders, and the more so the less of it is filled. */
export const shoulders: Note = ({ storages }, days) => storages.flatMap((storage, s) => {
  const used = days.filter((day) => day.storages[s]!.mass > 0);
  if (storage.form !== "pile" || used.length === 0) return [];
  const share = baseUnderSlopes(storage, meanOver(used, (day) => day.storages[s]!.volume));
  return [`${percent(share)} of the base of ${storage.name} lies under slopes, where forage is shallower and looser than the mean depth says.`];
});
