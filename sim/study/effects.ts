/** What a change does to a day, by the few figures that people judge it by. */
import { mean } from "simple-statistics";
import type { DayFacts } from "../findings/facts.ts";
import type { Station } from "../findings/types.ts";
import { bottleneckOf } from "../findings/verdict.ts";
import { chanceOfTarget } from "../forage/scatter.ts";
import type { Scenario } from "../scenario/types.ts";
import { betterOf, type ComparedDifference } from "./compare.ts";
import { differenceOf } from "./difference.ts";
import { FIGURES, figureOf, isWhole, type FigureName } from "./figures.ts";
import { EFFECTS, type EffectName } from "./effectnames.ts";

/** A plan and its days. */
export interface Rehearsed { readonly scenario: Scenario; readonly days: readonly DayFacts[] }

export interface Effect extends ComparedDifference {
  readonly figure: FigureName;
  /** sure, and large enough to notice */ readonly moves: boolean;
}

export interface Effects {
  readonly by: Readonly<Record<EffectName, Effect>>;
  /** of keeping pace, the luck of the day: before and after */ readonly chance: readonly [number, number];
  /** it is surely another, by enough to notice */ readonly chanceMoves: boolean;
  /** of the target, by the published relation: before and after */ readonly chanceOfTarget: readonly [number, number];
  /** kg DM/m3 with the change, mean over the days */ readonly densityAfter: number;
  /** kg of crop still standing in the evening, mean over the days: before and after */ readonly left: readonly [number, number];
  /** what limits the day with the change */ readonly bottleneck: Station;
}

/** The least that is noticed (assumptions of this project): shares of the value before, of the chopper's time, and 5 minutes. */
export const NOTICED = { cost: 0.01, density: 0.01, waiting: 0.01, finish: 5 / 60, pace: 0.01 } as const;
/** Share of the days that must come or go for the chance of keeping pace to be another (assumption of this project). */
const CHANCE_NOTICED = 0.1;

/** Which figure stands for an effect. */
export function figureFor(effect: EffectName, cost: "costPerTonne" | "costPerTonneFed"): FigureName {
  return ({ cost, density: "dryDensity", waiting: "chopperWaiting", finish: "closedAt", pace: "deliveryRate" } as const)[effect];
}

/**
 * From one plan to another on the same days. Null where a day gives no such figure, as when nothing is delivered; pace alone counts as unmoved then.
 * @param confidence of each single difference
 */
export function effectsOf(before: Rehearsed, after: Rehearsed, cost: "costPerTonne" | "costPerTonneFed", confidence: number): Effects | null {
  const by: Partial<Record<EffectName, Effect>> = {};
  for (const effect of EFFECTS) {
    const figure = figureFor(effect, cost);
    let [a, b] = [before, after].map(({ scenario, days }) => figureOf(scenario, days, figure)) as [number[], number[]];
    // One load makes no pace: such days are judged by all else.
    if (effect === "pace" && !(isWhole(a) && isWhole(b))) [a, b] = [a, b].map((days) => days.map(() => 0)) as [number[], number[]];
    if (!isWhole(a) || !isWhole(b)) return null;
    const difference = differenceOf(a, b, FIGURES[figure], confidence)!;
    const least = effect === "waiting" || effect === "finish" ? NOTICED[effect] : NOTICED[effect] * Math.abs(mean(a));
    by[effect] = { ...difference, better: betterOf(figure, difference), figure, moves: difference.sure && Math.abs(difference.mean) >= least };
  }
  const keeping = ({ days }: Rehearsed) => days.map((day) => Number(day.keepsPace));
  const kept = differenceOf(keeping(before), keeping(after), "1", confidence)!;
  const chance = (plan: Rehearsed) => mean(keeping(plan));
  const left = ({ days }: Rehearsed) => mean(days.map((day) => day.uncut));
  const ofTarget = ({ scenario, days }: Rehearsed) => chanceOfTarget(mean(figureOf(scenario, days, "dryDensity")), scenario.targets.dryDensity, scenario.crop.kind);
  return {
    by: by as Record<EffectName, Effect>, chance: [chance(before), chance(after)], chanceMoves: kept.sure && Math.abs(kept.mean) >= CHANCE_NOTICED, chanceOfTarget: [ofTarget(before), ofTarget(after)],
    left: [left(before), left(after)], densityAfter: mean(figureOf(after.scenario, after.days, "dryDensity")), bottleneck: bottleneckOf(after.scenario, after.days),
  };
}
