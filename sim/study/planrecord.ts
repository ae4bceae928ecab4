/** What a search keeps of a plan: few figures a day, so that thousands of days fit in memory. */
import { mean } from "simple-statistics";
import type { DayFacts } from "../findings/facts.ts";
import { summarise } from "../findings/summary.ts";
import type { Measure } from "../findings/types.ts";
import { chanceOfTarget } from "../forage/scatter.ts";
import { chanceOf, chanceWithoutLuck, type Chance } from "./chance.ts";
import { figureOf } from "./figures.ts";
import type { Plan } from "./plans.ts";
import { isDeterministic } from "./rehearsal.ts";
import type { Fate, Trial } from "./select.ts";
import { meets, shortfalls, TARGETS, type TargetName, type Targets } from "./targets.ts";
import type { Days } from "./work.ts";

/** A plan and what its days came to. */
export interface CrewPlan extends Omit<Plan, "scenario"> {
  /** position among all plans of the search */ readonly index: number;
  readonly fate: Fate;
  readonly days: number;
  /** of meeting all targets, the luck of the day */ readonly chance: Chance;
  readonly targets: Readonly<Partial<Record<TargetName, Chance>>>;
  /** per tonne of dry matter fed */ readonly cost: Measure | null;
  /** kg DM/m3 */ readonly density: Measure | null;
  /** h after midnight */ readonly closedAt: Measure | null;
  readonly waiting: Measure | null;
  /** the published relation's own chance of the target density: no luck of the day in it */ readonly chanceOfTarget: number | null;
}

/** A plan and its days so far, by the few figures that the search goes by. */
export class PlanRecord {
  endless = false;
  private readonly facts: { readonly cost: number; readonly density: number; readonly closedAt: number; readonly waiting: number; readonly short: Partial<Record<TargetName, number>> }[] = [];

  constructor(readonly plan: Plan, readonly index: number, private readonly targets: Targets) {}

  get length(): number {
    return this.facts.length;
  }

  add(days: Days): void {
    if ("endless" in days) this.endless = true;
    else for (const day of days) this.facts.push(this.read(day));
  }

  private read(day: DayFacts): PlanRecord["facts"][number] {
    const { scenario } = this.plan;
    const { costPerTonneFed, dryDensity, chopperWaiting } = day.measures;
    return { cost: costPerTonneFed, density: dryDensity, waiting: chopperWaiting, closedAt: figureOf(scenario, [day], "closedAt")[0]!, short: shortfalls(scenario, this.targets, day) };
  }

  /** Days for the selection; one that has no end, or gives no cost, meets nothing. */
  trials(from: number, to: number): Trial[] {
    return Array.from({ length: to - from }, (_, i) => {
      const day = this.facts[from + i];
      return day && Number.isFinite(day.cost) ? { cost: day.cost, met: meets(day.short) } : { cost: 0, met: false };
    });
  }

  /** Share of days on which all targets are met. */
  get share(): number {
    return this.length === 0 ? 0 : this.facts.filter(({ short }) => meets(short)).length / this.length;
  }

  get meanCost(): number {
    return mean(this.facts.map(({ cost }) => cost));
  }

  /** How far it is from its targets on the mean day, all added up. */
  get shortness(): number {
    return mean(this.facts.map(({ short }) => Object.values(short).reduce((sum, by) => sum + Math.max(0, by), 0)));
  }

  /** It brings the crop in on most days, and all its figures are numbers. */
  get bringsIn(): boolean {
    return this.facts.filter(({ short }) => short.crop! <= 0).length > this.length / 2 && this.point.every((value) => Number.isFinite(value));
  }

  /** Cost, density and finish, less being better. */
  get point(): [number, number, number] {
    return [this.meanCost, -mean(this.facts.map(({ density }) => density)), mean(this.facts.map(({ closedAt }) => closedAt))];
  }

  told(fate: Fate): CrewPlan {
    const { scenario, ...choice } = this.plan;
    const density = summarise(this.facts.map((day) => day.density), "kg/m3");
    const shareOf = isDeterministic(scenario) ? chanceWithoutLuck : chanceOf;
    const asked = TARGETS.filter((name) => this.facts[0]?.short[name] !== undefined);
    return {
      ...choice, index: this.index, fate, days: this.length, chance: shareOf(this.facts.filter(({ short }) => meets(short)).length, this.length),
      targets: Object.fromEntries(asked.map((name) => [name, shareOf(this.facts.filter(({ short }) => short[name]! <= 0).length, this.length)])),
      cost: summarise(this.facts.map((day) => day.cost), "per t DM"), density, closedAt: summarise(this.facts.map((day) => day.closedAt), "h"),
      waiting: summarise(this.facts.map((day) => day.waiting), "1"),
      chanceOfTarget: density && chanceOfTarget(density.mean, scenario.targets.dryDensity, scenario.crop.kind),
    };
  }
}
