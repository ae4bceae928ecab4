import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Streams } from "../../sim/kernel/random.ts";
import { cvOf, factorOf, type Shape } from "../../sim/kernel/shapes.ts";
import { FEWEST_FITTED, fitOne, fitShapes, FITTED, type Fit, type FittedKind } from "../../sim/study/tickets/fit.ts";
import { runs } from "../kernel/runs.ts";

const drawn = (shape: Shape, mean: number, n: number, seed: number): number[] => {
  const factor = factorOf(shape);
  const draw = new Streams(seed, 0).stream("sample");
  return Array.from({ length: n }, () => mean * factor(draw()));
};
const rising = (values: readonly number[]) => [...values].sort((a, b) => a - b);
const shapeOf = (kind: FittedKind, cv: number): Shape => (kind === "exponential" ? { kind } : { kind, cv });

/** Mean and coefficient of variation of a gamma and of a Weibull by scale and shape, and of a lognormal by mean and deviation. */
const gamma = (scale: number, k: number) => ({ kind: "gamma", mean: k * scale, cv: 1 / Math.sqrt(k), parameters: [k, scale] }) as const;
const weibull = (scale: number, k: number) => {
  const moment = (r: number) => Math.exp(lanczos(1 + r / k));
  return { kind: "weibull", mean: scale * moment(1), cv: Math.sqrt(moment(2) / moment(1) ** 2 - 1), parameters: [k, scale] } as const;
};
const lognormal = (mean: number, sd: number) => {
  const sigma = Math.sqrt(Math.log1p((sd / mean) ** 2));
  return { kind: "lognormal", mean, cv: sd / mean, parameters: [Math.log(mean) - sigma ** 2 / 2, sigma] } as const;
};

/**
 * Shapes that were fitted to a mobile chipper's work: Zamora-Cristales, Boston, Sessions and Murphy 2013, Silva Fennica 47(5), article 937, table 2 (published).
 * Each begins at a location, which is left out here: what a scenario says begins at 0. The lognormal is printed by its mean and deviation: 0.18 + 1.28 is
 * the 1.46 min that table 1 prints for the mean of dumping. The set has no exponential; that row is invented for the demo.
 */
const PUBLISHED: readonly { readonly what: string; readonly kind: FittedKind; readonly mean: number; readonly cv: number; readonly parameters: readonly number[] }[] = [
  { what: "chipping sorted residues, min beyond 8, an Erlang of 4 stages", ...gamma(1.63, 4) },
  { what: "chipping unsorted residues, min beyond 11", ...gamma(5.91, 1.53) },
  { what: "travelling to the trailer, m/min beyond 1", ...weibull(44.3, 1.66) },
  { what: "dumping, min beyond 0.18", ...lognormal(1.28, 0.527) },
  { what: "returning to the pile, m/min beyond 6", ...gamma(14.7, 2.16) },
  { what: "between small stops, min", kind: "exponential", mean: 90, cv: 1, parameters: [90] },
];

/**
 * Standard deviation of ln(cv) and of ln(mean) as fitted to n values, from the inverse of the Fisher information (worked out here for lognormal and
 * gamma; Weibull's shape has variance 0.608 k^2 / n, 6 / pi^2), rounded up. The mean of each is no worse than cv / sqrt(n), but for a Weibull and
 * lognormal, where the fitted one may be a little.
 */
function deviations(kind: FittedKind, cv: number, n: number): { readonly cv: number; readonly mean: number } {
  const mean = (1.2 * cv) / Math.sqrt(n);
  switch (kind) {
    case "exponential": return { cv: 0, mean: 1 / Math.sqrt(n) };
    // sigma has variance sigma^2 / (2n), and d ln(cv) / d ln(sigma) = sigma^2 (1 + cv^2) / cv^2.
    case "lognormal": return { cv: ((Math.log1p(cv ** 2) * (1 + cv ** 2)) / cv ** 2) / Math.sqrt(2 * n), mean };
    // ln k has variance 1 / (n (k^2 psi'(k) - k)), about 2 / n, and cv = k^-1/2.
    case "gamma": return { cv: 0.5 * Math.sqrt(2 / n), mean };
    // d ln(cv) / d ln(k) lies between -1 and 0.
    case "weibull": return { cv: Math.sqrt(0.608 / n), mean };
  }
}
/** Four deviations: one in 16,000 for each. */
const SURE = 4;

describe("A shape fitted by maximum likelihood", () => {
  it.each(PUBLISHED)("is recovered from a sample of $what ($kind), as near as the information in it allows", ({ kind, mean, cv, parameters }) => {
    // A gamma of shape 1.5 and the Weibull nearest to it are told apart by many values only.
    const n = 20_000;
    const sample = drawn(shapeOf(kind, cv), mean, n, 7);
    const fit = fitOne(kind, rising(sample));
    const allowed = deviations(kind, cv, n);
    expect(Math.abs(Math.log(fit.cv / cv))).toBeLessThanOrEqual(SURE * allowed.cv + 1e-12);
    expect(Math.abs(Math.log(fit.mean / mean))).toBeLessThan(SURE * allowed.mean);
    // The printed parameters themselves, each within the sum of both deviations or, of a logarithm, within as much of a unit.
    const near = SURE * (2 * allowed.cv + 2 * allowed.mean);
    for (const [i, printed] of parameters.entries()) expect(Math.abs(fit.parameters[i]! - printed)).toBeLessThan(near * Math.max(1, Math.abs(printed)));
    const fitted = fitShapes(sample)!;
    expect([fitted.chosen, fitted.n]).toEqual([kind, n]);
  });

  it("lies where no small step to any side makes the sample more likely", () => {
    fc.assert(fc.property(fc.constantFrom(...FITTED), fc.double({ min: 0.05, max: 1.5, noNaN: true }), fc.integer({ min: 10, max: 200 }), fc.nat(1000), (kind, cv, n, seed) => {
      const sample = rising(drawn(shapeOf(kind, cv), 20, n, seed));
      for (const each of FITTED) {
        const fit = fitOne(each, sample);
        expect(logLikelihood(each, fit.parameters, sample)).toBeCloseTo(fit.logLikelihood, 5);
        for (const [i, parameter] of fit.parameters.entries()) {
          for (const step of [-1e-3, 1e-3]) {
            const other = fit.parameters.map((value, j) => (i === j ? parameter + step * Math.max(Math.abs(parameter), 1e-3) : value));
            expect(logLikelihood(each, other, sample)).toBeLessThanOrEqual(fit.logLikelihood + 1e-7 * Math.abs(fit.logLikelihood));
          }
        }
      }
    }), runs(200));
  });

  it("is, for an exponential, the mean, and for a lognormal the moments of the logarithm", () => {
    const sample = rising(drawn({ kind: "gamma", cv: 0.7 }, 3, 50, 2));
    const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
    const mu = mean(sample.map(Math.log));
    expect(fitOne("exponential", sample).parameters[0]).toBeCloseTo(mean(sample), 12);
    expect(fitOne("lognormal", sample).parameters).toEqual([expect.closeTo(mu, 12), expect.closeTo(Math.sqrt(mean(sample.map((x) => (Math.log(x) - mu) ** 2))), 12)]);
  });

  it("scales with the unit: minutes or seconds, the shape is the same", () => {
    fc.assert(fc.property(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), fc.nat(1000), (times, seed) => {
      const sample = rising(drawn({ kind: "weibull", cv: 0.5 }, 1, 40, seed));
      for (const kind of FITTED) {
        const [one, other] = [fitOne(kind, sample), fitOne(kind, sample.map((x) => x * times))];
        expect(other.cv / one.cv).toBeCloseTo(1, 6);
        expect(other.mean / one.mean / times).toBeCloseTo(1, 6);
        expect(other.distance).toBeCloseTo(one.distance, 5);
      }
    }), runs(200));
  });

  it("is as the scenario takes it: the same coefficient of variation", () => {
    for (const { kind, mean, cv } of PUBLISHED) {
      const fitted = fitShapes(drawn(shapeOf(kind, cv), mean, 100, 3))!;
      expect(cvOf(fitted.shape)).toBeCloseTo(fitted.fits.find((fit) => fit.kind === fitted.chosen)!.cv, 12);
    }
  });
});

describe("The choice of a shape", () => {
  it("takes the one parameter of an exponential where two say no more", () => {
    // By chance a second parameter gains more than 2 of the corrected criterion on one sample in twenty or so, and three others may try.
    const chosen = Array.from({ length: 100 }, (_, seed) => fitShapes(drawn({ kind: "exponential" }, 5, 20, seed))!.chosen);
    expect(chosen.filter((kind) => kind === "exponential").length).toBeGreaterThan(75);
  });

  it("says how far samples of the chosen shape lie off by themselves, and that a mixture of two works does not fit", () => {
    const two = [...drawn({ kind: "lognormal", cv: 0.05 }, 4, 60, 1), ...drawn({ kind: "lognormal", cv: 0.05 }, 12, 60, 2)];
    const fitted = fitShapes(two)!;
    expect(fitted.asFar).toBeLessThan(0.05);
    expect(fitted.why).toContain("does not fit well");
    // Of 40 samples of the true shape about two are called unfit; more than eight come about once in 10,000 times.
    const unfit = Array.from({ length: 40 }, (_, seed) => fitShapes(drawn({ kind: "gamma", cv: 0.3 }, 8, 40, seed))!.asFar!).filter((share) => share < 0.05).length;
    expect(unfit).toBeLessThanOrEqual(8);
  });

  it("is refused to fewer than ten values, to values all alike, and to what is no time", () => {
    expect(fitShapes(drawn({ kind: "gamma", cv: 0.3 }, 8, FEWEST_FITTED - 1, 1))).toBeNull();
    expect(fitShapes(new Array<number>(30).fill(4))).toBeNull();
    expect(() => fitShapes([1, 2, 0])).toThrow("above 0");
    expect(() => fitShapes([1, 2, Infinity])).toThrow(RangeError);
  });
});

/** The likelihood on another way than the fit takes: the densities written out, the gamma function by Lanczos' sum. */
function logLikelihood(kind: FittedKind, parameters: Fit["parameters"] | readonly number[], sample: readonly number[]): number {
  const [a, b] = parameters as readonly [number, number];
  const density: Record<FittedKind, (x: number) => number> = {
    exponential: (x) => -x / a - Math.log(a),
    lognormal: (x) => -0.5 * ((Math.log(x) - a) / b) ** 2 - Math.log(x) - Math.log(b) - 0.5 * Math.log(2 * Math.PI),
    gamma: (x) => a * Math.log(x / b) - Math.log(x) - x / b - lanczos(a),
    weibull: (x) => Math.log(a) + a * Math.log(x / b) - Math.log(x) - Math.exp(a * Math.log(x / b)),
  };
  return sample.reduce((sum, x) => sum + density[kind](x), 0);
}

/** ln of the gamma function: Lanczos 1964, with the usual seven coefficients for g = 5 (from memory), good to ten digits. */
function lanczos(x: number): number {
  const coefficients = [76.1800917294715, -86.5053203294168, 24.0140982408309, -1.231739572450155, 0.1208650973866179e-2, -0.5395239384953e-5];
  const series = coefficients.reduce((sum, c, i) => sum + c / (x + 1 + i), 1.00000000019);
  return (x + 0.5) * Math.log(x + 5.5) - (x + 5.5) + Math.log((2.5066282746310 * series) / x);
}
