/** The plans of a study and their days so far: equal plans are rehearsed once, and each only for the days it has not had. */
import type { DayFacts } from "../findings/facts.ts";
import { hashOf } from "../scenario/hash.ts";
import type { DayStart } from "../harvest/start.ts";
import type { Scenario } from "../scenario/types.ts";
import { batchesOf, type Days, type Step } from "./work.ts";

export class Roster {
  readonly scenarios: Scenario[] = [];
  private readonly numbers = new Map<string, number>();
  private readonly had: DayFacts[][] = [];
  private readonly endless = new Map<number, string>();

  /** @param start where each day of each plan starts from; the morning when left out */
  constructor(private readonly seed: number, private readonly start?: DayStart) {}

  /** The plan's number; the same for an equal plan. */
  add(scenario: Scenario): number {
    const hash = hashOf(scenario);
    const known = this.numbers.get(hash);
    if (known !== undefined) return known;
    const number = this.scenarios.push(scenario) - 1;
    this.numbers.set(hash, number);
    this.had.push([]);
    return number;
  }

  /** A plan's days. */
  daysOf(plan: number): readonly DayFacts[] {
    return this.had[plan]!;
  }

  /** Why a plan has none: its crew never gets done. */
  whyEndless(plan: number): string | null {
    return this.endless.get(plan) ?? null;
  }

  /** Days of all plans when each has so many. */
  expected(days: number): number {
    return this.scenarios.length * days;
  }

  /** Brings these plans to so many days each; a plan named twice is rehearsed once. */
  *bringTo<SoFar>(days: number, plans: readonly number[], expected: number, soFar?: SoFar): Generator<Step<SoFar>, void, readonly Days[]> {
    const batches = [...new Set(plans)].flatMap((plan) => (this.endless.has(plan) ? [] : batchesOf(plan, this.scenarios[plan]!, this.seed, this.had[plan]!.length, days)))
      .map((batch) => (this.start ? { ...batch, start: this.start } : batch));
    if (batches.length === 0) return;
    const answers = yield { batches, expected, ...(soFar === undefined ? {} : { soFar }) };
    answers.forEach((answer, i) => {
      const { plan } = batches[i]!;
      if ("endless" in answer) this.endless.set(plan, answer.endless);
      else this.had[plan]!.push(...answer);
    });
  }
}
