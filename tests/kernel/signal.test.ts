import { describe, expect, test } from "vitest";
import { hold, Interrupt, Signal, Simulation, until } from "../../sim/kernel/index.ts";
import type { Wait, Work } from "../../sim/kernel/index.ts";

/** One who waits, and a firing at 10; what the wait brought and when. */
function meet(wait: (signal: Signal, sim: Simulation) => Wait, firesAt = 10): { brought: unknown; at: number; events: number } {
  const sim = new Simulation();
  const signal = new Signal(sim);
  const result = { brought: null as unknown, at: NaN, events: 0 };
  sim.spawn((function* (): Work {
    result.brought = yield wait(signal, sim);
    result.at = sim.now;
  })());
  sim.spawn((function* (): Work {
    yield until(firesAt);
    signal.fire();
  })());
  sim.run();
  expect(signal.waiting).toBe(0);
  return { ...result, events: sim.events };
}

describe("a signal", () => {
  test("wakes all who wait, in the order in which they began to wait, with its value", () => {
    const sim = new Simulation();
    const signal = new Signal<number>(sim);
    const woken: string[] = [];
    for (const name of ["late", "early"]) {
      sim.spawn((function* (): Work {
        yield hold(name === "early" ? 1 : 2);
        woken.push(`${name} ${yield signal.wait()} ${sim.now}`);
      })());
    }
    sim.spawn((function* (): Work { yield 5; signal.fire(42); })());
    sim.run();
    expect(woken).toEqual(["early 42 5", "late 42 5"]);
  });

  test("keeps no memory: who begins to wait at the instant of a firing, but after it, waits for the next one", () => {
    const sim = new Simulation();
    const signal = new Signal(sim);
    const woken: number[] = [];
    sim.spawn((function* (): Work { yield 5; signal.fire(); yield 5; signal.fire(); })());
    sim.spawn((function* (): Work { yield 5; yield signal.wait(); woken.push(sim.now); })());
    sim.run();
    expect(woken).toEqual([10]);
  });

  test("wakes once for each wait, also one who waits again at once", () => {
    const sim = new Simulation();
    const signal = new Signal(sim);
    let woken = 0;
    sim.spawn((function* (): Work { for (;;) { yield signal.wait(); woken += 1; } })());
    sim.spawn((function* (): Work { yield 1; signal.fire(); signal.fire(); yield 1; signal.fire(); })());
    sim.run();
    expect(woken).toBe(2);
    expect(signal.waiting).toBe(1);
  });
});

describe("a limited wait", () => {
  test("brings true when the signal fires in time, and the limit is then forgotten", () => {
    expect(meet((signal) => signal.within(30))).toMatchObject({ brought: true, at: 10, events: 4 });
    expect(meet((signal) => signal.by(30))).toMatchObject({ brought: true, at: 10, events: 4 });
  });

  test("brings false when time runs out, and a later firing does not reach it", () => {
    expect(meet((signal) => signal.within(4))).toMatchObject({ brought: false, at: 4, events: 4 });
  });

  test("counts a firing at the very last instant as in time", () => {
    expect(meet((signal) => signal.within(10))).toMatchObject({ brought: true, at: 10 });
  });

  test("of no time at all still gives the others at this instant their turn", () => {
    expect(meet((signal) => signal.within(0), 0)).toMatchObject({ brought: true, at: 0 });
    expect(meet((signal) => signal.within(0), 1)).toMatchObject({ brought: false, at: 0 });
  });

  test("without a limit is a plain wait that brings true", () => {
    expect(meet((signal) => signal.by(Infinity))).toMatchObject({ brought: true, at: 10, events: 4 });
  });

  test("ends at its absolute limit exactly", () => {
    expect(meet((signal) => signal.by(0.1 + 0.7))).toMatchObject({ brought: false, at: 0.1 + 0.7 });
  });

  test("cannot lie in the past", () => {
    const signal = new Signal(new Simulation({ start: 10 }));
    expect(() => signal.by(9)).toThrow("time limit is at 9 s");
    expect(() => signal.within(-1)).toThrow(RangeError);
    expect(() => signal.within(NaN)).toThrow(RangeError);
  });

  test.each(["wait", "within"] as const)("or a plain one that is interrupted (%s) neither fires nor lapses later", (kind) => {
    const sim = new Simulation();
    const signal = new Signal(sim);
    const heard: string[] = [];
    const waiter = sim.spawn((function* (): Work {
      try {
        heard.push(`brought ${yield kind === "wait" ? signal.wait() : signal.within(20)}`);
      } catch (strike) {
        heard.push(`struck by ${(strike as Interrupt).cause} at ${sim.now}`);
      }
      yield hold(100);
      heard.push(`slept until ${sim.now}`);
    })());
    sim.spawn((function* (): Work {
      yield 5;
      sim.interrupt(waiter, "rain");
      yield 5;
      signal.fire();
    })());
    sim.run();
    expect(heard).toEqual(["struck by rain at 5", "slept until 105"]);
  });

  test("that has been fired, but is interrupted before it resumes, is struck only", () => {
    const sim = new Simulation();
    const signal = new Signal(sim);
    const heard: string[] = [];
    const waiter = sim.spawn((function* (): Work {
      for (let i = 0; i < 2; i += 1) {
        try {
          heard.push(`brought ${yield signal.within(20)}`);
        } catch {
          heard.push("struck");
        }
      }
    })());
    sim.spawn((function* (): Work {
      yield 5;
      signal.fire();
      sim.interrupt(waiter, null);
    })());
    sim.run();
    expect(heard).toEqual(["struck", "brought false"]);
    expect(sim.now).toBe(25);
  });
});
