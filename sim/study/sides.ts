/** A difference between two plans in words: what each is better at, and what the published relation could not tell apart. */
import { MEASURE_WORDS } from "../findings/words.ts";
import { METRIC } from "../findings/verdict.ts";
import { residualSd, surveyCrop } from "../forage/scatter.ts";
import type { ComparedDifference } from "./compare.ts";
import type { FigureName } from "./figures.ts";

/** What a dairy and a contractor weigh up; the other figures lie behind these. */
const WEIGHED = ["dryDensity", "dryMatterFed", "costPerTonneFed", "costPerTonne", "fillTime", "chopperWaiting", "truckWaiting"] as const satisfies readonly FigureName[];

type Figures = Readonly<Partial<Record<FigureName, ComparedDifference>>>;

/** A sentence for each plan that is surely better at something, and one for a density inside the scatter. @param crop kind of crop, for the scatter */
export function sidesOf(plan: string, against: string, figures: Figures, crop: string): string[] {
  const named = (better: boolean) => WEIGHED.filter((name) => figures[name]?.better === better).map((name) => MEASURE_WORDS[name].label.toLowerCase());
  const sentence = (who: string, what: readonly string[]) => (what.length > 0 ? [`${who} is better at: ${what.join("; ")}.`] : []);
  return [...sentence(plan, named(true)), ...sentence(against, named(false)), ...withinScatter(plan, against, figures, crop)];
}

function withinScatter(plan: string, against: string, { dryDensity }: Figures, crop: string): string[] {
  const scatter = residualSd[surveyCrop(crop)].value;
  if (!dryDensity || dryDensity.mean === 0 || Math.abs(dryDensity.mean) >= scatter) return [];
  return [`The densities of ${plan} and ${against} differ by ${METRIC.density(Math.abs(dryDensity.mean))}, inside the ${METRIC.density(scatter)} by which storages packed alike `
    + "scatter around the published relation: on two real storages the order may be the other way round."];
}
