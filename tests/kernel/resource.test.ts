import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hold, Interrupt, Resource, Simulation } from "../../sim/kernel/index.ts";
import type { Process, Work } from "../../sim/kernel/index.ts";
import { runs } from "./runs.ts";

interface Visit { readonly at: number; readonly holds: number; readonly units?: number; readonly priority?: number }

/** Everybody comes at a time, seizes, holds and releases. Returns when each was served, in the order of `visits`. */
function serve(capacity: number, visits: readonly Visit[], change?: { at: number; to: number }) {
  const sim = new Simulation();
  const resource = new Resource(sim, "crane", capacity);
  const served: number[] = visits.map(() => NaN);
  visits.forEach(({ at, holds, units, priority }, i) => {
    sim.spawn((function* (): Work {
      yield resource.seize(units, priority);
      served[i] = sim.now;
      yield hold(holds);
      resource.release(units);
    })(), { at });
  });
  if (change !== undefined) sim.spawn((function* (): Work { yield hold(change.at); resource.changeCapacity(change.to); })());
  sim.run();
  return { served, resource, sim };
}

describe("a resource", () => {
  test("serves as many at once as it has units, first come first served", () => {
    const { served } = serve(2, [0, 1, 2, 3].map((at) => ({ at, holds: 10 })));
    expect(served).toEqual([0, 1, 10, 11]);
  });

  test("serves lower priority numbers first, and first come first served within one priority", () => {
    const { served } = serve(1, [
      { at: 0, holds: 10 }, { at: 1, holds: 1, priority: 5 }, { at: 2, holds: 1, priority: 1 }, { at: 3, holds: 1, priority: 5 }, { at: 4, holds: 1, priority: 1 },
    ]);
    expect(served).toEqual([0, 12, 10, 13, 11]);
  });

  test("lets nobody overtake one who asks for many units, even when fewer would be free", () => {
    const { served } = serve(3, [{ at: 0, holds: 10, units: 2 }, { at: 1, holds: 5, units: 3 }, { at: 2, holds: 1, units: 1 }]);
    expect(served).toEqual([0, 10, 15]);
  });

  test("serves one with a better priority at once when its units are free and only those it overtakes are waiting", () => {
    const { served } = serve(3, [{ at: 0, holds: 10, units: 2 }, { at: 1, holds: 5, units: 3 }, { at: 2, holds: 1, units: 1, priority: -1 }]);
    expect(served).toEqual([0, 10, 2]);
  });

  test("with more units from some time on serves those who wait at that time", () => {
    const { served } = serve(0, [{ at: 1, holds: 10 }, { at: 2, holds: 10 }, { at: 3, holds: 10 }], { at: 5, to: 2 });
    expect(served).toEqual([5, 5, 15]);
  });

  test("with fewer units from some time on takes none away that is in use, and serves again when enough have come back", () => {
    const { served, resource } = serve(2, [{ at: 0, holds: 10 }, { at: 1, holds: 14 }, { at: 2, holds: 1 }], { at: 3, to: 1 });
    expect(served).toEqual([0, 1, 15]);
    expect(resource.capacity).toBe(1);
  });

  test("refuses what it cannot do, in words", () => {
    const sim = new Simulation();
    const resource = new Resource(sim, "crane", 1);
    for (const units of [0, -1, 1.5, NaN, Infinity]) {
      expect(() => resource.seize(units)).toThrow("crane: units are whole numbers from 1 up");
      expect(() => resource.release(units)).toThrow("crane: units are whole numbers from 1 up");
    }
    expect(() => resource.release()).toThrow("1 units are given back, but only 0 are in use");
    expect(() => resource.changeCapacity(-1)).toThrow("crane: a capacity is 0 or more");
    expect(() => new Resource(sim, "crane", NaN)).toThrow("crane: a capacity is 0 or more");
  });

  test("counts of its own accord: requests, grants, waits with zero ones, line, use and capacity over time", () => {
    const { resource, sim } = serve(2, [{ at: 0, holds: 10 }, { at: 1, holds: 9 }, { at: 4, holds: 10, units: 2 }], { at: 15, to: 4 });
    const { stats } = resource;
    expect(sim.now).toBe(20);
    expect([stats.arrivals, stats.grants, stats.abandoned.n]).toEqual([3, 3, 0]);
    expect([stats.waits.n, stats.waits.mean, stats.waits.min, stats.waits.max]).toEqual([3, 2, 0, 6]);
    expect([stats.queue.area, stats.queue.mean, stats.queue.peak]).toEqual([6, 0.3, 1]);
    expect([stats.inUse.area, stats.inUse.peak]).toEqual([10 + 9 + 20, 2]);
    expect([stats.capacity.area, stats.utilisation]).toEqual([50, 39 / 50]);
  });

  test("agrees with Lindley's recursion for one server, for any gaps and services", () => {
    const customers = fc.array(fc.tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 8 })), { minLength: 1, maxLength: 60 });
    fc.assert(fc.property(customers, (list) => {
      let at = 0;
      const visits = list.map(([gap, holds]) => ({ at: (at += gap), holds }));
      let wait = 0;
      const waits = visits.map(({ at: came }, i) => {
        const before = visits[i - 1];
        return (wait = before === undefined ? 0 : Math.max(0, wait + before.holds - (came - before.at)));
      });
      const { served, resource } = serve(1, visits);
      expect(served.map((time, i) => time - visits[i]!.at)).toEqual(waits);
      expect(resource.stats.waits.sum).toBeCloseTo(waits.reduce((a, b) => a + b, 0), 6);
    }), runs(1000));
  });

  test("agrees with the recursion of Kiefer and Wolfowitz for several servers", () => {
    const customers = fc.array(fc.tuple(fc.integer({ min: 0, max: 4 }), fc.integer({ min: 0, max: 12 })), { minLength: 1, maxLength: 60 });
    fc.assert(fc.property(customers, fc.integer({ min: 1, max: 4 }), (list, servers) => {
      let at = 0;
      const visits = list.map(([gap, holds]) => ({ at: (at += gap), holds }));
      const freeFrom = Array.from({ length: servers }, () => 0);
      const expected = visits.map(({ at: came, holds }) => {
        freeFrom.sort((a, b) => a - b);
        const start = Math.max(came, freeFrom[0]!);
        freeFrom[0] = start + holds;
        return start;
      });
      expect(serve(servers, visits).served).toEqual(expected);
    }), runs(1000));
  });
});

describe("an interrupted request", () => {
  test("leaves the line: the unit goes to the next, and is not waited for again", () => {
    const sim = new Simulation();
    const resource = new Resource(sim, "crane", 1);
    const heard: string[] = [];
    function* visitor(name: string, holds: number): Work {
      try {
        yield resource.seize();
      } catch (strike) {
        heard.push(`${name} gave up at ${sim.now}: ${(strike as Interrupt).cause}`);
        yield hold(100);
        heard.push(`${name} slept until ${sim.now}`);
        return;
      }
      heard.push(`${name} served at ${sim.now}`);
      yield hold(holds);
      resource.release();
    }
    sim.spawn(visitor("first", 10));
    const second = sim.spawn(visitor("second", 10));
    sim.spawn(visitor("third", 10));
    sim.spawn((function* (): Work { yield 4; sim.interrupt(second, "rain"); })());
    sim.run();
    expect(heard).toEqual(["first served at 0", "second gave up at 4: rain", "third served at 10", "second slept until 104"]);
    expect([resource.stats.arrivals, resource.stats.grants, resource.stats.abandoned.n, resource.stats.abandoned.sum]).toEqual([3, 2, 1, 4]);
    expect(resource.inUse).toBe(0);
  });

  test("that leaves lets those behind it through who fit", () => {
    const sim = new Simulation();
    const resource = new Resource(sim, "crane", 2);
    const served: number[] = [];
    sim.spawn((function* (): Work { yield resource.seize(); yield hold(50); resource.release(); })());
    const large = sim.spawn((function* (): Work {
      try { yield resource.seize(2); } catch { /* it gives up */ }
    })());
    sim.spawn((function* (): Work { yield resource.seize(); served.push(sim.now); resource.release(); })());
    sim.spawn((function* (): Work { yield 4; sim.interrupt(large, null); })());
    sim.run();
    expect(served).toEqual([4]);
  });

  test("that was granted, but not yet told, hands its units back to the next in line at that instant", () => {
    const sim = new Simulation();
    const resource = new Resource(sim, "crane", 1);
    const heard: string[] = [];
    let second: Process | null = null;
    sim.spawn((function* (): Work {
      yield resource.seize();
      yield hold(10);
      resource.release();
      expect(resource.inUse).toBe(1);
      sim.interrupt(second!, "rain");
    })());
    second = sim.spawn((function* (): Work {
      try { yield resource.seize(); heard.push("second served"); } catch { heard.push(`second struck at ${sim.now}`); }
    })());
    sim.spawn((function* (): Work { yield resource.seize(); heard.push(`third served at ${sim.now}`); resource.release(); })());
    sim.run();
    expect(heard).toEqual(["second struck at 10", "third served at 10"]);
    expect(resource.inUse).toBe(0);
  });
});
