/* eslint require-yield: "off" -- some processes here begin, do one thing and end */
import { describe, expect, test } from "vitest";
import { hold, Interrupt, Simulation, until } from "../../sim/kernel/index.ts";
import type { Work } from "../../sim/kernel/index.ts";

describe("the clock", () => {
  test("starts where it is told and stands at the last event when the run is over", () => {
    const sim = new Simulation({ start: 7 * 3600 });
    sim.spawn((function* (): Work { yield 90; })());
    expect(sim.now).toBe(7 * 3600);
    sim.run();
    expect(sim.now).toBe(7 * 3600 + 90);
  });

  test("stands at the end of a limited run, and what is due at that very instant has been done", () => {
    const sim = new Simulation();
    const done: number[] = [];
    for (const time of [9, 10, 11]) sim.spawn((function* (): Work { yield time; done.push(time); })());
    sim.run(10);
    expect(sim.now).toBe(10);
    expect(done).toEqual([9, 10]);
    sim.run(10.5);
    expect(sim.now).toBe(10.5);
    sim.run();
    expect(done).toEqual([9, 10, 11]);
  });

  test("moves on to the end of a limited run even when nothing happens", () => {
    const sim = new Simulation();
    sim.run(5);
    expect(sim.now).toBe(5);
  });

  test("does not run backwards", () => {
    const sim = new Simulation({ start: 100 });
    expect(() => sim.run(99)).toThrow("99 s, but it is 100 s already");
    expect(() => sim.run(NaN)).toThrow(RangeError);
    expect(() => new Simulation({ start: NaN })).toThrow("finite time");
  });

  test("stands still when a process halts the run, which can then be taken up again", () => {
    const sim = new Simulation();
    const seen: number[] = [];
    sim.spawn((function* (): Work {
      for (let i = 0; i < 4; i += 1) {
        yield 1;
        seen.push(sim.now);
        if (sim.now === 2) sim.halt();
      }
    })());
    sim.run(100);
    expect(sim.now).toBe(2);
    sim.run(100);
    expect(seen).toEqual([1, 2, 3, 4]);
    expect(sim.now).toBe(100);
  });
});

describe("a process", () => {
  test("never begins inside the call that spawns it", () => {
    const sim = new Simulation();
    const heard: string[] = [];
    sim.spawn((function* (): Work {
      sim.spawn((function* (): Work { heard.push("child"); })());
      heard.push("parent");
    })());
    expect(heard).toEqual([]);
    sim.run();
    expect(heard).toEqual(["parent", "child"]);
  });

  test("begins when it is told to, is alive until its work ends, and keeps its name", () => {
    const sim = new Simulation();
    let began = NaN;
    const process = sim.spawn((function* (): Work { began = sim.now; yield hold(5); })(), { at: 3, name: "helper" });
    sim.run(7);
    expect(began).toBe(3);
    expect(process.alive).toBe(true);
    sim.run(8);
    expect(process.alive).toBe(false);
    expect(process.name).toBe("helper");
  });

  test("cannot begin in the past, at no time, or on a rung that is not on the ladder", () => {
    const sim = new Simulation({ start: 10 });
    const nothing = (function* (): Work {})();
    expect(() => sim.spawn(nothing, { at: 9 })).toThrow("start of a process is at 9 s");
    expect(() => sim.spawn(nothing, { at: NaN })).toThrow(RangeError);
    expect(() => sim.spawn(nothing, { at: Infinity })).toThrow(RangeError);
    expect(() => sim.spawn(nothing, { rank: 6 })).toThrow("from 0 to 5");
    expect(() => sim.spawn(nothing, { rank: 1.5 })).toThrow("from 0 to 5");
  });

  test("holds for the seconds that it yields, one step each, and steps are counted exactly", () => {
    const sim = new Simulation();
    const times: number[] = [];
    sim.spawn((function* (): Work {
      for (const seconds of [1, 0, 2.5]) {
        yield seconds;
        times.push(sim.now);
      }
    })());
    sim.run();
    expect(times).toEqual([1, 1, 3.5]);
    expect(sim.events).toBe(4);
    expect(sim.step()).toBe(false);
    expect(sim.events).toBe(4);
  });

  test.each([-1, NaN, Infinity])("cannot hold for %d seconds", (seconds) => {
    expect(() => hold(seconds)).toThrow("0 seconds or more");
    const sim = new Simulation();
    const process = sim.spawn((function* (): Work { yield seconds; })());
    expect(() => sim.run()).toThrow("0 seconds or more");
    expect(process.alive).toBe(false);
  });

  test("reaches an absolute time exactly, where adding the difference would round", () => {
    // A pair for which the detour through the difference ends in a tie, and misses.
    const start = 2 ** -53;
    const target = 1 + 2 ** -52;
    expect(start + (target - start)).not.toBe(target);
    const sim = new Simulation({ start });
    sim.spawn((function* (): Work { yield until(target); })());
    sim.run();
    expect(sim.now).toBe(target);
  });

  test("may wait for the present instant, not for one in the past and not for ever", () => {
    const wait = (time: number) => {
      const sim = new Simulation({ start: 5 });
      sim.spawn((function* (): Work { yield until(time); })());
      sim.run();
      return sim.now;
    };
    expect(wait(5)).toBe(5);
    expect(() => wait(4.999)).toThrow("time to wait for is at 4.999 s");
    expect(() => wait(Infinity)).toThrow(RangeError);
  });

  test("that throws stops the run with its own error, and is dead", () => {
    const sim = new Simulation();
    const error = new Error("the axle broke");
    const process = sim.spawn((function* (): Work { yield 1; throw error; })());
    expect(() => sim.run()).toThrow(error);
    expect(process.alive).toBe(false);
  });

  test("that does not catch an interrupt stops the run with an error that names it and the cause", () => {
    const sim = new Simulation();
    const process = sim.spawn((function* (): Work { yield 10; })(), { name: "third truck" });
    sim.spawn((function* (): Work { yield 1; sim.interrupt(process, "breakdown"); })());
    expect(() => sim.run()).toThrow('"third truck" does not catch what struck it: interrupted: breakdown');
  });

  test("may hand a part of its work to another generator that returns something", () => {
    const sim = new Simulation();
    function* part(): Work<string> { yield 2; return "done"; }
    let result = "";
    sim.spawn((function* (): Work { result = yield* part(); })());
    sim.run();
    expect(result).toBe("done");
  });
});

test("the log is told of every step, with the keys of its event, before the process runs", () => {
  const steps: string[] = [];
  const sim = new Simulation({ log: (process) => steps.push(`${process.at} ${process.rank} ${process.name}`) });
  const first = sim.spawn((function* (): Work {
    try { yield 9; } catch (strike) { steps.push((strike as Interrupt).message); }
  })(), { name: "first" });
  sim.spawn((function* (): Work { yield 4; sim.interrupt(first, "rain"); })(), { name: "second" });
  sim.run();
  expect(steps).toEqual(["0 3 first", "0 3 second", "4 2 second", "4 0 first", "interrupted: rain"]);
});
