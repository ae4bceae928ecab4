/** Waits that an interrupt need not end: what the process does meanwhile, and how it comes back. */
import { describe, expect, test } from "vitest";
import { Interrupt, Resource, Simulation } from "../../sim/kernel/index.ts";
import type { Process, Wait, Work } from "../../sim/kernel/index.ts";

/** A wait as `inner` is, with `meanwhile` done by whoever is struck in it. */
const patient = (inner: Wait, meanwhile: (stop: Interrupt) => Work): Wait => ({
  begin: (process, simulation) => inner.begin(process, simulation),
  cancel: (process) => inner.cancel(process),
  standThrough: meanwhile,
});

/** Strikes a process at these times, one cause each. */
function* strikes(sim: Simulation, process: Process, at: readonly [time: number, cause: string][]): Work {
  for (const [time, cause] of at) {
    if (time > sim.now) yield time - sim.now;
    sim.interrupt(process, cause);
  }
}

/** One who has the resource until 10, one after him who stands through strikes for 3 s each, and one behind both. */
function threeInLine(at: readonly [number, string][], meanwhile?: (sim: Simulation, heard: string[]) => (stop: Interrupt) => Work) {
  const sim = new Simulation();
  const heard: string[] = [];
  const scale = new Resource(sim, "scale", 1);
  const stand = meanwhile?.(sim, heard) ?? function* (stop: Interrupt): Work {
    heard.push(`${String(stop.cause)} at ${sim.now}`);
    yield 3;
    heard.push(`runs again at ${sim.now}`);
  };
  const use = (name: string, seconds: number, wait: Wait) => (function* (): Work {
    try {
      yield wait;
      heard.push(`${name} at ${sim.now}`);
      yield seconds;
      scale.release();
    } catch (stop) {
      heard.push(`${name} hears ${String((stop as Interrupt).cause)} at ${sim.now}`);
    }
  })();
  sim.spawn(use("first", 10, scale.seize()));
  const process = sim.spawn(use("second", 10, patient(scale.seize(), stand)));
  sim.spawn(use("third", 10, scale.seize()));
  sim.spawn(strikes(sim, process, at));
  sim.run();
  return { heard, scale };
}

describe("a wait that stands through an interrupt", () => {
  test("leaves its line, begins anew at the tail when the process is back, and the process hears nothing of it", () => {
    const { heard, scale } = threeInLine([[4, "breakdown"]]);
    expect(heard).toEqual(["first at 0", "breakdown at 4", "runs again at 7", "third at 10", "second at 20"]);
    expect(scale.stats.abandoned.n).toBe(1);
  });

  test("can be struck again after it has begun anew", () => {
    expect(threeInLine([[2, "one"], [8, "two"]]).heard)
      .toEqual(["first at 0", "one at 2", "runs again at 5", "two at 8", "third at 10", "runs again at 11", "second at 20"]);
  });

  test("is struck, while it stands aside, in what it does there", () => {
    const { heard } = threeInLine([[4, "breakdown"], [5, "puncture"]], (sim, said) => function* (stop): Work {
      said.push(`${String(stop.cause)} at ${sim.now}`);
      try { yield 3; } catch (again) { said.push(`then ${String((again as Interrupt).cause)} at ${sim.now}`); }
    });
    expect(heard).toEqual(["first at 0", "breakdown at 4", "then puncture at 5", "third at 10", "second at 20"]);
  });

  test("takes two strikes of one instant one after the other", () => {
    const { heard } = threeInLine([[4, "breakdown"], [4, "puncture"]], (sim, said) => function* (stop): Work {
      said.push(`${String(stop.cause)} at ${sim.now}`);
      try { yield 3; } catch (again) { said.push(`then ${String((again as Interrupt).cause)} at ${sim.now}`); }
    });
    expect(heard).toEqual(["first at 0", "breakdown at 4", "then puncture at 4", "third at 10", "second at 20"]);
  });

  test("is over for the process, at its yield, with whatever is thrown on from there", () => {
    const { heard } = threeInLine([[4, "end of shift"]], () => function* (stop): Work {
      yield 1;
      throw stop;
    });
    expect(heard).toEqual(["first at 0", "second hears end of shift at 5", "third at 10"]);
  });

  test("gives back what was granted and not yet delivered, so that the next in line is served", () => {
    const sim = new Simulation();
    const heard: string[] = [];
    const scale = new Resource(sim, "scale", 1);
    const second: Process = sim.spawn((function* (): Work {
      yield 1;
      yield patient(scale.seize(), function* (): Work { yield 3; });
      heard.push(`second at ${sim.now}`);
    })());
    sim.spawn((function* (): Work {
      yield scale.seize();
      yield 10;
      scale.release();
      sim.interrupt(second, "breakdown");
    })());
    sim.spawn((function* (): Work {
      yield 2;
      yield scale.seize();
      heard.push(`third at ${sim.now}`);
      yield 10;
      scale.release();
    })());
    sim.run();
    expect(heard).toEqual(["third at 10", "second at 20"]);
  });

  test("brings what it waited for to the yield, as if nothing had happened", () => {
    const sim = new Simulation();
    let got: unknown;
    const gift: Wait = {
      begin: (process, simulation) => {
        process.value = "a load";
        simulation.schedule(process, simulation.now + 5, 0);
        return false;
      },
      cancel: () => {},
    };
    const process = sim.spawn((function* (): Work { got = yield patient(gift, function* (): Work { yield 1; }); })());
    sim.spawn(strikes(sim, process, [[2, "breakdown"]]));
    sim.run();
    expect(got).toBe("a load");
    expect(sim.now).toBe(2 + 1 + 5);
  });

  test("that is granted at once when it begins anew lets the process go on in the same instant", () => {
    expect(threeInLine([[4, "breakdown"]], () => function* (): Work { yield 30; }).heard)
      .toEqual(["first at 0", "third at 10", "second at 34"]);
  });
});
