/** What a tonne fed costs in each plan, what that is made of, and which plan is cheapest. Pure. */
import type { Findings } from "../../sim/findings/types.ts";
import type { Scenario } from "../../sim/scenario/types.ts";

/** One part of the cost of a tonne of dry matter fed. */
export interface CostPart {
  /** null: the day's work as a whole, machines, drivers and fuel */ readonly what: string | null;
  /** the words behind it, of the first plan that has it */ readonly note: string;
  /** per t of dry matter fed, by plan; null where a plan has no such line or nothing is fed */ readonly amounts: readonly (number | null)[];
}

/** Parts that add up to the cost of a tonne fed, the harvest first, then each line of storing. */
export function costParts(plans: readonly Findings[]): CostPart[] {
  const part = (what: string | null): CostPart => {
    const linesOf = ({ money }: Findings) => money.lines.filter((line) => line.inTotal && (what === null ? line.stage === "harvest" : line.stage === "storing" && line.what === what));
    return {
      what,
      note: what === null ? "" : plans.flatMap(linesOf)[0]!.note,
      amounts: plans.map((findings) => {
        const lines = linesOf(findings);
        const whole = findings.measures.costPerTonneFed?.mean;
        return lines.length === 0 || whole === undefined ? null : (whole * lines.reduce((sum, { amount }) => sum + amount, 0)) / findings.money.total;
      }),
    };
  };
  const storing = new Set(plans.flatMap(({ money }) => money.lines.filter(({ stage, inTotal }) => inTotal && stage === "storing").map(({ what }) => what)));
  return [null, ...storing].map(part);
}

/** Index of the plan in which a tonne fed costs least; null where they are in different money, or one has no such figure. */
export function cheapestOf(plans: readonly Findings[]): number | null {
  const costs = plans.flatMap(({ measures }) => measures.costPerTonneFed?.mean ?? []);
  if (costs.length < plans.length || new Set(plans.map(({ money }) => money.currency)).size > 1) return null;
  return costs.indexOf(Math.min(...costs));
}

/** Indices of the plans with a storage that nobody has put a price to, where the storages are what is compared. */
export function unpriced(scenarios: readonly Scenario[]): number[] {
  if (new Set(scenarios.map(({ storages }) => JSON.stringify(storages))).size < 2) return [];
  return scenarios.flatMap(({ storages }, i) => (storages.some(({ capitalCost }) => !(capitalCost > 0)) ? [i] : []));
}
