/** Many days in one figure, against a table of Student's t and statistics worked by hand. */
import { mean, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { measuresOf } from "../../sim/findings/findings.ts";
import { quantile, summarise } from "../../sim/findings/summary.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { plan } from "../harvest/plan.ts";

/** Two-sided 95 % points of Student's t, as printed in any table: degrees of freedom, value. */
const TABLE = [[1, 12.706], [2, 4.303], [4, 2.776], [9, 2.262], [29, 2.045], [99, 1.984]] as const;
const printedHalf = 0.0005;

describe("The measures of the days", () => {
  it("have limits where the figure can be: no wait below nothing, no share above the whole", () => {
    const day = factsOf(plan(), rehearseDay(plan()));
    const withOne = (measures: Partial<typeof day.measures>) => ({ ...day, measures: { ...day.measures, ...measures } });
    const none = withOne({ truckWaiting: 0, packingIdle: 1 });
    const measures = measuresOf([none, none, withOne({ truckWaiting: 6, packingIdle: 0.7 })]);
    const [waits, idle] = [summarise([0, 0, 6], "min")!, summarise([1, 1, 0.7], "1")!];
    expect([waits.low < 0, idle.high > 1]).toEqual([true, true]);
    expect(measures.truckWaiting).toEqual({ ...waits, low: 0 });
    expect(measures.packingIdle).toEqual({ ...idle, high: 1 });
  });
});

describe("A measure over the rehearsals", () => {
  it("of five days: mean 5, standard deviation 2, limits 5 -+ 2.776 x 2 / sqrt 5, worked by hand", () => {
    // Squares of the distances from 5: 4, 4, 0, 4, 4; their sum 16 over 4 degrees of freedom is 4.
    const { mean, sd, low, high, unit } = summarise([3, 7, 5, 3, 7], "t/h")!;
    expect([mean, sd, unit]).toEqual([5, 2, "t/h"]);
    expect(Math.abs(high - 5 - (2.776 * 2) / Math.sqrt(5))).toBeLessThan((printedHalf * 2) / Math.sqrt(5));
    expect(5 - low).toBeCloseTo(high - 5, 12);
  });

  it.each(TABLE)("has limits by Student's t with n - 1 = %d degrees of freedom: %d standard errors", (degrees, t) => {
    const values = Array.from({ length: degrees + 1 }, (_, i) => Math.sin(i * 7.3) + i / 10);
    const { low, high } = summarise(values, "1")!;
    const error = sampleStandardDeviation(values) / Math.sqrt(values.length);
    expect(Math.abs((high - low) / 2 / error - t)).toBeLessThanOrEqual(printedHalf);
    expect((high + low) / 2).toBeCloseTo(mean(values), 9);
  });

  it("has the spread between days from the 10th to the 90th percentile, each the value of a day, whatever the order of the days", () => {
    const values = Array.from({ length: 101 }, (_, i) => (i * 37) % 101);
    expect(summarise(values, "h")).toMatchObject({ p10: 10, p90: 90 });
    for (const n of [2, 10, 30, 100]) {
      const days = Array.from({ length: n }, (_, i) => i * i);
      expect(summarise(days, "h"), `${n} days`).toMatchObject({ p10: quantile(days, 0.1), p90: quantile(days, 0.9) });
    }
  });

  it("leaves the values as they were", () => {
    const values = Object.freeze([3, 1, 2]);
    summarise(values, "1");
    expect(values).toEqual([3, 1, 2]);
  });

  it("of a single day is that day, with no spread to judge by", () => {
    expect(summarise([4.5], "h")).toEqual({ mean: 4.5, sd: 0, low: 4.5, high: 4.5, p10: 4.5, p90: 4.5, unit: "h" });
  });

  it("is no figure when there is no day, or a day gives none", () => {
    expect(summarise([], "h")).toBeNull();
    expect(summarise([1, NaN, 2], "h")).toBeNull();
    expect(summarise([1, Infinity], "h")).toBeNull();
  });
});

describe("The day of so many in a hundred", () => {
  it("is the one at its place in the sorted list", () => {
    expect([0.1, 0.5, 0.9, 1].map((share) => quantile([5, 1, 4, 2, 3, 6, 7, 8, 9, 10], share))).toEqual([1, 5, 9, 10]);
  });

  it("is the seventh of seventy for a tenth of them, and so for every number of days and share that a study asks for: no rounding moves it on", () => {
    for (let n = 1; n <= 40; n++) {
      const days = Array.from({ length: 10 * n }, (_, i) => i + 1);
      expect([0.1, 0.5, 0.8, 0.9].map((share) => quantile(days, share)), `${10 * n} days`).toEqual([n, 5 * n, 8 * n, 9 * n]);
    }
  });
});
