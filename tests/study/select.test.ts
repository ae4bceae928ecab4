import { describe, expect, it } from "vitest";
import fc from "fast-check";
import { Streams } from "../../sim/kernel/random.ts";
import { factorOf } from "../../sim/kernel/index.ts";
import { chanceOf } from "../../sim/study/chance.ts";
import { FIRST_DAYS, select, type Selection, type SelectionOptions, type Trial } from "../../sim/study/select.ts";

const LONG = process.env.CLAMPSIDE_LONG === "1";

/** A plan whose truth is known: how often it meets the targets, and the mean of its cost. */
interface Known { readonly often: number; readonly cost: number }

/** Luck that is the plan's own, as a share of a cost of 100; half as much again is common to all. */
interface Luck { readonly spread: number; readonly shape?: "normal" | "lognormal" }

/** Runs one search on plans whose truth is known. */
function search(plans: readonly Known[], seed: number, { spread, shape = "normal" }: Luck, over: Partial<SelectionOptions> = {}): Selection {
  const quantile = factorOf({ kind: shape, cv: 0.2 });
  const deviate = (u: number) => (quantile(u) - 1) / 0.2;
  const streams = new Map<string, () => number>();
  const draw = (name: string, day: number) => {
    const key = `${name}/${day}`;
    if (!streams.has(key)) streams.set(key, new Streams(seed, day).stream(name));
    return streams.get(key)!();
  };
  const common: number[] = [];
  const trial = (plan: number, day: number): Trial => {
    common[day] ??= deviate(draw("all", day));
    const { often, cost } = plans[plan]!;
    return { met: draw(`met ${plan}`, day) < often, cost: cost + spread * (1.5 * common[day] + deviate(draw(`cost ${plan}`, day))) };
  };
  const run = select({ plans: plans.length, sure: 0.9, promise: 0.95, indifference: 0.01, mostDays: 5000, ...over });
  let next = run.next();
  while (!next.done) {
    next = run.next(next.value.map(({ plan, from, to }) => Array.from({ length: to - from }, (_, i) => trial(plan, from + i))));
  }
  return next.value;
}

/** The hardest cases the promise covers: all others just dear enough, all that must not be named just too seldom and much cheaper, the best just often enough. */
const HARD: readonly Known[] = [
  { often: 0.95, cost: 100 }, ...Array.from({ length: 4 }, () => ({ often: 1, cost: 101.1 })), ...Array.from({ length: 3 }, () => ({ often: 0.9, cost: 90 })),
];
/** A field as searches meet it: most plans never do, some do and are dearer. */
const USUAL: readonly Known[] = [
  { often: 0.97, cost: 100 }, { often: 0.99, cost: 103 }, { often: 0.8, cost: 97 }, { often: 0.6, cost: 95 },
  ...Array.from({ length: 8 }, (_, i) => ({ often: 0, cost: 80 + i })), ...Array.from({ length: 8 }, (_, i) => ({ often: 1, cost: 106 + 2 * i })),
];

/** Searches of which the first, plan 0, was chosen. */
const rightIn = (plans: readonly Known[], searches: number, luck: Luck) => {
  let right = 0;
  let days = 0;
  for (let seed = 1; seed <= searches; seed++) {
    const selection = search(plans, seed, luck);
    if (selection.chosen === 0) right++;
    days += selection.allDays;
  }
  return { right, days: days / searches };
};

// The whole number of searches in the long run, a 1-in-25 sample in the usual one, where only a gross fault would show.
const SEARCHES = LONG ? 500 : 20;

describe("The selection of the cheapest plan that is often enough", () => {
  it.each([
    ["where every plan is as hard to tell as the promise allows", HARD, { spread: 1 }],
    ["where costs are lopsided, which the promise does not cover", HARD, { spread: 1, shape: "lognormal" }],
    ["in a field as searches meet it", USUAL, { spread: 2 }],
  ] as const)("chooses the known best at least as often as it promises, by the lower limit over 500 searches, %s", (_, plans, luck) => {
    const { right } = rightIn(plans, SEARCHES, luck);
    if (LONG) {
      console.log(`chosen rightly in ${right} of ${SEARCHES} searches`);
      expect(chanceOf(right, SEARCHES).low).toBeGreaterThanOrEqual(0.95);
    } else expect(chanceOf(right, SEARCHES).high).toBeGreaterThanOrEqual(0.95);
  });

  it("names none where no plan is often enough, and never one that is not", () => {
    for (let seed = 1; seed <= SEARCHES; seed++) {
      const { chosen, fates, decided } = search([{ often: 0.85, cost: 90 }, { often: 0.5, cost: 80 }, { often: 0, cost: 70 }], seed, { spread: 1 });
      expect(chosen).toBeNull();
      expect(fates).toEqual(["seldom", "seldom", "seldom"]);
      expect(decided).toBe(true);
    }
  });

  it("spends its days on the plans that matter: those that never do, or are much dearer, are given up on their first days, and the rest is a small part of equal shares", () => {
    const selection = search(USUAL, 1, { spread: 2 });
    USUAL.forEach(({ often, cost }, plan) => {
      // Fourteen days without one met are enough to tell: those of the first look and one more.
      if (often === 0 || cost > 110) expect(selection.days[plan]).toBeLessThanOrEqual(FIRST_DAYS + 10);
    });
    expect(selection.days[0]).toBe(Math.max(...selection.days.filter((_, plan) => USUAL[plan]!.often > 0.9)));
    expect(selection.allDays).toBeLessThan(0.35 * USUAL.length * Math.max(...selection.days));
  });

  it("never looks at a plan that is hopeless, and leaves the choice among the rest as it is", () => {
    const hopeless = USUAL.map(({ often }) => often === 0);
    const [all, pruned] = [search(USUAL, 3, { spread: 2 }), search(USUAL, 3, { spread: 2 }, { hopeless })];
    expect(pruned.chosen).toBe(all.chosen);
    pruned.days.forEach((days, plan) => expect(days === 0).toBe(hopeless[plan]));
    expect(pruned.fates.filter((fate) => fate === "hopeless")).toHaveLength(8);
  });

  it("takes the first of plans that are the same in every way", () => {
    const luckless = { spread: 0 };
    expect(search([{ often: 1, cost: 100 }, { often: 1, cost: 100 }, { often: 1, cost: 100 }], 1, luckless).chosen).toBe(0);
  });

  it("gives up on what the most days cannot decide, and says that the best may have been missed", () => {
    const { fates, decided, days } = search([{ often: 0.925, cost: 90 }, { often: 1, cost: 100 }], 1, { spread: 1 }, { mostDays: 150 });
    expect(fates[0]).toBe("undecided");
    expect(decided).toBe(false);
    expect(Math.max(...days)).toBe(150);
  });

  it("always ends, with at most one plan chosen and each plan told its fate, whatever the plans are like", () => {
    const plan = fc.record({ often: fc.constantFrom(0, 0.5, 0.9, 0.92, 1), cost: fc.constantFrom(0, 10, 10.05, 11, -3) });
    fc.assert(fc.property(fc.array(plan, { minLength: 1, maxLength: 8 }), fc.integer({ min: 1, max: 1000 }), fc.constantFrom(0, 1), (plans, seed, spread) => {
      const { chosen, fates, days } = search(plans, seed, { spread }, { mostDays: 300 });
      expect(fates.filter((fate) => fate === "chosen")).toHaveLength(chosen === null ? 0 : 1);
      expect(fates).not.toContain("open");
      expect(Math.max(...days)).toBeLessThanOrEqual(300);
    }), { numRuns: LONG ? 1000 : 60 });
  });
});
