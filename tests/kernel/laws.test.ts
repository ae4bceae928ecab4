/** What must hold for any yard full of processes, interrupted at any time. Times are small whole numbers, so that much falls on one instant. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { hold, Level, Resource, Signal, Simulation, Store } from "../../sim/kernel/index.ts";
import type { Process, Work } from "../../sim/kernel/index.ts";
import type { LineStatistics } from "../../sim/kernel/line.ts";
import { runs } from "./runs.ts";

const time = fc.nat(6);
/** Some strike at a time; others, `amid`, in the middle of somebody's step: the k-th time that something is given, `whom` is struck, or nobody. */
const interrupts = fc.record({
  timed: fc.array(fc.record({ at: fc.nat(40), whom: fc.nat(7), twice: fc.boolean() }), { maxLength: 20 }),
  amid: fc.array(fc.option(fc.nat(7)), { maxLength: 20 }),
});
interface Interrupts { readonly timed: readonly { at: number; whom: number; twice: boolean }[]; readonly amid: readonly (number | null)[] }

/**
 * Spawns the processes and their interruptions, runs, and calls `settled` at the end of every instant, when all that was granted has been
 * delivered: just before the clock moves, and at the end. The work calls `amid` right after it has given something that others wait for.
 */
function play(sim: Simulation, strikes: Interrupts, settled: () => void, work: readonly ((amid: () => void) => Work)[]): void {
  let given = 0;
  const processes: Process[] = [];
  const strike = (whom: number) => sim.interrupt(processes[whom % processes.length]!, null);
  const amid = () => {
    const whom = strikes.amid[given++];
    if (typeof whom === "number") strike(whom);
  };
  for (const make of work) processes.push(sim.spawn(make(amid)));
  for (const { at, whom, twice } of strikes.timed) {
    sim.spawn((function* (): Work {
      yield hold(at);
      strike(whom);
      if (twice) strike(whom);
    })());
  }
  sim.run();
  settled();
}

/** A simulation that calls back before the clock moves on, and fails when it moves back. */
function watched(settled: () => void): Simulation {
  let last = 0;
  return new Simulation({
    log: (process) => {
      expect(process.at).toBeGreaterThanOrEqual(last);
      if (process.at > last) settled();
      last = process.at;
    },
  });
}

/** Little's law over the whole run, in its exact form: the area under the line's length is the sum of all times spent in it. */
function expectLittle(line: LineStatistics): void {
  expect(line.queue.area).toBeCloseTo(line.waits.sum + line.abandoned.sum, 6);
}

test("no unit of a resource is lost or given twice, and nobody waits beside a free unit that is his, under any interrupts", () => {
  const visit = fc.record({ before: time, units: fc.integer({ min: 1, max: 3 }), priority: fc.nat(1), holds: time });
  const changes = fc.array(fc.record({ at: fc.nat(40), to: fc.integer({ min: 0, max: 4 }) }), { maxLength: 4 });
  fc.assert(fc.property(fc.array(fc.array(visit, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 8 }), interrupts, changes, (plans, strikes, changed) => {
    let held = 0;
    let delivered = 0;
    const waiting = new Set<{ units: number; priority: number }>();
    const sim = watched(() => settled());
    const crane = new Resource(sim, "crane", 3);
    const settled = () => {
      expect(crane.inUse).toBe(held);
      expect(crane.queueLength).toBe(waiting.size);
      // The first of the best priority stands in front; a Set keeps the order of joining.
      const best = Math.min(...[...waiting].map(({ priority }) => priority));
      const front = [...waiting].find(({ priority }) => priority === best);
      if (front !== undefined) expect(held + front.units).toBeGreaterThan(crane.capacity);
    };
    const work = plans.map((visits) => function* (amid: () => void): Work {
      for (const visit of visits) {
        const { before, units, priority, holds } = visit;
        let has = false;
        try {
          yield hold(before);
          waiting.add(visit);
          yield crane.seize(units, priority);
          has = true;
          held += units;
          delivered += 1;
          waiting.delete(visit);
          yield hold(holds);
        } catch {
          waiting.delete(visit);
        }
        if (has) {
          held -= units;
          crane.release(units);
          amid();
        }
      }
    });
    for (const { at, to } of changed) sim.spawn((function* (): Work { yield hold(at); crane.changeCapacity(to); })());
    // In the end there is room for all, so that nobody is left.
    sim.spawn((function* (): Work { yield hold(1000); crane.changeCapacity(3); })());
    play(sim, strikes, settled, work);
    expect([crane.inUse, crane.queueLength]).toEqual([0, 0]);
    expect(crane.stats.grants).toBeGreaterThanOrEqual(delivered);
    expect(crane.stats.arrivals).toBe(crane.stats.grants + crane.stats.abandoned.n);
    expectLittle(crane.stats);
  }), runs(1000));
});

test("every item of a store is taken once or still there, oldest first, under any interrupts", () => {
  const plan = fc.array(fc.array(time, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 6 });
  fc.assert(fc.property(plan, fc.array(time, { maxLength: 25 }), interrupts, (plans, puts, strikes) => {
    const got: number[] = [];
    let put = 0;
    const sim = watched(() => settled());
    const store = new Store<number>(sim, "store");
    const settled = () => {
      expect([...got, ...store.items].sort((a, b) => a - b)).toEqual(Array.from({ length: put }, (_, i) => i));
      expect(store.size === 0 || store.queueLength === 0).toBe(true);
    };
    const takers = plans.map((rests) => function* (): Work {
      for (const rest of rests) {
        try {
          got.push(yield store.take());
          yield hold(rest);
        } catch {
          continue;
        }
      }
    });
    function* putter(amid: () => void): Work {
      for (let i = 0; i < puts.length; i += 1) {
        try {
          yield hold(puts[i]!);
        } catch {
          // An interrupted gap is only shorter.
        }
        store.put(put);
        put += 1;
        amid();
      }
    }
    // In the end there is something for everybody, so that nobody is left.
    sim.spawn((function* (): Work {
      for (yield hold(1000); store.queueLength > 0; yield hold(10)) {
        store.put(put);
        put += 1;
      }
    })());
    play(sim, strikes, settled, [...takers, putter]);
    expectLittle(store.stats);
    if (strikes.amid.length === 0) expect(got).toEqual([...got].sort((a, b) => a - b));
  }), runs(1000));
});

test("no mass of a level is lost or made, and it never stands below nothing or above its capacity, under any interrupts", () => {
  const move = fc.record({ before: time, what: fc.constantFrom("put", "take"), amount: fc.integer({ min: 0, max: 12 }).map((tenths) => tenths / 10) });
  fc.assert(fc.property(fc.array(fc.array(move, { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 8 }), interrupts, (plans, strikes) => {
    let balance = 0.5;
    const waiting: Record<string, number> = { put: 0, take: 0 };
    const sim = watched(() => settled());
    const level = new Level(sim, "heap", 1, 0.5);
    const settled = () => {
      expect(level.level).toBeCloseTo(balance, 9);
      expect(level.level).toBeGreaterThanOrEqual(0);
      // 1.2, the largest put, is let in alone when the heap is empty.
      expect(level.level).toBeLessThanOrEqual(1.2 + 1e-9);
      expect([level.waitingPuts, level.waitingTakes]).toEqual([waiting.put, waiting.take]);
      expect(level.promised.room).toBe(0);
      expect(level.promised.amount).toBe(0);
    };
    const work = plans.map((moves) => function* (amid: () => void): Work {
      for (const { before, what, amount } of moves) {
        let asking = false;
        try {
          yield hold(before);
          asking = true;
          waiting[what]! += 1;
          yield what === "put" ? level.put(amount) : level.take(amount);
          asking = false;
          waiting[what]! -= 1;
          balance += what === "put" ? amount : -amount;
          amid();
        } catch {
          if (asking) waiting[what]! -= 1;
        }
      }
    });
    play(sim, strikes, settled, work);
    if (level.waitingPuts === 0) expectLittle(level.stats.puts);
    if (level.waitingTakes === 0) expectLittle(level.stats.takes);
  }), runs(1000));
});

test("every wait for a signal ends once: by a firing, by its limit or by an interrupt", () => {
  const waits = fc.array(fc.array(fc.option(time), { minLength: 1, maxLength: 6 }), { minLength: 1, maxLength: 6 });
  fc.assert(fc.property(waits, fc.array(time, { maxLength: 12 }), interrupts, (plans, gaps, strikes) => {
    let begun = 0;
    let ended = 0;
    const fired = new Set<number>();
    const sim = watched(() => settled());
    const signal = new Signal<string>(sim);
    const settled = () => expect(signal.waiting).toBe(begun - ended);
    const waiters = plans.map((limits) => function* (): Work {
      for (const limit of limits) {
        const since = sim.now;
        begun += 1;
        try {
          const brought = yield limit === null ? signal.wait() : signal.within(limit);
          if (limit === null) expect(brought).toBe("rain");
          else if (brought === false) expect(sim.now).toBe(since + limit);
          else expect(brought).toBe(true);
          if (brought !== false) expect(fired.has(sim.now)).toBe(true);
        } catch (strike) {
          if ((strike as Error).name !== "Interrupt") throw strike;
        }
        ended += 1;
      }
    });
    function* firer(amid: () => void): Work {
      for (const gap of gaps) {
        try {
          yield hold(gap);
        } catch {
          // An interrupted gap is only shorter.
        }
        fired.add(sim.now);
        signal.fire("rain");
        amid();
      }
    }
    play(sim, strikes, settled, [...waiters, firer]);
  }), runs(1000));
});
