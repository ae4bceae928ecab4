import { describe, expect, test } from "vitest";
import { hold, Simulation, Store } from "../../sim/kernel/index.ts";
import type { Process, Work } from "../../sim/kernel/index.ts";

describe("a store", () => {
  test("gives its items out oldest first, each to one taker, takers in the order in which they asked", () => {
    const sim = new Simulation();
    const store = new Store<string>(sim, "apron");
    const got: string[] = [];
    for (const name of ["A", "B", "C"]) {
      sim.spawn((function* (): Work { got.push(`${name} ${yield store.take()} ${sim.now}`); })());
    }
    sim.spawn((function* (): Work {
      yield 5;
      store.put("one");
      store.put("two");
      yield 5;
      for (const item of ["three", "four", "five"]) store.put(item);
      expect(yield store.take()).toBe("four");
    })());
    sim.run();
    expect(got).toEqual(["A one 5", "B two 5", "C three 10"]);
    expect(store.items).toEqual(["five"]);
    expect(store.size).toBe(1);
  });

  test("shows its items oldest first also after many have gone through", () => {
    const sim = new Simulation();
    const store = new Store<number>(sim, "apron");
    const got: number[] = [];
    sim.spawn((function* (): Work {
      for (let i = 0; i < 500; i += 1) {
        store.put(2 * i);
        store.put(2 * i + 1);
        got.push(yield store.take());
      }
    })());
    sim.run();
    expect(got).toEqual(Array.from({ length: 500 }, (_, i) => i));
    expect(store.items).toEqual(Array.from({ length: 500 }, (_, i) => 500 + i));
  });

  test("lets a particular item be taken out of turn, and says when it is not there", () => {
    const sim = new Simulation();
    const store = new Store<string>(sim, "apron");
    for (const item of ["one", "two", "three"]) store.put(item);
    expect(store.remove("two")).toBe(true);
    expect(store.remove("two")).toBe(false);
    sim.spawn((function* (): Work { yield store.take(); expect(store.remove("one")).toBe(false); })());
    sim.run();
    expect(store.items).toEqual(["three"]);
  });

  test("hands an item that was granted to a process interrupted before it resumed to the next taker, or keeps it in front", () => {
    const sim = new Simulation();
    const store = new Store<string>(sim, "apron");
    const got: string[] = [];
    function* taker(name: string): Work {
      try { got.push(`${name} ${yield store.take()}`); } catch { got.push(`${name} struck`); }
    }
    const takers: Process[] = ["A", "B", "C"].map((name) => sim.spawn(taker(name)));
    sim.spawn((function* (): Work {
      yield 5;
      store.put("one");
      sim.interrupt(takers[0]!, null);
      yield 5;
      store.put("two");
      store.put("three");
      sim.interrupt(takers[2]!, null);
    })());
    sim.run();
    expect(got).toEqual(["A struck", "B one", "C struck"]);
    expect(store.items).toEqual(["two", "three"]);
    expect(store.queueLength).toBe(0);
  });

  test("counts of its own accord: takers' waits, their line, items over time", () => {
    const sim = new Simulation();
    const store = new Store<number>(sim, "apron");
    sim.spawn((function* (): Work {
      yield store.take();
      yield hold(10);
      yield store.take();
    })());
    sim.spawn((function* (): Work {
      yield 4;
      for (const item of [1, 2, 3]) store.put(item);
      yield 16;
    })());
    sim.run();
    const { stats } = store;
    expect(sim.now).toBe(20);
    expect([stats.arrivals, stats.grants, stats.waits.mean, stats.waits.max]).toEqual([2, 2, 2, 4]);
    expect(stats.queue.area).toBe(4);
    expect([stats.size.area, stats.size.peak]).toEqual([2 * 10 + 1 * 6, 2]);
  });
});
