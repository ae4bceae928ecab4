/** The textbook systems, built from the kernel's parts, each measured by batch means. Times in the caller's unit. */
import { factorOf, Resource, Simulation, Streams } from "../../sim/kernel/index.ts";
import type { Shape, Work } from "../../sim/kernel/index.ts";
import { batchMeans } from "./limits.ts";
import type { ClosedNetwork } from "./theory.ts";

const EXPONENTIAL: Shape = { kind: "exponential" };

interface Plan { readonly seed: number; readonly length: number; readonly batches: number }

/** Draws with a mean and a shape from a stream of its own. */
function draws(streams: Streams, name: string, mean: number, shape: Shape = EXPONENTIAL): () => number {
  const uniform = streams.stream(name);
  const factor = factorOf(shape);
  return () => mean * factor(uniform());
}

/** Customers from outside, exponential gaps, `servers` servers, service of any shape. */
export function openQueue({ arrival, serviceMean, shape, servers, ...plan }: Plan & {
  arrival: number; serviceMean: number; shape?: Shape; servers: number;
}) {
  const sim = new Simulation();
  const streams = new Streams(plan.seed, 0);
  const gap = draws(streams, "arrivals", 1 / arrival);
  const service = draws(streams, "service", serviceMean, shape);
  const server = new Resource(sim, "server", servers);
  const left = { count: 0, time: 0 };
  let waited = 0;

  function* customer(): Work {
    const came = sim.now;
    yield server.seize();
    if (sim.now > came) waited += 1;
    yield service();
    server.release();
    left.count += 1;
    left.time += sim.now - came;
  }

  function* arrivals(): Work {
    for (;;) {
      yield gap();
      sim.spawn(customer());
    }
  }

  sim.spawn(arrivals());
  const { stats } = server;
  return batchMeans(
    sim,
    plan,
    () => ({ queue: stats.queue.area, inUse: stats.inUse.area, wait: stats.waits.sum, grants: stats.grants, waited, left: left.count, time: left.time }),
    (added) => ({
      meanQueue: added.queue! / plan.length,
      meanQueueTime: added.wait! / added.grants!,
      chanceOfWait: added.waited! / added.grants!,
      meanInSystem: (added.queue! + added.inUse!) / plan.length,
      meanInSystemTime: added.time! / added.left!,
      throughput: added.left! / plan.length,
      utilisation: added.inUse! / plan.length / servers,
    }),
  );
}

/** A fixed number of sources that call, wait, are served, and are quiet again. */
export function callingSources({ sources, between, serviceMean, servers, ...plan }: Plan & {
  sources: number; between: number; serviceMean: number; servers: number;
}) {
  const sim = new Simulation();
  const streams = new Streams(plan.seed, 0);
  const quiet = draws(streams, "quiet", between);
  const service = draws(streams, "service", serviceMean);
  const server = new Resource(sim, "server", servers);
  let waited = 0;

  function* source(): Work {
    for (;;) {
      yield quiet();
      const called = sim.now;
      yield server.seize();
      if (sim.now > called) waited += 1;
      yield service();
      server.release();
    }
  }

  for (let i = 0; i < sources; i += 1) sim.spawn(source());
  const { stats } = server;
  return batchMeans(
    sim,
    plan,
    () => ({ queue: stats.queue.area, inUse: stats.inUse.area, grants: stats.grants, waited }),
    (added) => ({
      chanceOfWait: added.waited! / added.grants!,
      efficiency: 1 - added.queue! / plan.length / sources,
      throughput: added.grants! / plan.length,
      utilisation: added.inUse! / plan.length / servers,
    }),
  );
}

/**
 * Customers think, then visit the first station; from there they go to the others or end their cycle, so that the mean visits come out right.
 * The throughput is that of cycles with `visits[0]` visits to the first station.
 */
export function centralServer({ serviceTimes, visits, thinkTime, customers, ...plan }: Plan & ClosedNetwork) {
  const sim = new Simulation();
  const streams = new Streams(plan.seed, 0);
  const think = draws(streams, "think", thinkTime);
  const route = streams.stream("route");
  const service = serviceTimes.map((time, i) => draws(streams, `service ${i}`, time));
  const stations = serviceTimes.map((_, i) => new Resource(sim, `station ${i}`, 1));

  function* visit(i: number): Work {
    yield stations[i]!.seize();
    yield service[i]!();
    stations[i]!.release();
  }

  /** The other station to visit next, or 0 when the cycle ends: each leaving of the first station leads to station i in visits[i] / visits[0] of cases. */
  function next(): number {
    let left = route() * visits[0]!;
    for (let i = 1; i < visits.length; i += 1) {
      left -= visits[i]!;
      if (left < 0) return i;
    }
    return 0;
  }

  function* customer(): Work {
    for (;;) {
      if (thinkTime > 0) yield think();
      for (let to = -1; to !== 0; ) {
        yield* visit(0);
        to = next();
        if (to > 0) yield* visit(to);
      }
    }
  }

  for (let i = 0; i < customers; i += 1) sim.spawn(customer());
  return batchMeans(
    sim,
    plan,
    () => Object.fromEntries(stations.flatMap(({ stats }, i) => [
      [`number ${i}`, stats.queue.area + stats.inUse.area], [`busy ${i}`, stats.inUse.area], [`grants ${i}`, stats.grants],
    ])),
    (added): Record<string, number> => ({
      throughput: added["grants 0"]! / visits[0]! / plan.length,
      ...Object.fromEntries(stations.flatMap((_, i) => [
        [`response ${i}`, added[`number ${i}`]! / added[`grants ${i}`]!],
        [`number ${i}`, added[`number ${i}`]! / plan.length],
        [`utilisation ${i}`, added[`busy ${i}`]! / plan.length],
      ])),
    }),
  );
}

/** Trucks in a closed loop: loaded by one loader, over the road, tipped at one place, back. */
export function truckLoop({ trucks, load, road, tip, shape, ...plan }: Plan & { trucks: number; load: number; road: number; tip: number; shape: Shape }) {
  const sim = new Simulation();
  const streams = new Streams(plan.seed, 0);
  const loading = draws(streams, "load", load, shape);
  const tipping = draws(streams, "tip", tip, shape);
  const loader = new Resource(sim, "loader", 1);
  const place = new Resource(sim, "tipping place", 1);
  let loads = 0;

  function* truck(): Work {
    for (;;) {
      yield loader.seize();
      yield loading();
      loader.release();
      yield road / 2;
      if (tip > 0) {
        yield place.seize();
        yield tipping();
        place.release();
      }
      loads += 1;
      yield road / 2;
    }
  }

  for (let i = 0; i < trucks; i += 1) sim.spawn(truck());
  return batchMeans(
    sim,
    plan,
    () => ({ loads, loading: loader.stats.inUse.area }),
    (added) => ({ throughput: added.loads! / plan.length, utilisation: added.loading! / plan.length }),
  );
}
