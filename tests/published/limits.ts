/** Confidence limits by batch means: one long run is cut into long pieces whose means are nearly independent. */
import { logGamma } from "../../sim/kernel/weibull.ts";
import type { Simulation } from "../../sim/kernel/index.ts";

type Figures = Record<string, number>;

/**
 * Runs the simulation for one batch of warm-up, then for `batches` more, each `length` long. `totals` reads running totals;
 * `measures` turns what a batch added to them into the figures of that batch.
 */
export function batchMeans<Name extends string>(
  sim: Simulation,
  { length, batches }: { length: number; batches: number },
  totals: () => Figures,
  measures: (added: Figures) => Record<Name, number>,
): Record<Name, number[]> {
  sim.run(length);
  let before = totals();
  const rows = Array.from({ length: batches }, (_, k) => {
    sim.run((k + 2) * length);
    const after = totals();
    const added = Object.fromEntries(Object.entries(after).map(([name, value]) => [name, value - before[name]!]));
    before = after;
    return measures(added);
  });
  const names = Object.keys(rows[0]!) as Name[];
  return Object.fromEntries(names.map((name) => [name, rows.map((row) => row[name])])) as Record<Name, number[]>;
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Mean of the batches and the half width of its limits, for a chance of error `alpha` (both sides together). */
export function limits(values: readonly number[], alpha: number): { mean: number; half: number } {
  const n = values.length;
  const centre = mean(values);
  const variance = values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (n - 1);
  return { mean: centre, half: studentQuantile(1 - alpha / 2, n - 1) * Math.sqrt(variance / n) };
}

/** Quantile of Student's distribution above one half: bisection on its integral by Simpson's rule. */
export function studentQuantile(chance: number, degrees: number): number {
  const scale = Math.exp(logGamma((degrees + 1) / 2) - logGamma(degrees / 2)) / Math.sqrt(degrees * Math.PI);
  const density = (t: number) => scale * (1 + (t * t) / degrees) ** (-(degrees + 1) / 2);
  const upTo = (t: number): number => {
    const steps = 2000;
    let sum = density(0) + density(t);
    for (let i = 1; i < steps; i += 1) sum += density((i * t) / steps) * (i % 2 === 1 ? 4 : 2);
    return 0.5 + (sum * t) / steps / 3;
  };
  let low = 0;
  let high = 100;
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (upTo(middle) < chance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
