import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Calendar } from "../../sim/kernel/index.ts";
import type { Interval } from "../../sim/kernel/index.ts";
import { runs } from "./runs.ts";

/** Noon and a coffee break, in minutes of the day. */
const DAY = new Calendar([{ from: 720, to: 750 }, { from: 540, to: 555 }]);

describe("a calendar", () => {
  test("pauses work in hand when it closes, and goes on with the remainder", () => {
    expect(DAY.finish(700, 30)).toBe(760);
    expect(DAY.finish(500, 300)).toBe(500 + 300 + 15 + 30);
  });

  test("lets work end at the instant of closing, and be done before it", () => {
    expect(DAY.finish(700, 20)).toBe(720);
    expect(DAY.finish(700, 20.5)).toBe(750.5);
  });

  test("begins work that falls into a closed time when it opens", () => {
    expect(DAY.finish(730, 10)).toBe(760);
    expect(DAY.finish(720, 10)).toBe(760);
    expect(DAY.finish(750, 10)).toBe(760);
  });

  test("has no work to do when there is none, even in a closed time", () => {
    expect(DAY.finish(730, 0)).toBe(730);
  });

  test("adds exactly when nothing closes in between", () => {
    expect(DAY.finish(0.1, 0.2)).toBe(0.1 + 0.2);
    expect(new Calendar([]).finish(1e5 + 0.1, 1 / 3)).toBe(1e5 + 0.1 + 1 / 3);
    expect(DAY.finish(760.1, 0.2)).toBe(760.1 + 0.2);
  });

  test("never finishes what is left when it closes for good", () => {
    const shift = new Calendar([{ from: 1000, to: Infinity }]);
    expect(shift.finish(900, 100)).toBe(1000);
    expect(shift.finish(900, 101)).toBe(Infinity);
    expect(shift.nextOpen(1001)).toBe(Infinity);
    expect(shift.open(900, Infinity)).toBe(NaN);
  });

  test("is closed from the first instant of a closed time up to, not including, its last", () => {
    expect([719, 720, 749, 750].map((time) => DAY.isOpen(time))).toEqual([true, false, false, true]);
    expect([719, 720, 749, 750].map((time) => DAY.nextOpen(time))).toEqual([719, 750, 750, 750]);
  });

  test("counts the open time between two instants, none backwards", () => {
    expect(DAY.open(0, 1440)).toBe(1440 - 45);
    expect(DAY.open(545, 730)).toBe(730 - 545 - 10 - 10);
    expect(DAY.open(725, 735)).toBe(0);
    expect(DAY.open(800, 700)).toBe(0);
  });

  test("merges closed times that overlap, touch or lie inside one another", () => {
    const { closed } = new Calendar([{ from: 30, to: 40 }, { from: 10, to: 20 }, { from: 20, to: 25 }, { from: 12, to: 15 }, { from: 35, to: 50 }]);
    expect(closed).toEqual([{ from: 10, to: 25 }, { from: 30, to: 50 }]);
  });

  test("refuses closed times that do not end after they begin, and work that is none", () => {
    for (const [from, to] of [[5, 5], [6, 5], [NaN, 5], [5, NaN], [-Infinity, 5]] as const) {
      expect(() => new Calendar([{ from, to }])).toThrow("ends after it begins");
    }
    for (const [start, work] of [[0, -1], [0, NaN], [0, Infinity], [NaN, 1], [Infinity, 1]] as const) {
      expect(() => DAY.finish(start, work)).toThrow("the work 0 seconds or more");
    }
  });
});

describe("for any closed times", () => {
  const intervals = fc.array(fc.tuple(fc.nat(200), fc.integer({ min: 1, max: 40 })).map(([from, length]): Interval => ({ from, to: from + length })), { maxLength: 8 });

  test("finish and open are each other's inverse, and agree with counting second by second", () => {
    fc.assert(fc.property(intervals, fc.nat(220), fc.nat(100), (closed, start, work) => {
      const calendar = new Calendar(closed);
      const finish = calendar.finish(start, work);
      expect(calendar.open(start, finish)).toBe(work);
      const isOpen = (second: number) => closed.every(({ from, to }) => second < from || second >= to);
      let at = start;
      for (let left = work; left > 0; at += 1) if (isOpen(at)) left -= 1;
      expect(finish).toBe(at);
      expect(calendar.isOpen(start)).toBe(isOpen(start));
      expect(calendar.isOpen(calendar.nextOpen(start))).toBe(true);
    }), runs(1000));
  });

  test("work done in two parts ends when it would have ended in one", () => {
    fc.assert(fc.property(intervals, fc.nat(220), fc.nat(60), fc.integer({ min: 1, max: 60 }), (closed, start, first, second) => {
      const calendar = new Calendar(closed);
      expect(calendar.finish(calendar.finish(start, first), second)).toBe(calendar.finish(start, first + second));
    }), runs(1000));
  });
});
