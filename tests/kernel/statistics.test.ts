import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Tally, TimeWeighted } from "../../sim/kernel/index.ts";
import { runs } from "./runs.ts";

describe("a value over time", () => {
  test("has an area, a mean and a peak that include the value that still lasts", () => {
    const clock = { now: 10 };
    const value = new TimeWeighted(clock, 2);
    clock.now = 13;
    value.set(5);
    clock.now = 15;
    expect([value.value, value.area, value.mean, value.peak]).toEqual([5, 3 * 2 + 2 * 5, 16 / 5, 5]);
    value.set(0);
    clock.now = 20;
    expect([value.value, value.area, value.mean, value.peak]).toEqual([0, 16, 1.6, 5]);
  });

  test("has no peak at what did not last longer than an instant", () => {
    const clock = { now: 0 };
    const value = new TimeWeighted(clock, 1);
    clock.now = 1;
    value.set(7);
    value.set(2);
    expect(value.peak).toBe(1);
    clock.now = 2;
    expect(value.peak).toBe(2);
  });

  test("is its present value before any time has passed", () => {
    const value = new TimeWeighted({ now: 5 }, 3);
    expect([value.mean, value.peak, value.area]).toEqual([3, 3, 0]);
    value.set(4);
    expect([value.mean, value.peak, value.area]).toEqual([4, 4, 0]);
  });

  test("may be below zero", () => {
    const clock = { now: 0 };
    const value = new TimeWeighted(clock, -3);
    clock.now = 2;
    value.set(-5);
    clock.now = 3;
    expect([value.area, value.peak]).toEqual([-11, -3]);
  });

  test("does not depend on how often it is looked at or set to what it is", () => {
    fc.assert(fc.property(fc.array(fc.tuple(fc.nat(5), fc.nat(9)), { maxLength: 40 }), (steps) => {
      const clock = { now: 0 };
      const quiet = new TimeWeighted(clock);
      const watched = new TimeWeighted(clock);
      for (const [span, next] of steps) {
        for (let i = 0; i < span; i += 1) {
          clock.now += 1;
          watched.set(watched.value);
          expect(watched.area).toBeGreaterThanOrEqual(0);
        }
        quiet.set(next);
        watched.set(next);
      }
      expect([watched.area, watched.mean, watched.peak]).toEqual([quiet.area, quiet.mean, quiet.peak]);
    }), runs(1000));
  });
});

describe("a tally", () => {
  test("has no mean, spread or limits without values, and no spread with one", () => {
    const tally = new Tally();
    expect([tally.n, tally.mean, tally.sd, tally.min, tally.max, tally.sum]).toEqual([0, NaN, NaN, NaN, NaN, 0]);
    tally.add(4);
    expect([tally.n, tally.mean, tally.sd, tally.min, tally.max, tally.sum]).toEqual([1, 4, NaN, 4, 4, 4]);
  });

  test("gives mean and standard deviation by their definitions", () => {
    fc.assert(fc.property(fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 100 }), (values) => {
      const tally = new Tally();
      values.forEach((value) => tally.add(value));
      const mean = values.reduce((a, b) => a + b, 0) / values.length;
      const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
      expect(tally.mean).toBeCloseTo(mean, 8);
      expect(tally.sd).toBeCloseTo(Math.sqrt(variance), 8);
      expect([tally.min, tally.max]).toEqual([Math.min(...values), Math.max(...values)]);
    }), runs(1000));
  });

  test("keeps its digits when the values are large and lie close together", () => {
    const tally = new Tally();
    for (const off of [0, 1, 2, 3]) tally.add(1e9 + off);
    // The naive sum of squares would be around 4e18, where a double has lost these units.
    expect(tally.sd).toBeCloseTo(Math.sqrt(5 / 3), 9);
  });
});
