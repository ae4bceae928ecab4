/** The engine against exact theory and against figures printed in books. */
import { describe, expect, test } from "vitest";
import { limits, mean, studentQuantile } from "./limits.ts";
import { callingSources, centralServer, openQueue, truckLoop } from "./queues.ts";
import {
  chanceOfWait, chanceOfWaitBySum, deterministicThroughput, finiteSource, meanValueAnalysis, mmc, pollaczekKhinchine, throughputByConvolution,
} from "./theory.ts";

const SEEDS = [1, 2, 3, 4, 5];
const BATCHES = 30;

/** M/M/c, with what the source prints; `digits` after the point. */
const MMC = [
  // Lecture values, ETH Zurich, as quoted in the tests of a general queueing library (three digits printed).
  { name: "ETH lecture, two servers", arrival: 9, service: 5, servers: 2, digits: 3, printed: { meanQueue: 7.674, meanInSystemTime: 1.053, chanceOfWait: 0.853 } },
  // Anderson, Sweeney & Williams, An Introduction to Management Science, one-channel example.
  { name: "one-channel example", arrival: 0.75, service: 1, servers: 1, digits: 2, printed: { meanQueue: 2.25, meanQueueTime: 3, chanceOfWait: 0.75 } },
  // Heizer & Render, Operations Management, problem D.12: trucks unloading at harvest, per hour.
  { name: "trucks unloading at harvest", arrival: 30, service: 35, servers: 1, digits: 1, printed: { meanInSystem: 6, meanInSystemTime: 0.2 } },
] as const;

/** Pollaczek-Khinchine, worked out; formula in Cooper, Introduction to Queueing Theory, 1981, p. 189. Load 0.8, mean service 1. */
const MG1 = [
  { cv: 0, shape: { kind: "fixed" }, meanQueueTime: 2 },
  { cv: 0.5, shape: { kind: "lognormal", cv: 0.5 }, meanQueueTime: 2.5 },
  { cv: 1, shape: { kind: "exponential" }, meanQueueTime: 4 },
] as const;

/**
 * Peck & Hazelwood, Finite Queuing Tables, 1958, five sources, as printed in Heizer & Render. x = T/(T+U) with mean service T and mean time
 * between calls U; d: chance that a call waits; f: efficiency.
 */
const FINITE_SOURCE = [
  { x: 0.012, servers: 1, d: 0.048, f: 0.999 },
  { x: 0.05, servers: 1, d: 0.198, f: 0.989 },
  { x: 0.07, servers: 2, d: 0.027, f: 0.999 },
  { x: 0.08, servers: 1, d: 0.313, f: 0.969 },
  { x: 0.09, servers: 2, d: 0.044, f: 0.998 },
  { x: 0.1, servers: 1, d: 0.386, f: 0.95 },
] as const;

const CLOSED = [
  {
    name: "Jain 1991, The Art of Computer Systems Performance Analysis, p. 577",
    network: { serviceTimes: [0.125, 0.3, 0.2], visits: [16, 10, 5], thinkTime: 4, customers: 20 },
    printed: { responseTimes: [0.373, 4.854, 0.3], queueLengths: [1.991, 16.177, 0.5] },
    throughput: 0.333247,
    length: 1500,
  },
  {
    name: "Bolch et al., Queueing Networks and Markov Chains, example 8.3, p. 331, central server",
    network: { serviceTimes: [0.02, 0.2, 0.4, 0.6], visits: [1, 0.4, 0.2, 0.1], thinkTime: 0, customers: 6 },
    printed: { utilisation: [0.198, 0.794, 0.794, 0.595], queueLengths: [0.244, 2.261, 2.261, 1.234] },
    throughput: 9.919836,
    length: 1500,
  },
] as const;

/** One chopper, one tipping place: load 6 min, road 24 min in all, tip 4 min. Loads per hour by trucks; worked out by mean value analysis. */
const TRUCK_LOOP = { load: 6, road: 24, tip: 4, exponential: [[1, 1.7647], [3, 4.814], [6, 7.9095], [10, 9.5533]], deterministic: [[1, 1.7647], [3, 5.2941], [6, 10]] } as const;

/** Earthmoving course example: truck cycle 39.5 min, loader 5.5 min a load, 8.25 m3 a load (from the printed figures); m3 per hour by trucks. */
const FLEET = { cycle: 39.5, loader: 5.5, volume: 8.25, limit: 90, printed: [[6, 75.19], [7, 87.72], [8, 90]] } as const;

/** A printed figure is met when the exact one rounds to it. A hair is added for the exact half, which floating point may put on either side. */
function expectPrinted(exact: number, printed: number, digits: number): void {
  expect(Math.abs(exact - printed)).toBeLessThanOrEqual(0.5 * 10 ** -digits * (1 + 1e-9));
}

function expectClose(a: number, b: number): void {
  expect(Math.abs(a - b) / Math.abs(b)).toBeLessThan(1e-9);
}

describe("the closed forms", () => {
  test.each(MMC)("give the printed figures of $name", ({ arrival, service, servers, digits, printed }) => {
    const exact = mmc(arrival, service, servers);
    for (const [name, figure] of Object.entries(printed)) expectPrinted(exact[name as keyof typeof exact], figure, digits);
  });

  test("give the five digits worked out for two servers", () => {
    const exact = mmc(9, 5, 2);
    expectPrinted(exact.meanQueue, 7.67368, 5);
    expectPrinted(exact.meanInSystemTime, 1.05263, 5);
    expectPrinted(exact.chanceOfWait, 0.85263, 5);
  });

  test.each(MG1)("give the waiting time behind $shape.kind service", ({ cv, meanQueueTime }) => {
    expectClose(pollaczekKhinchine(0.8, 1, cv), meanQueueTime);
  });

  test.each(FINITE_SOURCE)("give the finite queueing tables at X = $x with $servers servers", ({ x, servers, d, f }) => {
    const exact = finiteSource(5, (1 - x) / x, 1, servers);
    expectPrinted(exact.chanceOfWait, d, 3);
    expectPrinted(exact.efficiency, f, 3);
  });

  test.each(CLOSED)("give the closed network of $name", ({ network, printed, throughput }) => {
    const exact = meanValueAnalysis(network);
    expectPrinted(exact.throughput, throughput, 6);
    for (const [name, figures] of Object.entries(printed) as [keyof typeof printed, readonly number[]][]) {
      figures.forEach((figure, i) => expectPrinted((exact[name] as number[])[i]!, figure, 3));
    }
  });

  test("give the truck loop's loads per hour", () => {
    for (const [trucks, loads] of TRUCK_LOOP.exponential) {
      const network = { serviceTimes: [6, 4], visits: [1, 1], thinkTime: 24, customers: trucks };
      expectPrinted(60 * meanValueAnalysis(network).throughput, loads, 4);
    }
    for (const [trucks, loads] of TRUCK_LOOP.deterministic) expectPrinted(60 * deterministicThroughput(trucks, 34, 6), loads, 4);
  });

  test("give the earthmoving fleet's volume per hour", () => {
    for (const [trucks, volume] of FLEET.printed) {
      expectPrinted(60 * FLEET.volume * deterministicThroughput(trucks, FLEET.cycle, FLEET.loader), volume, 2);
    }
  });

  test("agree with each other where two of them describe one system", () => {
    for (const [offered, servers] of [[0.3, 1], [1.8, 2], [7.5, 8], [28, 30]] as const) {
      expectClose(chanceOfWait(offered, servers), chanceOfWaitBySum(offered, servers));
    }
    for (const load of [0.1, 0.5, 0.8, 0.95]) expectClose(pollaczekKhinchine(load, 1, 1), mmc(load, 1, 1).meanQueueTime);
    for (const { network } of CLOSED) expectClose(meanValueAnalysis(network).throughput, throughputByConvolution(network));
    for (const { x } of FINITE_SOURCE) {
      const between = (1 - x) / x;
      const network = { serviceTimes: [1], visits: [1], thinkTime: between, customers: 5 };
      expectClose(finiteSource(5, between, 1, 1).throughput, meanValueAnalysis(network).throughput);
    }
  });

  test("come with a Student quantile that agrees with the printed tables", () => {
    // Two-sided 5 % and 1 % points as in any table of Student's distribution.
    expectPrinted(studentQuantile(0.975, 29), 2.045, 3);
    expectPrinted(studentQuantile(0.995, 10), 3.169, 3);
  });
});

/** Every simulated figure of this file, for every seed, is one member of the family: 99 % for all of them together (Bonferroni). */
const FIGURES =
  MMC.reduce((sum, { printed }) => sum + Object.keys(printed).length, 0) +
  MG1.length +
  2 * FINITE_SOURCE.length +
  CLOSED.reduce((sum, { printed }) => sum + 1 + Object.values(printed).flat().length, 0) +
  TRUCK_LOOP.exponential.length;
const ALPHA = 0.01 / (FIGURES * SEEDS.length);

/** All seeds are looked at before any is judged, so that a failure shows the whole row. */
function expectInLimits(name: string, runs: readonly (readonly number[])[], exact: number, sharp = 0.1): void {
  const rows = runs.map((values, i) => {
    const { mean: centre, half } = limits(values, ALPHA);
    return { figure: name, seed: SEEDS[i], exact, simulated: centre, half, inside: Math.abs(centre - exact) <= half, sharp: half < sharp * exact };
  });
  expect(rows.filter(({ inside }) => !inside), "outside the limits").toEqual([]);
  expect(rows.filter((row) => !row.sharp), "limits too wide to tell anything").toEqual([]);
}

/** Over all seeds together, one long run: within half a percent. */
function expectHalfPercent(runs: readonly (readonly number[])[], exact: number): void {
  expect(Math.abs(mean(runs.flat()) / exact - 1)).toBeLessThan(0.005);
}

describe("the engine, simulating with five seeds", () => {
  test.each(MMC)("meets the exact figures of $name", ({ arrival, service, servers, printed }) => {
    const runs = SEEDS.map((seed) => openQueue({ seed, arrival, serviceMean: 1 / service, servers, length: 20_000 / arrival, batches: BATCHES }));
    const exact = mmc(arrival, service, servers);
    for (const name of Object.keys(printed) as (keyof typeof exact)[]) expectInLimits(name, runs.map((run) => run[name]), exact[name], 0.25);
    expectHalfPercent(runs.map((run) => run.throughput), arrival);
    expectHalfPercent(runs.map((run) => run.utilisation), exact.utilisation);
  });

  test.each(MG1)("meets the waiting time behind $shape.kind service", ({ cv, shape }) => {
    const runs = SEEDS.map((seed) => openQueue({ seed, arrival: 0.8, serviceMean: 1, shape, servers: 1, length: 25_000, batches: BATCHES }));
    expectInLimits("meanQueueTime", runs.map((run) => run.meanQueueTime), pollaczekKhinchine(0.8, 1, cv));
    expectHalfPercent(runs.map((run) => run.throughput), 0.8);
    expectHalfPercent(runs.map((run) => run.utilisation), 0.8);
  });

  test.each(FINITE_SOURCE)("meets the finite source at X = $x with $servers servers", ({ x, servers }) => {
    const between = (1 - x) / x;
    const exact = finiteSource(5, between, 1, servers);
    const runs = SEEDS.map((seed) => callingSources({
      seed, sources: 5, between, serviceMean: 1, servers, length: 10_000 / exact.throughput, batches: BATCHES,
    }));
    expectInLimits("chanceOfWait", runs.map((run) => run.chanceOfWait), exact.chanceOfWait);
    expectInLimits("efficiency", runs.map((run) => run.efficiency), exact.efficiency);
    expectHalfPercent(runs.map((run) => run.throughput), exact.throughput);
    expectHalfPercent(runs.map((run) => run.utilisation), exact.utilisation);
  });

  test.each(CLOSED)("meets the closed network of $name", ({ network, printed, length }) => {
    const exact = meanValueAnalysis(network);
    const runs = SEEDS.map((seed) => centralServer({ seed, ...network, length, batches: BATCHES }));
    const stem = { responseTimes: "response", queueLengths: "number", utilisation: "utilisation" };
    for (const name of Object.keys(printed) as (keyof typeof stem)[]) {
      exact[name].forEach((figure, i) => expectInLimits(`${name} ${i}`, runs.map((run) => run[`${stem[name]} ${i}`]!), figure));
    }
    expectInLimits("throughput", runs.map((run) => run.throughput!), exact.throughput);
    expectHalfPercent(runs.map((run) => run.throughput!), exact.throughput);
    exact.utilisation.forEach((figure, i) => expectHalfPercent(runs.map((run) => run[`utilisation ${i}`]!), figure));
  });

  test.each(TRUCK_LOOP.exponential)("meets the loop of %i trucks with exponential times", (trucks) => {
    const { load, road, tip } = TRUCK_LOOP;
    const { throughput, utilisation } = meanValueAnalysis({ serviceTimes: [load, tip], visits: [1, 1], thinkTime: road, customers: trucks });
    const runs = SEEDS.map((seed) => truckLoop({ seed, trucks, load, road, tip, shape: { kind: "exponential" }, length: 5000 / throughput, batches: BATCHES }));
    expectInLimits("throughput", runs.map((run) => run.throughput), throughput);
    expectHalfPercent(runs.map((run) => run.throughput), throughput);
    expectHalfPercent(runs.map((run) => run.utilisation), utilisation[0]!);
  });
});

describe("the engine without variation", () => {
  test.each(TRUCK_LOOP.deterministic)("delivers what the arithmetic says with %i trucks in the loop", (trucks, loads) => {
    const { load, road, tip } = TRUCK_LOOP;
    // A batch of whole cycles of every fleet: 34 min x 6 loads of the loader x 50.
    const run = truckLoop({ seed: 1, trucks, load, road, tip, shape: { kind: "fixed" }, length: 34 * 6 * 50, batches: 3 });
    for (const perMinute of run.throughput) {
      expectClose(perMinute, deterministicThroughput(trucks, 34, 6));
      expectPrinted(60 * perMinute, loads, 4);
    }
  });

  test.each(FLEET.printed)("moves the printed volume with %i trucks on the earthmoving job", (trucks, volume) => {
    const run = truckLoop({
      seed: 1, trucks, load: FLEET.loader, road: FLEET.cycle - FLEET.loader, tip: 0, shape: { kind: "fixed" }, length: 39.5 * 5.5 * 40, batches: 3,
    });
    for (const perMinute of run.throughput) expectPrinted(60 * FLEET.volume * perMinute, volume, 2);
  });
});
