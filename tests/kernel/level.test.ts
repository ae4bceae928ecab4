import { describe, expect, test } from "vitest";
import { hold, Level, Simulation } from "../../sim/kernel/index.ts";
import type { Process, Work } from "../../sim/kernel/index.ts";

interface Move { readonly at: number; readonly put?: number; readonly take?: number }

/** Everybody comes at a time and puts or takes. Returns when each was done, NaN for never, in the order of `moves`. */
function play(capacity: number, initial: number, moves: readonly Move[]) {
  const sim = new Simulation();
  const level = new Level(sim, "heap", capacity, initial);
  const done = moves.map(() => NaN);
  moves.forEach(({ at, put, take }, i) => {
    sim.spawn((function* (): Work {
      yield put === undefined ? level.take(take!) : level.put(put);
      done[i] = sim.now;
    })(), { at });
  });
  sim.run();
  return { done, level, sim };
}

describe("a level", () => {
  test("lets puts wait for room and takes for enough, each first come first served", () => {
    const { done, level } = play(10, 0, [{ at: 0, take: 6 }, { at: 1, put: 8 }, { at: 2, put: 9 }, { at: 3, put: 1 }, { at: 4, take: 2 }]);
    expect(done).toEqual([1, 1, 4, 4, 4]);
    expect(level.level).toBe(10);
  });

  test("lets nobody overtake a large put, even when a smaller one would fit", () => {
    const { done, level } = play(10, 8, [{ at: 0, put: 5 }, { at: 1, put: 1 }, { at: 2, take: 4 }]);
    expect(done).toEqual([2, 2, 2]);
    expect(level.level).toBe(10);
    expect(play(10, 8, [{ at: 0, put: 5 }, { at: 1, put: 1 }]).done).toEqual([NaN, NaN]);
  });

  test("takes a put larger than its whole capacity when it is empty, so that one load too big does not wait for ever", () => {
    const { done, level } = play(10, 3, [{ at: 0, put: 15 }, { at: 1, take: 3 }, { at: 2, put: 1 }, { at: 3, take: 15 }]);
    expect(done).toEqual([1, 1, 3, 3]);
    expect(level.level).toBe(1);
    expect(play(10, 3, [{ at: 0, put: 15 }, { at: 1, take: 2.9 }]).done).toEqual([NaN, 1]);
  });

  test("does not let rounding keep out a load that fits, nor leave a speck behind", () => {
    // Ten times 0.1 is a little under 1, three times 0.1 a little over 0.3.
    expect(0.1 + 0.1 + 0.1).toBeGreaterThan(0.3);
    const tenths = Array.from({ length: 3 }, () => ({ at: 0, put: 0.1 }));
    const { done, level } = play(0.3, 0, [...tenths, { at: 1, take: 0.3 }, { at: 2, put: 0.3 }, { at: 3, take: 0.3 * (1 + 5e-10) }]);
    expect(done).toEqual([0, 0, 0, 1, 2, 3]);
    expect(level.level).toBe(0);
  });

  test("does not forgive more than rounding", () => {
    expect(play(1, 0, [{ at: 0, put: 1 - 1e-6 }, { at: 1, put: 2e-6 }]).done).toEqual([0, NaN]);
    expect(play(1, 0.5, [{ at: 1, take: 0.5 + 1e-8 }]).done).toEqual([NaN]);
    expect(play(1e6, 0, [{ at: 1, take: 1e-6 }]).done).toEqual([NaN]);
  });

  test("keeps what is there when its capacity is cut, and makes puts wait; more capacity lets them in", () => {
    const sim = new Simulation();
    const level = new Level(sim, "heap", 10, 8);
    const done: number[] = [];
    sim.spawn((function* (): Work {
      level.changeCapacity(5);
      expect(level.level).toBe(8);
      yield hold(10);
      expect(level.waitingPuts).toBe(1);
      level.changeCapacity(20);
    })());
    sim.spawn((function* (): Work { yield level.put(2); done.push(sim.now); })());
    sim.run();
    expect(done).toEqual([10]);
    expect([level.level, level.capacity, level.waitingPuts]).toEqual([10, 20, 0]);
  });

  test("without a limit takes everything in", () => {
    expect(play(Infinity, 0, [{ at: 0, put: 1e12 }, { at: 1, put: 1e12 }]).done).toEqual([0, 1]);
  });

  test("refuses what it cannot do, in words", () => {
    const sim = new Simulation();
    const level = new Level(sim, "heap", 10);
    for (const amount of [-1, NaN, Infinity]) {
      expect(() => level.put(amount)).toThrow("heap: an amount is 0 or more and finite");
      expect(() => level.take(amount)).toThrow("heap: an amount is 0 or more and finite");
      expect(() => new Level(sim, "heap", 10, amount)).toThrow("heap: an amount is 0 or more and finite");
    }
    expect(() => level.changeCapacity(-1)).toThrow("heap: a capacity is 0 or more");
    expect(() => new Level(sim, "heap", NaN)).toThrow("heap: a capacity is 0 or more");
  });

  test("counts of its own accord: waits and lines of puts and takes, and the level over time", () => {
    const { level, sim } = play(10, 4, [{ at: 0, put: 8 }, { at: 5, take: 3 }, { at: 10, take: 9 }]);
    const { puts, takes, level: over } = level.stats;
    expect(sim.now).toBe(10);
    expect([puts.arrivals, puts.grants, puts.waits.mean, puts.queue.area]).toEqual([1, 1, 5, 5]);
    expect([takes.arrivals, takes.grants, takes.waits.max]).toEqual([2, 2, 0]);
    expect([over.area, over.peak, level.level]).toEqual([4 * 5 + 9 * 5, 9, 0]);
  });

  test("moves nothing for a process that is interrupted between its grant and its resumption, not even if the other side asks in between", () => {
    const sim = new Simulation();
    const level = new Level(sim, "heap", 10, 10);
    const heard: string[] = [];
    const putter: Process = sim.spawn((function* (): Work {
      try { yield level.put(10); heard.push("put"); } catch { heard.push("put struck"); }
    })());
    sim.spawn((function* (): Work {
      yield 5;
      yield level.take(10);
      heard.push(`took, level ${level.level}`);
      // The room is promised to the put now. A second take may not count on what has not moved in yet.
      sim.interrupt(putter, null);
      yield level.take(10);
      heard.push("never");
    })());
    sim.run();
    expect(heard).toEqual(["took, level 0", "put struck"]);
    expect([level.level, level.waitingTakes, level.waitingPuts]).toEqual([0, 1, 0]);
  });

  test("does not give room that is promised to one who waited to one who asks in between", () => {
    const sim = new Simulation();
    const level = new Level(sim, "heap", 10, 10);
    const done: string[] = [];
    sim.spawn((function* (): Work { yield level.put(6); done.push("the one who waited"); })());
    sim.spawn((function* (): Work {
      yield 5;
      yield level.take(8);
      yield level.put(6);
      done.push("the one in between");
    })());
    sim.run();
    expect(done).toEqual(["the one who waited"]);
    expect(level.level).toBe(8);
  });
});
