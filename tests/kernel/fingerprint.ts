import { factorOf, hold, Level, Resource, Signal, Simulation, Store, Streams } from "../../sim/kernel/index.ts";
import type { Shape, Work } from "../../sim/kernel/index.ts";

const SHAPES: readonly Shape[] = [
  { kind: "exponential" }, { kind: "lognormal", cv: 0.5 }, { kind: "gamma", cv: 0.6 }, { kind: "weibull", cv: 0.4 }, { kind: "normal", cv: 0.2 },
  { kind: "erlang", stages: 3 }, { kind: "triangular", low: 1, mode: 2, high: 4 }, { kind: "uniform", cv: 0.3 },
];

/** Every step of a small busy yard with every part of the kernel in it, to the last bit, as text. */
export function fingerprint(seed: number): string {
  const steps: string[] = [];
  const sim = new Simulation({ log: (process) => steps.push(`${process.at} ${process.order} ${process.name}`) });
  const streams = new Streams(seed, 0);
  const crane = new Resource(sim, "crane", 2);
  const heap = new Level(sim, "heap", 30);
  const store = new Store<number>(sim, "store");
  const called = new Signal(sim);
  const time = (name: string, i: number) => factorOf(SHAPES[i % SHAPES.length]!)(streams.stream(`${name} ${i}`)());

  function* worker(i: number): Work {
    for (let k = 0; k < 20; k += 1) {
      try {
        yield hold(5 * time("walk", i));
        yield crane.seize(1, i % 3);
        try {
          yield hold(time("lift", i));
        } finally {
          crane.release();
        }
        yield heap.put(4 * time("load", i));
        store.put(k);
        called.fire();
        yield called.within(time("rest", i));
      } catch {
        called.fire();
      }
    }
  }

  function* clearer(): Work {
    for (;;) {
      yield store.take();
      yield heap.take(0.5);
      yield hold(0.3);
    }
  }

  const workers = SHAPES.map((_, i) => sim.spawn(worker(i), { name: `worker ${i}` }));
  sim.spawn(clearer(), { name: "clearer" });
  sim.spawn((function* (): Work {
    for (;;) {
      yield 7 * time("trouble", 0);
      sim.interrupt(workers[Math.floor(streams.stream("whom")() * workers.length)]!, "trouble");
    }
  })(), { name: "trouble" });
  sim.run(300);
  return `${steps.join("\n")}\n${crane.stats.waits.mean} ${heap.stats.level.mean} ${store.stats.size.mean}`;
}
