import gammaQuantile from "@stdlib/stats-base-dists-gamma-quantile";
import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import { REFUSALS } from "./refusals.ts";
import { weibullShape, weibullScale } from "./weibull.ts";

/** Relative distributions: a factor with mean 1. `cv` is the coefficient of variation of the factor. */
export type Shape =
  | { readonly kind: "fixed" }
  | { readonly kind: "exponential" }
  | { readonly kind: "lognormal" | "gamma" | "weibull" | "normal" | "uniform"; readonly cv: number }
  | { readonly kind: "erlang"; readonly stages: number }
  | { readonly kind: "triangular"; readonly low: number; readonly mode: number; readonly high: number };

/** Normal, uniform and triangular factors that would fall below this are cut to it; the mean is 1 before the cut. Assumption of this project. */
export const LEAST_FACTOR = 0.01;

/** Beyond this a gamma or Weibull factor would come out as nothing at all now and then. Assumption of this project: no work varies so much. */
export const LARGEST_CV = 3;

/**
 * The quantile function of a shape: a uniform number in (0, 1) to a factor with mean 1, rising in u. One uniform a draw, by inversion,
 * so that a change of shape does not shift a stream. Whatever can be worked out beforehand is, so keep the function.
 * A triangle's three numbers may have any mean; they are divided by it. Refuses a cv outside 0 to `LARGEST_CV`.
 */
export function factorOf(shape: Shape): (u: number) => number {
  const cv = cvOf(shape);
  if (cv === 0) return () => 1;
  switch (shape.kind) {
    case "exponential":
      return exponential;
    case "lognormal":
      return lognormal(cv);
    case "gamma":
      return gamma(1 / cv ** 2);
    case "erlang":
      return gamma(shape.stages);
    case "weibull":
      return weibull(cv);
    case "normal":
      return cut((u) => 1 + cv * standardNormal(u));
    case "uniform":
      return cut((u) => 1 + cv * Math.sqrt(3) * (2 * u - 1));
    case "triangular":
      return cut(triangular(shape));
    case "fixed":
      return () => 1;
  }
}

/** Coefficient of variation of a shape, before any cut. Refuses what is no shape. */
export function cvOf(shape: Shape): number {
  switch (shape.kind) {
    case "fixed":
      return 0;
    case "exponential":
      return 1;
    case "erlang":
      if (!(Number.isInteger(shape.stages) && shape.stages > 0)) throw new RangeError(REFUSALS.stages(shape.stages));
      return 1 / Math.sqrt(shape.stages);
    case "triangular":
      return triangleCv(shape);
    default:
      if (!(shape.cv >= 0 && shape.cv <= LARGEST_CV)) throw new RangeError(REFUSALS.cv(shape.kind, shape.cv, LARGEST_CV));
      return shape.cv;
  }
}

const standardNormal = normalQuantile.factory(0, 1);

/** log1p keeps small u exact. */
function exponential(u: number): number {
  return -Math.log1p(-u);
}

function lognormal(cv: number): (u: number) => number {
  const variance = Math.log1p(cv ** 2);
  const sigma = Math.sqrt(variance);
  return (u) => Math.exp(sigma * standardNormal(u) - variance / 2);
}

/** `stages` need not be whole; scale 1 / stages makes the mean 1. */
function gamma(stages: number): (u: number) => number {
  return stages === 1 ? exponential : gammaQuantile.factory(stages, stages);
}

function weibull(cv: number): (u: number) => number {
  const shape = weibullShape(cv);
  const scale = weibullScale(shape);
  const power = 1 / shape;
  return (u) => scale * (-Math.log1p(-u)) ** power;
}

type Triangle = Extract<Shape, { kind: "triangular" }>;

function triangleCv({ low, mode, high }: Triangle): number {
  const sum = low + mode + high;
  if (!(low <= mode && mode <= high && sum > 0 && sum < Infinity)) throw new RangeError(REFUSALS.triangle(low, mode, high));
  const variance = ((mode - low) ** 2 + (high - mode) ** 2 + (mode - low) * (high - mode)) / 18;
  return Math.sqrt(variance) / (sum / 3);
}

function triangular({ low, mode, high }: Triangle): (u: number) => number {
  const mean = (low + mode + high) / 3;
  const turn = (mode - low) / (high - low);
  return (u) =>
    (u < turn ? low + Math.sqrt(u * (high - low) * (mode - low)) : high - Math.sqrt((1 - u) * (high - low) * (high - mode))) / mean;
}

function cut(factor: (u: number) => number): (u: number) => number {
  return (u) => Math.max(LEAST_FACTOR, factor(u));
}
