/** The two sample paths on the kernel, statistics on. */
import { Resource, Simulation } from "../../sim/kernel/index.ts";
import type { Work } from "../../sim/kernel/index.ts";
import { exponentials, LOOP, MM1 } from "./paths.ts";

export interface Mm1Draws { readonly interarrival: Float64Array; readonly service: Float64Array }
export type LoopDraws = Record<"load" | "haul" | "unload" | "pack" | "return", Float64Array>;
export interface Outcome { readonly endsAt: number; readonly events: number }

export function mm1Draws(customers: number = MM1.customers): Mm1Draws {
  const { interarrival, service } = MM1;
  return {
    interarrival: exponentials(interarrival.seed, interarrival.mean, customers),
    service: exponentials(service.seed, service.mean, customers),
  };
}

/** A few more draws than cycles: other trucks are under way when the last cycle ends. */
export function loopDraws(): LoopDraws {
  const draws = (name: keyof LoopDraws) => exponentials(LOOP[name].seed, LOOP[name].mean, LOOP.cycles + LOOP.trucks);
  return { load: draws("load"), haul: draws("haul"), unload: draws("unload"), pack: draws("pack"), return: draws("return") };
}

export function mm1OnKernel({ interarrival, service }: Mm1Draws): Outcome & { meanWait: number } {
  const sim = new Simulation();
  const server = new Resource(sim, "server", 1);
  let served = 0;

  function* customer(): Work {
    yield server.seize();
    yield service[served++]!;
    server.release();
  }

  function* arrivals(): Work {
    for (const gap of interarrival) {
      yield gap;
      sim.spawn(customer());
    }
  }

  sim.spawn(arrivals());
  sim.run();
  return { endsAt: sim.now, events: sim.events, meanWait: server.stats.waits.mean };
}

export function loopOnKernel(draws: LoopDraws, trucks: number, cycles: number): Outcome & { waited: Record<"load" | "unload" | "pack", number> } {
  const sim = new Simulation();
  const loader = new Resource(sim, "loader", 1);
  const place = new Resource(sim, "tipping place", 1);
  const packer = new Resource(sim, "packer", 1);
  const count = { load: 0, haul: 0, unload: 0, pack: 0, return: 0, done: 0 };

  function* truck(): Work {
    for (;;) {
      yield loader.seize();
      yield draws.load[count.load++]!;
      loader.release();
      yield draws.haul[count.haul++]!;
      yield place.seize();
      yield draws.unload[count.unload++]!;
      place.release();
      yield packer.seize();
      yield draws.pack[count.pack++]!;
      packer.release();
      yield draws.return[count.return++]!;
      count.done += 1;
      if (count.done === cycles) sim.halt();
    }
  }

  for (let i = 0; i < trucks; i += 1) sim.spawn(truck());
  sim.run();
  return {
    endsAt: sim.now,
    events: sim.events,
    waited: { load: loader.stats.waits.sum, unload: place.stats.waits.sum, pack: packer.stats.waits.sum },
  };
}
