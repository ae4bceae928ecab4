import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { EndlessDay, rehearseDay } from "../../sim/harvest/day.ts";
import { Streams } from "../../sim/kernel/random.ts";
import { costOfWork, COVERED, limitsOfQuantile, PAID_UNITS, quote, unitsDone } from "../../sim/study/quote.ts";
import { carryOut } from "../../sim/study/work.ts";
import { bunker, chopper, HOUR, NO_VARIATION, roller, SEVEN } from "../harvest/plan.ts";
import { smallDay } from "./small.ts";

const SCENARIO = smallDay();
const N = 60;
const result = carryOut(quote(SCENARIO, { rehearsals: N }));
const days = Array.from({ length: N }, (_, rehearsal) => factsOf(SCENARIO, rehearseDay(SCENARIO, { rehearsal })));

describe("A quote", () => {
  it("is the least price that covers the cost on at least so many of the days, for the tonne, the hour and the hectare", () => {
    for (const unit of PAID_UNITS) {
      for (const { covers, price } of result.prices[unit]) {
        const covered = (at: number) => days.filter((day) => at * unitsDone(SCENARIO, day)[unit] >= costOfWork(SCENARIO, day) * (1 - 1e-12)).length / N;
        expect(covered(price)).toBeGreaterThanOrEqual(covers);
        expect(covered(price * (1 - 1e-6))).toBeLessThan(covers);
      }
      expect(result.prices[unit].map(({ covers }) => covers)).toEqual([...COVERED]);
    }
  });

  it("covers what machines, drivers and fuel cost, worked by hand on a day without luck", () => {
    const still = smallDay({ variation: NO_VARIATION });
    const day = rehearseDay(still);
    const hours = day.machines.map((machine) => (machine.until - machine.from) / HOUR);
    const rate = (kind: string) => (kind === "chopper" ? 400 : kind === "truck" ? 80 : 90);
    const cost = day.machines.reduce((sum, machine, i) => sum + hours[i]! * (rate(machine.kind) + 25), 0);
    const { cost: told, prices } = carryOut(quote(still));
    expect(told.mean).toBeCloseTo(cost, 6);
    expect(prices.perTonne[0]!.price).toBeCloseTo(cost / 270, 6);
    expect(prices.perHectare[2]!.price).toBeCloseTo(cost / 6, 6);
    expect(prices.perHour[1]!.price).toBeCloseTo(cost / factsOf(still, day).measures.finishedAt, 6);
  });

  it("is the same however the work is paid: a price is no cost of the one who asks it", () => {
    const priced = smallDay({ choppers: [chopper({ paid: "by-ton", price: 12 })] });
    const [ofPriced, ofHourly] = [priced, SCENARIO].map((scenario) => carryOut(quote(scenario, { rehearsals: 10 })).prices);
    for (const unit of PAID_UNITS) ofPriced![unit].forEach(({ price }, i) => expect(price / ofHourly![unit][i]!.price).toBeCloseTo(1, 12));
  });

  it("asks more for surer cover, and says in words what it does not hold", () => {
    for (const unit of PAID_UNITS) {
      const prices = result.prices[unit].map(({ price }) => price);
      expect(prices).toEqual([...prices].sort((a, b) => a - b));
      for (const { price, low, high } of result.prices[unit]) {
        expect(low!).toBeLessThanOrEqual(price);
        if (high !== null) expect(high).toBeGreaterThanOrEqual(price);
      }
    }
    expect(result.inWords).toContain("Profit");
  });

  it("counts only the hectares that were cut", () => {
    const short = smallDay({ shift: { start: SEVEN, end: SEVEN + HOUR } });
    const day = factsOf(short, rehearseDay(short));
    expect(day.uncut).toBeGreaterThan(1000);
    expect(unitsDone(short, day).perHectare).toBeLessThan(5);
  });

  it("is refused for no rehearsals and for a crew that never gets done", () => {
    expect(() => carryOut(quote(SCENARIO, { rehearsals: 0 }))).toThrow(/whole number/u);
    const hopeless = smallDay({ packing: { whenBehind: "hold" }, targets: { dryDensity: 420 }, storages: [bunker({ tractors: [roller(3000, { spreads: 20, rolling: 0.01 })] })] });
    expect(() => carryOut(quote(hopeless, { rehearsals: 1 }))).toThrow(EndlessDay);
  });
});

describe("The limits of a quantile", () => {
  it("hold it in at least 95 of 100 samples, whatever the distribution", () => {
    const samples = process.env.CLAMPSIDE_LONG === "1" ? 5000 : 500;
    for (const share of COVERED) {
      const [low, high] = limitsOfQuantile(share, N);
      let held = 0;
      for (let seed = 1; seed <= samples; seed++) {
        const draw = new Streams(seed, 0).stream("u");
        const sorted = Array.from({ length: N }, () => draw()).sort((a, b) => a - b);
        if (sorted[low!]! <= share && share <= sorted[high!]!) held++;
      }
      // The uniform's own quantile is the share; a distribution-free limit holds at least 95 %, here less 3.3 standard errors.
      expect(held / samples).toBeGreaterThanOrEqual(0.95 - 3.3 * Math.sqrt((0.95 * 0.05) / samples));
    }
  });

  it("are as wide as the normal law says where there are many days", () => {
    const n = 20_000;
    for (const share of COVERED) {
      const half = 1.96 * Math.sqrt(n * share * (1 - share));
      const [low, high] = limitsOfQuantile(share, n);
      expect(Math.abs(low! - (n * share - half))).toBeLessThan(3);
      expect(Math.abs(high! - (n * share + half))).toBeLessThan(3);
    }
  });

  it("of nine days of ten need some days before they have an upper end", () => {
    // 1 - 0.9^n reaches 97.5 % at n = 36.
    expect(limitsOfQuantile(0.9, 35)[1]).toBeNull();
    expect(limitsOfQuantile(0.9, 36)[1]).toBe(35);
    expect(limitsOfQuantile(0.5, 1)).toEqual([null, null]);
  });
});
