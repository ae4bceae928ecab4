/**
 * Which shape a sample of times or masses has: the four shapes of positive values that a scenario knows, each fitted by maximum likelihood,
 * how well each fits, and which one is taken and why. Formulas are those of any textbook of statistics: the likelihood equations of the
 * gamma shape k, ln k - psi(k) = ln(mean) - mean(ln x), and of the Weibull shape, 1/k + mean(ln x) = sum(x^k ln x) / sum(x^k).
 */
import digamma from "@stdlib/math-base-special-digamma";
import trigamma from "@stdlib/math-base-special-trigamma";
import gammaCdf from "@stdlib/stats-base-dists-gamma-cdf";
import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import { Streams } from "../../kernel/random.ts";
import { factorOf, LARGEST_CV, type Shape } from "../../kernel/shapes.ts";
import { logGamma } from "../../kernel/weibull.ts";
import { formatNumber } from "../../scenario/units.ts";

export const FITTED = ["exponential", "lognormal", "gamma", "weibull"] as const;
export type FittedKind = (typeof FITTED)[number];

/** One shape fitted to a sample. */
export interface Fit {
  readonly kind: FittedKind;
  /** exponential: mean; lognormal: mean and sd of the logarithm; gamma and Weibull: shape and scale */ readonly parameters: readonly [number] | readonly [number, number];
  /** of the fitted shape, in the sample's unit */ readonly mean: number;
  readonly cv: number;
  readonly logLikelihood: number;
  /** Akaike's criterion corrected for small samples: the smaller, the better */ readonly aicc: number;
  /** Anderson and Darling's distance between sample and shape: the smaller, the nearer */ readonly distance: number;
}

export interface FittedSample {
  readonly n: number;
  /** in the order of `FITTED` */ readonly fits: readonly Fit[];
  readonly chosen: FittedKind;
  /** as the scenario takes it */ readonly shape: Shape;
  /** share of samples drawn from the chosen shape that lie as far from their own fit; null where the sample is too large to try */ readonly asFar: number | null;
  readonly why: string;
}

/** Fewer values say nothing of a shape. Assumption of this project. */
export const FEWEST_FITTED = 10;
/** Shapes this near in the criterion cannot be told apart; the usual rule of thumb, common practice, no source. */
const NEAR = 2;
/** A shape does not fit well when fewer samples of its own than this share lie as far off; the usual level, common practice, no source. */
const UNFIT = 0.05;
/** Samples drawn to judge the distance, and values drawn at the most. Assumptions of this project. */
const DRAWN = 99;
const MOST_DRAWN = 100_000;

const meanOf = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;

/** Fits the four shapes to values above 0; null for fewer than ten of them, or where all are equal. Refuses others. @throws RangeError */
export function fitShapes(values: readonly number[], seed = 0): FittedSample | null {
  if (values.some((value) => !(value > 0 && value < Infinity))) throw new RangeError("Shapes are fitted to values above 0.");
  if (values.length < FEWEST_FITTED || values.every((value) => value === values[0])) return null;
  const sorted = [...values].sort((a, b) => a - b);
  const fits = FITTED.map((kind) => fitOne(kind, sorted)).filter(({ cv }) => cv <= LARGEST_CV);
  if (fits.length === 0) return null;
  const least = Math.min(...fits.map(({ aicc }) => aicc));
  const near = fits.filter(({ aicc }) => aicc - least < NEAR).sort((a, b) => a.parameters.length - b.parameters.length || a.aicc - b.aicc);
  const chosen = near[0]!;
  const asFar = shareAsFar(chosen, values.length, seed);
  return { n: values.length, fits, chosen: chosen.kind, shape: shapeOf(chosen), asFar, why: why(chosen, near, fits, asFar) };
}

const shapeOf = ({ kind, cv }: Fit): Shape => (kind === "exponential" ? { kind } : { kind, cv });

/** Fits one shape to values in rising order. */
export function fitOne(kind: FittedKind, sorted: readonly number[]): Fit {
  const n = sorted.length;
  const { parameters, mean, cv, logDensity, below } = SHAPES[kind](sorted);
  const logLikelihood = sorted.reduce((total, x) => total + logDensity(x), 0);
  const k = parameters.length;
  return { kind, parameters, mean, cv, logLikelihood, aicc: 2 * k - 2 * logLikelihood + (2 * k * (k + 1)) / (n - k - 1), distance: andersonDarling(sorted, below) };
}

/** One fitted shape: `below` is its distribution function. */
interface Fitted { readonly parameters: Fit["parameters"]; readonly mean: number; readonly cv: number; readonly logDensity: (x: number) => number; readonly below: (x: number) => number }

const SHAPES: Readonly<Record<FittedKind, (values: readonly number[]) => Fitted>> = {
  exponential: (values) => {
    const mean = meanOf(values);
    return { parameters: [mean], mean, cv: 1, logDensity: (x) => -Math.log(mean) - x / mean, below: (x) => -Math.expm1(-x / mean) };
  },
  lognormal: (values) => {
    const logs = values.map(Math.log);
    const mu = meanOf(logs);
    const variance = meanOf(logs.map((log) => (log - mu) ** 2));
    const sigma = Math.sqrt(variance);
    return {
      parameters: [mu, sigma], mean: Math.exp(mu + variance / 2), cv: Math.sqrt(Math.expm1(variance)),
      logDensity: (x) => -Math.log(x * sigma * Math.sqrt(2 * Math.PI)) - (Math.log(x) - mu) ** 2 / (2 * variance),
      below: (x) => normalCdf(Math.log(x), mu, sigma),
    };
  },
  gamma: (values) => {
    const mean = meanOf(values);
    const shape = gammaShape(Math.log(mean) - meanOf(values.map(Math.log)));
    const scale = mean / shape;
    return {
      parameters: [shape, scale], mean, cv: 1 / Math.sqrt(shape),
      logDensity: (x) => (shape - 1) * Math.log(x) - x / scale - logGamma(shape) - shape * Math.log(scale),
      below: (x) => gammaCdf(x, shape, 1 / scale),
    };
  },
  weibull: (values) => {
    const { shape, scale } = weibullOf(values);
    const [first, second] = [logGamma(1 + 1 / shape), logGamma(1 + 2 / shape)];
    return {
      parameters: [shape, scale], mean: scale * Math.exp(first), cv: Math.sqrt(Math.expm1(second - 2 * first)),
      logDensity: (x) => Math.log(shape / scale) + (shape - 1) * Math.log(x / scale) - (x / scale) ** shape,
      below: (x) => -Math.expm1(-((x / scale) ** shape)),
    };
  },
};

/** k with ln k - psi(k) = s, s > 0, by Newton on ln k: the left side falls from infinity to 0. The start is Minka's (2002, Estimating a gamma distribution; formula from memory). */
function gammaShape(s: number): number {
  let log = Math.log((3 - s + Math.sqrt((s - 3) ** 2 + 24 * s)) / (12 * s));
  for (let i = 0; i < 50; i += 1) {
    const k = Math.exp(log);
    const step = (Math.log(k) - digamma(k) - s) / (1 - k * trigamma(k));
    log -= Math.max(-2, Math.min(2, step));
    if (Math.abs(step) < 1e-12) break;
  }
  return Math.exp(log);
}

/** Newton on ln k, the values taken relative to their geometric mean so that no power runs away. */
function weibullOf(values: readonly number[]): { readonly shape: number; readonly scale: number } {
  const middle = meanOf(values.map(Math.log));
  const logs = values.map((x) => Math.log(x) - middle);
  const top = Math.max(...logs);
  const sums = (k: number) => logs.reduce(([zero, one, two], log) => {
    const weight = Math.exp(k * (log - top));
    return [zero + weight, one + weight * log, two + weight * log * log] as const;
  }, [0, 0, 0] as readonly [number, number, number]);
  // The sd of the logarithm is pi / (k sqrt 6).
  let logK = Math.log(Math.PI / Math.sqrt(6 * meanOf(logs.map((log) => log ** 2))));
  for (let i = 0; i < 100; i += 1) {
    const k = Math.exp(logK);
    const [zero, one, two] = sums(k);
    const off = one / zero - 1 / k;
    const slope = k * (two / zero - (one / zero) ** 2 + 1 / k ** 2);
    const step = off / slope;
    logK -= Math.max(-1, Math.min(1, step));
    if (Math.abs(step) < 1e-12) break;
  }
  const shape = Math.exp(logK);
  return { shape, scale: Math.exp(middle + top + Math.log(sums(shape)[0] / values.length) / shape) };
}

/** Anderson and Darling's A2 of values in rising order against a distribution function. */
function andersonDarling(sorted: readonly number[], below: (x: number) => number): number {
  const n = sorted.length;
  const at = sorted.map((x) => Math.min(1 - 1e-15, Math.max(1e-300, below(x))));
  return -n - at.reduce((total, u, i) => total + (2 * i + 1) * (Math.log(u) + Math.log1p(-at[n - 1 - i]!)), 0) / n;
}

/** A parametric bootstrap: parameters that were fitted to the sample draw it nearer than a table for known ones would have it. */
function shareAsFar(chosen: Fit, n: number, seed: number): number | null {
  if (n * DRAWN > MOST_DRAWN) return null;
  const factor = factorOf(shapeOf(chosen));
  const draw = new Streams(seed, 0).stream("fit");
  let asFar = 0;
  for (let i = 0; i < DRAWN; i += 1) {
    const sample = Array.from({ length: n }, () => factor(draw())).sort((a, b) => a - b);
    if (fitOne(chosen.kind, sample).distance >= chosen.distance) asFar += 1;
  }
  return (asFar + 1) / (DRAWN + 1);
}

/** How far the values lie from their mean, and whether the shape describes them, in a yard's words. @param what the values, in the plural */
export function spreadSaid(values: readonly number[], { shape, asFar }: FittedSample, what: string): string {
  const mean = meanOf(values);
  const share = "cv" in shape ? shape.cv : 1;
  const near = values.filter((value) => Math.abs(value - mean) <= share * mean).length;
  const fit = asFar === null ? "" : asFar < UNFIT ? "; no shape that a plan knows describes them well, and the nearest is taken" : "; the shape that is taken describes them well";
  return `${near} of ${values.length} ${what} lie within ${formatNumber(100 * share, 1)} % of their mean${fit}`;
}

function why(chosen: Fit, near: readonly Fit[], fits: readonly Fit[], asFar: number | null): string {
  const others = near.filter(({ kind }) => kind !== chosen.kind).map(({ kind }) => kind);
  const next = fits.filter(({ kind }) => kind !== chosen.kind).sort((a, b) => a.aicc - b.aicc)[0];
  const taken = others.length > 0
    ? `${others.join(" and ")} would do nearly as well, and ${chosen.kind} ${chosen.parameters.length < 2 ? "needs fewer parameters" : "comes out best by a hair"}`
    : next ? `${next.kind}, the next, is ${formatNumber(next.aicc - chosen.aicc, 1)} worse by Akaike's criterion, and from ${NEAR} on that counts` : "no other shape could be fitted";
  const lie = asFar === null ? "" : `${Math.round(asFar * 100)} of 100 samples drawn from it ${Math.round(asFar * 100) === 1 ? "lies" : "lie"} as far from their fit`;
  const fit = asFar === null ? "" : asFar < UNFIT ? ` It does not fit well: only ${lie}.` : ` It fits: ${lie}.`;
  return `${chosen.kind}: ${taken}.${fit}`;
}
