/** A difference between two plans in words: what each is better at, and what the loss ledger or the published relation could not tell apart. */
import { MEASURE_WORDS } from "../findings/words.ts";
import { METRIC } from "../findings/headline.ts";
import type { ComparedDifference } from "./compare.ts";
import type { FigureName } from "./figures.ts";

/** What a dairy and a contractor weigh up; the other figures lie behind these. */
export const WEIGHED = ["dryDensity", "dryMatterFed", "costPerTonneFed", "costPerTonne", "fillTime", "chopperWaiting", "truckWaiting"] as const satisfies readonly FigureName[];

/** A difference between two plans, and what of the model leaves open which of them is more, however sure the days are. */
export interface PlanDifference extends ComparedDifference {
  /** the scatter of the published relation, the range of the loss ledger; null when it is told apart */ readonly within: "relation" | "ledger" | null;
}

type Figures = Readonly<Partial<Record<FigureName, PlanDifference>>>;

/** A figure of a plan and the ends between which the model leaves it. */
export interface Ranged {
  readonly value: number;
  readonly range: readonly [low: number, high: number];
}

/** Each lies where the other could as well: the model does not tell the two apart, however sure the days are. */
export function isLeftOpen(a: Ranged, b: Ranged): boolean {
  const holds = ({ range: [low, high] }: Ranged, value: number) => value >= low && value <= high;
  return a.value !== b.value && holds(a, b.value) && holds(b, a.value);
}

/** What a plan is surely better at, or, where it is worse, the plan that it is held against; `within`: only by what the model leaves open in this way. */
export const aheadAt = (figures: Figures, isBetter: boolean, within: PlanDifference["within"]) =>
  WEIGHED.filter((name) => figures[name]?.better === isBetter && figures[name].within === within);

/** A sentence for each plan that is surely better at something, and what is said of differences that the days are sure of and the model is not. */
export function sidesOf(plan: string, against: string, figures: Figures): string[] {
  const each = (within: PlanDifference["within"], said: (who: string, what: string) => string) => ([[plan, true], [against, false]] as const).flatMap(([who, isBetter]) => {
    const what = aheadAt(figures, isBetter, within).map((name) => MEASURE_WORDS[name].label.toLowerCase());
    return what.length > 0 ? [said(who, what.join("; "))] : [];
  });
  const density = figures.dryDensity;
  return [
    ...each(null, (who, what) => `${who} is better at: ${what}.`),
    ...each("ledger", (who, what) => `${who} is ahead on the days rehearsed, but by less than the loss ledger leaves open, at: ${what}.`),
    ...(density?.within === "relation" ? [`The densities of ${plan} and ${against} differ by ${METRIC.density(Math.abs(density.mean))}, and storages packed alike by as much: `
      + "on two real ones the order may be the other way round."] : []),
  ];
}
