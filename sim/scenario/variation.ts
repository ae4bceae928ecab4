/** How much the day varies: `none`, `typical`, or by activity, turned into factors with mean 1. */
import type { Shape } from "../kernel/shapes.ts";
import { LARGEST_CV, LARGEST_NORMAL_CV, LARGEST_UNIFORM_CV } from "./limits.ts";
import { amountOf } from "./pieces.ts";
import type { Problems } from "./problems.ts";
import { TYPICAL } from "./typical.ts";
import { ACTIVITIES } from "./types.ts";
import type { Activity, Variation } from "./types.ts";
import { settled } from "./units.ts";
import { found, listed } from "./words.ts";
import type { WrittenVariation } from "./written.ts";

const lognormal = (cv: number): Shape => ({ kind: "lognormal", cv });
const everywhere = (shapeOf: (activity: Activity) => Shape | null): Variation =>
  Object.fromEntries(ACTIVITIES.map((activity) => [activity, shapeOf(activity)])) as Record<Activity, Shape | null>;

/** The variation of a checked scenario. Activities that a map leaves out do not vary. */
export function variationOf(written: WrittenVariation | string, problems: Problems): Variation {
  if (written === "none") return everywhere(() => null);
  if (typeof written === "string") return everywhere((activity) => lognormal(TYPICAL[activity]));
  return everywhere((activity) => {
    const entry = written[activity];
    return entry === undefined ? null : shapeOf(entry, ["variation", activity], problems);
  });
}

type WrittenSpread = NonNullable<Exclude<WrittenVariation, string>[Activity]>;
type WrittenShape = Exclude<WrittenSpread, string | number>;
type Parameter = "cv" | "stages" | "low" | "mode" | "high";

/** The parameters each kind takes, one list for each way of giving them. */
const PARAMETERS: Readonly<Record<WrittenShape["shape"], readonly (readonly Parameter[])[]>> = {
  fixed: [[]], exponential: [[]],
  lognormal: [["cv"]], gamma: [["cv"]], weibull: [["cv"]], normal: [["cv"]],
  uniform: [["cv"], ["low", "high"]],
  erlang: [["stages"]],
  triangular: [["low", "mode", "high"]],
};

function shapeOf(written: WrittenSpread, path: readonly string[], problems: Problems): Shape | null {
  if (written === "none") return null;
  if (typeof written !== "object") return withCv("lognormal", written, path, problems);
  const kind = written.shape;
  const given = (["cv", "stages", "low", "mode", "high"] as const).filter((name) => written[name] !== undefined);
  const ways = PARAMETERS[kind];
  if (!ways.some((way) => way.length === given.length && way.every((name) => given.includes(name)))) {
    const takes = ways.map((way) => (way.length === 0 ? "nothing else" : listed(way, "and"))).join(", or ");
    problems.add(path, `is ${kind} with ${given.length === 0 ? "nothing else" : listed(given, "and")}: ${kind} takes ${takes}`);
    return null;
  }
  switch (kind) {
    case "fixed": return null;
    case "exponential": return { kind };
    case "erlang": return { kind, stages: written.stages ?? 1 };
    case "triangular": return triangular(written, path, problems);
    case "uniform": return written.cv === undefined ? uniformBetween(written, path, problems) : withCv(kind, written.cv, [...path, "cv"], problems);
    default: return withCv(kind, written.cv ?? 0, [...path, "cv"], problems);
  }
}

function withCv(kind: "lognormal" | "gamma" | "weibull" | "normal" | "uniform", written: string | number, path: readonly string[], problems: Problems): Shape | null {
  const largest = kind === "normal" ? LARGEST_NORMAL_CV : kind === "uniform" ? LARGEST_UNIFORM_CV : LARGEST_CV;
  const cv = shareOf(written);
  if (!(cv >= 0 && cv <= largest)) {
    problems.add(path, `is ${found(written)}: a coefficient of variation from 0 to ${Number(largest.toFixed(3))} would do for ${kind}, as a decimal or a percentage`);
    return null;
  }
  return cv === 0 ? null : { kind, cv: settled(cv) };
}

const shareOf = (written: string | number): number => {
  const amount = amountOf(written, "share");
  return "value" in amount ? amount.value : NaN;
};

/** Only the shape counts: the ends are divided by the mean, so that the factor's mean is 1. */
function triangular(written: WrittenShape, path: readonly string[], problems: Problems): Shape | null {
  const [low, mode, high] = [shareOf(written.low ?? NaN), shareOf(written.mode ?? NaN), shareOf(written.high ?? NaN)];
  if (!(low >= 0 && low <= mode && mode <= high && high > low && high < 1e9)) {
    problems.add(path, "is a triangle that does not stand: plain numbers with 0 <= low <= mode <= high and low < high would do");
    return null;
  }
  const mean = (low + mode + high) / 3;
  return { kind: "triangular", low: settled(low / mean), mode: settled(mode / mean), high: settled(high / mean) };
}

function uniformBetween(written: WrittenShape, path: readonly string[], problems: Problems): Shape | null {
  const [low, high] = [shareOf(written.low ?? NaN), shareOf(written.high ?? NaN)];
  if (!(low >= 0 && high > low && high < 1e9)) {
    problems.add(path, "is uniform between ends that do not fit: plain numbers with 0 <= low < high would do");
    return null;
  }
  return { kind: "uniform", cv: settled((high - low) / Math.sqrt(12) / ((low + high) / 2)) };
}
