/** A difference between two plans in words: what each is better at, and what the loss ledger or the published relation could not tell apart. */
import { MEASURE_WORDS } from "../findings/words.ts";
import { METRIC } from "../findings/verdict.ts";
import { residualSd, surveyCrop } from "../forage/scatter.ts";
import type { ComparedDifference } from "./compare.ts";
import type { FigureName } from "./figures.ts";

/** What a dairy and a contractor weigh up; the other figures lie behind these. */
export const WEIGHED = ["dryDensity", "dryMatterFed", "costPerTonneFed", "costPerTonne", "fillTime", "chopperWaiting", "truckWaiting"] as const satisfies readonly FigureName[];

type Figures = Readonly<Partial<Record<FigureName, ComparedDifference>>>;

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

/**
 * A sentence for each plan that is surely better at something, and what is said of differences that the days are sure of and the model is not: those
 * inside the range of the loss ledger, and a density inside the scatter of the relation.
 * @param crop kind of crop, for the scatter @param open figures that the loss ledger leaves open between the two
 */
export function sidesOf(plan: string, against: string, figures: Figures, crop: string, open: ReadonlySet<FigureName> = new Set()): string[] {
  const scatter = withinScatter(plan, against, figures, crop);
  const isToldApart = (name: FigureName) => !open.has(name) && !(name === "dryDensity" && scatter.length > 0);
  const named = (better: boolean, wanted: (name: FigureName) => boolean) =>
    WEIGHED.filter((name) => figures[name]?.better === better && wanted(name)).map((name) => MEASURE_WORDS[name].label.toLowerCase());
  const each = (wanted: (name: FigureName) => boolean, said: (who: string, what: string) => string) => ([[plan, true], [against, false]] as const).flatMap(([who, better]) => {
    const what = named(better, wanted);
    return what.length > 0 ? [said(who, what.join("; "))] : [];
  });
  return [
    ...each(isToldApart, (who, what) => `${who} is better at: ${what}.`),
    ...each((name) => open.has(name), (who, what) => `${who} is ahead on the days rehearsed, but by less than the loss ledger leaves open, at: ${what}.`),
    ...scatter,
  ];
}

function withinScatter(plan: string, against: string, { dryDensity }: Figures, crop: string): string[] {
  const scatter = residualSd[surveyCrop(crop)].value;
  if (!dryDensity || dryDensity.mean === 0 || Math.abs(dryDensity.mean) >= scatter) return [];
  return [`The densities of ${plan} and ${against} differ by ${METRIC.density(Math.abs(dryDensity.mean))}, inside the ${METRIC.density(scatter)} by which storages packed alike `
    + "scatter around the published relation: on two real storages the order may be the other way round."];
}
