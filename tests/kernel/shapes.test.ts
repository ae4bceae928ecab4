import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cvOf, factorOf } from "../../sim/kernel/index.ts";
import type { Shape } from "../../sim/kernel/index.ts";
import { LARGEST_CV, LEAST_FACTOR } from "../../sim/kernel/shapes.ts";
import { logGamma } from "../../sim/kernel/weibull.ts";
import { runs } from "./runs.ts";

/** Shapes that no cut touches, with their names for the test titles. */
const SHAPES: readonly Shape[] = [
  { kind: "fixed" },
  { kind: "exponential" },
  ...[0.037, 0.1, 0.5, 1, 1.5].flatMap((cv): Shape[] => [{ kind: "lognormal", cv }, { kind: "gamma", cv }, { kind: "weibull", cv }]),
  ...[0.05, 0.11].map((cv): Shape => ({ kind: "normal", cv })),
  ...[0.1, 0.55].map((cv): Shape => ({ kind: "uniform", cv })),
  ...[1, 2, 3, 10, 40].map((stages): Shape => ({ kind: "erlang", stages })),
  { kind: "triangular", low: 0.5, mode: 1, high: 2 },
  { kind: "triangular", low: 2, mode: 2, high: 8 },
  { kind: "triangular", low: 1, mode: 3, high: 3 },
];
const title = (shape: Shape) => JSON.stringify(shape).replace(/["{}]/g, "").replace("kind:", "");
const TITLED = SHAPES.map((shape) => [title(shape), shape] as const);

/**
 * Integral over u from 0 to 1 by the double exponential rule, which bears quantiles that run to infinity at 1. The part beyond the last double
 * before 1 is lost; for these shapes it is below the tolerance.
 */
function overU(integrand: (u: number) => number): number {
  const step = 1 / 1024;
  let sum = 0;
  for (let t = -3.6; t <= 3.6; t += step) {
    const s = (Math.PI / 2) * Math.sinh(t);
    const u = 1 / (1 + Math.exp(-2 * s));
    if (u > 0 && u < 1) sum += (integrand(u) * (Math.PI / 4) * Math.cosh(t)) / Math.cosh(s) ** 2;
  }
  return sum * step;
}

describe("a shape's factor", () => {
  test.each(TITLED)("has a mean of 1: %s", (_, shape) => {
    expect(Math.abs(overU(factorOf(shape)) - 1)).toBeLessThan(1e-7);
  });

  test.each(TITLED)("has the coefficient of variation it says: %s", (_, shape) => {
    const factor = factorOf(shape);
    const cv = Math.sqrt(overU((u) => (factor(u) - 1) ** 2));
    expect(Math.abs(cv - cvOf(shape))).toBeLessThan(1e-6 * Math.max(1, cvOf(shape)));
  });

  test.each(TITLED)("is positive and rises with the uniform number, to both ends of what a stream can give: %s", (_, shape) => {
    const factor = factorOf(shape);
    const us = [2 ** -33, ...Array.from({ length: 999 }, (_, i) => (i + 1) / 1000), 1 - 2 ** -33];
    const factors = us.map(factor);
    const rises = (value: number, i: number) => i === 0 || shape.kind === "fixed" || value > factors[i - 1]!;
    expect(us.filter((_u, i) => !(factors[i]! > 0 && factors[i]! < Infinity && rises(factors[i]!, i)))).toEqual([]);
  });

  test("rises between any two uniform numbers, however close", () => {
    const u = fc.double({ min: 2 ** -33, max: 1 - 2 ** -33, noNaN: true });
    const shape = fc.constantFrom(...SHAPES.filter(({ kind }) => kind !== "fixed"));
    fc.assert(fc.property(shape, u, u, (chosen, a, b) => {
      const factor = factorOf(chosen);
      const [low, high] = a < b ? [a, b] : [b, a];
      // Two draws of a stream differ by 2^-32 or not at all; closer numbers may round to the same factor.
      if (high - low >= 2 ** -32) expect(factor(low)).toBeLessThan(factor(high));
    }), runs(1000));
  });
});

describe("shapes that are one distribution under two names agree", () => {
  const us = [2 ** -33, 1e-6, 0.01, 0.2, 0.5, 0.8, 0.99, 1 - 1e-6, 1 - 2 ** -33];
  test.each<[string, Shape, Shape]>([
    ["gamma and erlang", { kind: "gamma", cv: 0.5 }, { kind: "erlang", stages: 4 }],
    ["exponential and erlang of one stage", { kind: "exponential" }, { kind: "erlang", stages: 1 }],
    ["exponential and gamma", { kind: "exponential" }, { kind: "gamma", cv: 1 }],
    ["exponential and weibull", { kind: "exponential" }, { kind: "weibull", cv: 1 }],
    ["fixed and no variation", { kind: "fixed" }, { kind: "lognormal", cv: 0 }],
  ])("%s", (_, a, b) => {
    for (const u of us) expect(Math.abs(factorOf(a)(u) / factorOf(b)(u) - 1)).toBeLessThan(1e-9);
  });

  test("an erlang's quantile put back into its distribution function gives the uniform number", () => {
    for (const stages of [2, 3, 10]) {
      const factor = factorOf({ kind: "erlang", stages });
      for (const u of us) {
        const x = stages * factor(u);
        let term = Math.exp(-x);
        let beyond = 0;
        for (let k = 0; k < stages; k += 1) {
          beyond += term;
          term *= x / (k + 1);
        }
        // Near 0 the sum of all terms is near 1 and 1 - beyond has lost digits: compare the smaller tail, absolutely.
        expect(Math.abs(1 - beyond - u)).toBeLessThan(1e-9);
        if (u > 0.5) expect(Math.abs(beyond / (1 - u) - 1)).toBeLessThan(1e-9 + 1e-16 / (1 - u));
      }
    }
  });
});

test("a gamma factor of half a stage is the square of a normal one", () => {
  // If z is standard normal, z^2 / 2 is gamma with shape 1/2; its mean is 1/2, and its cv the square root of 2.
  const gamma = factorOf({ kind: "gamma", cv: Math.SQRT2 });
  const normal = factorOf({ kind: "normal", cv: 0.1 });
  for (const u of [1e-4, 0.01, 0.2, 0.5, 0.8, 0.99, 0.9999]) {
    const z = (normal((1 + u) / 2) - 1) / 0.1;
    expect(Math.abs(gamma(u) / z ** 2 - 1)).toBeLessThan(1e-9);
  }
});

test("even the widest shapes give a positive, finite factor at both ends of what a stream can give", () => {
  for (const kind of ["lognormal", "gamma", "weibull", "normal", "uniform"] as const) {
    for (const u of [2 ** -33, 1 - 2 ** -33]) {
      const factor = factorOf({ kind, cv: LARGEST_CV })(u);
      expect(factor).toBeGreaterThan(0);
      expect(factor).toBeLessThan(Infinity);
    }
  }
});

describe("the cut", () => {
  test("keeps wide normal, uniform and triangular factors above nothing", () => {
    for (const shape of [{ kind: "normal", cv: 0.6 }, { kind: "uniform", cv: 0.7 }, { kind: "triangular", low: -1, mode: 1, high: 3 }] as const) {
      expect(factorOf(shape)(1e-6)).toBe(LEAST_FACTOR);
      expect(factorOf(shape)(0.9)).toBeGreaterThan(1);
    }
  });
});

test("the logarithm of the gamma function is right where it is known", () => {
  let factorial = 1;
  for (let n = 1; n <= 20; n += 1) {
    expect(logGamma(n)).toBeCloseTo(Math.log(factorial), 12);
    factorial *= n;
  }
  expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 13);
  // Duplication: G(x) G(x + 1/2) = 2^(1 - 2x) sqrt(pi) G(2x).
  for (const x of [0.1, 0.7, 3.3, 9.9]) {
    expect(logGamma(x) + logGamma(x + 0.5)).toBeCloseTo((1 - 2 * x) * Math.LN2 + Math.log(Math.PI) / 2 + logGamma(2 * x), 11);
  }
});

test("what is no shape is refused, in words", () => {
  for (const cv of [-0.1, NaN, Infinity, 3.01]) {
    expect(() => factorOf({ kind: "gamma", cv })).toThrow("gamma: the coefficient of variation lies between 0 and 3");
  }
  for (const stages of [0, 1.5, NaN]) expect(() => factorOf({ kind: "erlang", stages })).toThrow("erlang: the stages are a whole number");
  for (const [low, mode, high] of [[2, 1, 3], [1, 4, 3], [-3, 0, 1], [1, NaN, 3]] as const) {
    expect(() => factorOf({ kind: "triangular", low, mode, high })).toThrow("triangular: low <= mode <= high");
  }
});
