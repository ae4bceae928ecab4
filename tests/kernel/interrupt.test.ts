import { describe, expect, test } from "vitest";
import { hold, Interrupt, Simulation, until } from "../../sim/kernel/index.ts";
import type { Process, Work } from "../../sim/kernel/index.ts";

/** Sleeps through a list of holds and writes down what happens. */
function* sleeper(sim: Simulation, heard: string[], naps: readonly number[]): Work {
  for (const nap of naps) {
    try {
      yield hold(nap);
      heard.push(`slept until ${sim.now}`);
    } catch (strike) {
      heard.push(`${(strike as Interrupt).cause} at ${sim.now}`);
    }
  }
}

describe("an interrupt", () => {
  test("ends a hold, which does not come to its end later", () => {
    const sim = new Simulation();
    const heard: string[] = [];
    const process = sim.spawn(sleeper(sim, heard, [10, 20]));
    sim.spawn((function* (): Work { yield 4; sim.interrupt(process, "rain"); })());
    sim.run();
    expect(heard).toEqual(["rain at 4", "slept until 24"]);
    expect(sim.events).toBe(2 + 2 + 1);
  });

  test("ends a wait for an absolute time", () => {
    const sim = new Simulation();
    let struck = NaN;
    const process = sim.spawn((function* (): Work {
      try { yield until(10); } catch { struck = sim.now; }
    })());
    sim.spawn((function* (): Work { yield 4; sim.interrupt(process, null); })());
    sim.run();
    expect(struck).toBe(4);
    expect(sim.now).toBe(4);
  });

  test("is delivered at the same instant, but never inside the call", () => {
    const sim = new Simulation();
    const heard: string[] = [];
    const process = sim.spawn(sleeper(sim, heard, [10]));
    sim.spawn((function* (): Work {
      yield 4;
      expect(sim.interrupt(process, "rain")).toBe(true);
      heard.push("called");
    })());
    sim.run();
    expect(heard).toEqual(["called", "rain at 4"]);
  });

  test("and a second one at the same instant are both delivered, one at each wait", () => {
    const sim = new Simulation();
    const heard: string[] = [];
    const process = sim.spawn(sleeper(sim, heard, [10, 10, 10]));
    sim.spawn((function* (): Work {
      yield 4;
      sim.interrupt(process, "breakdown");
      sim.interrupt(process, "end of shift");
    })());
    sim.run();
    expect(heard).toEqual(["breakdown at 4", "end of shift at 4", "slept until 14"]);
  });

  test("does nothing, and says so, to a process that has ended, has not begun, or is the one running", () => {
    const sim = new Simulation();
    const heard: string[] = [];
    const ended = sim.spawn(sleeper(sim, heard, []));
    const later = sim.spawn(sleeper(sim, heard, [1]), { at: 20 });
    const said: boolean[] = [];
    const processes: Process[] = [ended, later];
    processes.push(sim.spawn((function* (): Work {
      yield 10;
      for (const process of processes) said.push(sim.interrupt(process, "rain"));
      yield hold(1);
    })()));
    sim.run();
    expect(said).toEqual([false, false, false]);
    expect(heard).toEqual(["slept until 21"]);
  });

  test("carries its cause untouched", () => {
    const sim = new Simulation();
    const cause = { kind: "breakdown", until: 99 };
    let got: unknown;
    const process = sim.spawn((function* (): Work {
      try { yield 10; } catch (strike) { got = strike; }
    })());
    sim.spawn((function* (): Work { yield 1; sim.interrupt(process, cause); })());
    sim.run();
    expect(got).toBeInstanceOf(Interrupt);
    expect((got as Interrupt).cause).toBe(cause);
  });

  test("that is caught outside a loop ends the work there and lets it clean up", () => {
    const sim = new Simulation();
    const heard: string[] = [];
    const process = sim.spawn((function* (): Work {
      try {
        for (;;) yield hold(3);
      } catch {
        heard.push("stopped");
      } finally {
        heard.push("cleaned up");
      }
    })());
    sim.spawn((function* (): Work { yield 7; sim.interrupt(process, null); })());
    sim.run();
    expect(heard).toEqual(["stopped", "cleaned up"]);
    expect(process.alive).toBe(false);
  });
});
