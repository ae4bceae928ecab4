/* eslint require-yield: "off" -- some processes here begin, do one thing and end */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Agenda } from "../../sim/kernel/agenda.ts";
import { hold, Interrupt, RANK, Resource, Signal, Simulation } from "../../sim/kernel/index.ts";
import type { Work } from "../../sim/kernel/index.ts";
import { RANK_STEP } from "../../sim/kernel/ladder.ts";
import { Process } from "../../sim/kernel/process.ts";
import { runs } from "./runs.ts";

/** A process that holds, then does something. */
function* after(seconds: number, deed: () => void): Work {
  yield hold(seconds);
  deed();
}

describe("events at one instant", () => {
  test("go in the order of the ladder: interrupts, grants, holds, new processes, limits that run out, observers", () => {
    const sim = new Simulation();
    const signal = new Signal(sim);
    const heard: string[] = [];
    // All are due at 10, and are set up from the last rung to the first, so that order of scheduling alone would give the reverse.
    sim.spawn(after(10, () => heard.push("observer")), { rank: RANK.observer });
    sim.spawn((function* (): Work { if (!(yield signal.by(10))) heard.push("lapse"); })());
    sim.spawn((function* (): Work { heard.push("start"); })(), { at: 10 });
    const struck = sim.spawn((function* (): Work {
      try { yield 99; } catch { heard.push("interrupt"); }
    })());
    const granted = new Signal(sim);
    sim.spawn((function* (): Work { yield granted.wait(); heard.push("grant"); })());
    sim.spawn(after(10, () => {
      heard.push("first hold");
      granted.fire();
      sim.interrupt(struck, null);
    }));
    sim.spawn(after(10, () => heard.push("second hold")));
    sim.run();
    expect(heard).toEqual(["first hold", "interrupt", "grant", "second hold", "start", "lapse", "observer"]);
  });

  test("go in the order of scheduling on one rung", () => {
    const sim = new Simulation();
    const heard: number[] = [];
    for (let i = 0; i < 50; i += 1) sim.spawn(after(1, () => heard.push(i)));
    sim.run();
    expect(heard).toEqual(Array.from({ length: 50 }, (_, i) => i));
  });

  test("go by time, rank and order of scheduling, whatever is spawned", () => {
    const spawns = fc.array(fc.record({ at: fc.nat(4), rank: fc.nat(5) }), { maxLength: 40 });
    fc.assert(fc.property(spawns, (plans) => {
      const sim = new Simulation();
      const begun: { at: number; rank: number; i: number }[] = [];
      for (const [i, { at, rank }] of plans.entries()) sim.spawn((function* (): Work { begun.push({ at: sim.now, rank, i }); })(), { at, rank });
      sim.run();
      const sorted = plans.map((plan, i) => ({ ...plan, i })).sort((a, b) => a.at - b.at || a.rank - b.rank || a.i - b.i);
      expect(begun).toEqual(sorted);
    }), runs(1000));
  });
});

describe("a release is executed before a seize in the same instant", () => {
  /** One unit, in use until 10; somebody asks for it at 10. Returns when it was had and how long the line was at its longest. */
  function meet(order: "release first" | "seize first"): { had: number; waited: number; longest: number; events: number } {
    const sim = new Simulation();
    const place = new Resource(sim, "place", 1);
    let had = NaN;
    function* holder(): Work {
      yield place.seize();
      yield hold(10);
      place.release();
    }
    function* asker(): Work {
      yield hold(10);
      yield place.seize();
      had = sim.now;
      yield hold(1);
      place.release();
    }
    if (order === "release first") sim.spawn(holder());
    sim.spawn(asker());
    if (order === "seize first") sim.spawn(holder());
    sim.run();
    return { had, waited: place.stats.waits.max, longest: place.stats.queue.peak, events: sim.events };
  }

  test("so the one who asks gets it at that instant, without a wait and without a line, in whichever order the two were scheduled", () => {
    expect(meet("release first")).toMatchObject({ had: 10, waited: 0, longest: 0 });
    expect(meet("seize first")).toMatchObject({ had: 10, waited: 0, longest: 0 });
    // The order did differ: the second way, the request stood in the line for no time and was granted by an event of its own.
    expect(meet("seize first").events).toBe(meet("release first").events + 1);
  });

  test("so a newcomer who looks before it asks finds it free", () => {
    const sim = new Simulation();
    const place = new Resource(sim, "place", 1);
    let free: boolean | null = null;
    sim.spawn((function* (): Work { free = place.inUse === 0; })(), { at: 10 });
    sim.spawn((function* (): Work {
      yield place.seize();
      yield hold(10);
      place.release();
    })());
    sim.run();
    expect(free).toBe(true);
  });

  test("and the released unit belongs to the one who waited, not to one who asks between release and resumption", () => {
    const sim = new Simulation();
    const place = new Resource(sim, "place", 1);
    const had: string[] = [];
    sim.spawn((function* (): Work {
      yield place.seize();
      yield hold(10);
      place.release();
      yield place.seize();
      had.push("the one who gave it back");
    })());
    sim.spawn((function* (): Work {
      yield hold(5);
      yield place.seize();
      had.push("the one who waited");
      place.release();
    })());
    sim.run();
    expect(had).toEqual(["the one who waited", "the one who gave it back"]);
  });
});

test("a hold that ends at the instant of an interrupt does not end before it", () => {
  const sim = new Simulation();
  let outcome = "";
  sim.spawn(after(10, () => sim.interrupt(sleeper, "stop")));
  const sleeper = sim.spawn((function* (): Work {
    try {
      yield hold(10);
      outcome = "slept";
    } catch (strike) {
      outcome = `struck: ${(strike as Interrupt).cause}`;
    }
  })());
  sim.run();
  expect(outcome).toBe("struck: stop");
});

test("the list of events gives back what was put in, in order, with anything taken out or moved in between", () => {
  const moves = fc.array(fc.record({ what: fc.constantFrom("add", "add", "add", "take", "remove"), at: fc.nat(5), rank: fc.nat(5), pick: fc.nat() }), { maxLength: 120 });
  fc.assert(fc.property(moves, (list) => {
    const agenda = new Agenda();
    const inside: Process[] = [];
    const least = () => inside.reduce((a, b) => (b.at < a.at || (b.at === a.at && b.order < a.order) ? b : a));
    let sequence = 0;
    const leave = (process: Process) => {
      expect(process.place).toBe(-1);
      inside.splice(inside.indexOf(process), 1);
    };
    for (const { what, at, rank, pick } of list) {
      if (what === "add") {
        const process = new Process((function* (): Work {})(), "", RANK.hold);
        process.at = at;
        process.order = rank * RANK_STEP + sequence++;
        expect([process.rank, process.sequence]).toEqual([rank, sequence - 1]);
        agenda.add(process);
        inside.push(process);
      } else if (inside.length === 0) {
        expect(agenda.take()).toBe(undefined);
      } else if (what === "take") {
        const expected = least();
        expect(agenda.take()).toBe(expected);
        leave(expected);
      } else {
        const process = inside[pick % inside.length]!;
        agenda.remove(process);
        leave(process);
      }
      expect(agenda.first).toBe(inside.length === 0 ? undefined : least());
    }
    while (inside.length > 0) {
      const expected = least();
      expect(agenda.take()).toBe(expected);
      leave(expected);
    }
  }), runs(1000));
});
