/**
 * A screening design: few runs for many inputs, and a hint where an input's effect hangs on the others. Morris 1991, Factorial sampling plans
 * for preliminary computational experiments, Technometrics 33(2):161-174; the mean of absolute effects is from Campolongo, Cariboni &
 * Saltelli 2007, An effective screening design for sensitivity analysis of large models, Environmental Modelling & Software 22(10):1509-1518
 * (both from memory).
 */
import { mean, sampleStandardDeviation } from "simple-statistics";

/** Levels of each input between its ends. */
const LEVELS = 4;
/** Step between two runs, a share of the range: the usual choice for an even number of levels. */
const STEP = LEVELS / (2 * (LEVELS - 1));

/** One walk: from a random corner, each input moved once, in a random order. */
export interface Walk {
  /** inputs as shares of their range, one row a run; a row more than inputs */ readonly points: readonly (readonly number[])[];
  /** which input each step moves */ readonly moved: readonly number[];
}

/** So many walks over so many inputs. `uniform` gives numbers between 0 and 1. */
export function walksOf(inputs: number, walks: number, uniform: () => number): Walk[] {
  return Array.from({ length: walks }, () => {
    const moved = shuffled(inputs, uniform);
    // Half of the levels can go up by the step, the other half down.
    const upwards = Array.from({ length: inputs }, () => uniform() < 0.5);
    let point = upwards.map((up) => Math.floor(uniform() * (LEVELS / 2)) / (LEVELS - 1) + (up ? 0 : STEP));
    const points = [point];
    for (const input of moved) {
      point = point.map((level, i) => (i === input ? level + (upwards[i] ? STEP : -STEP) : level));
      points.push(point);
    }
    return { points, moved };
  });
}

function shuffled(n: number, uniform: () => number): number[] {
  const order = Array.from({ length: n }, (_, i) => i);
  for (let i = n - 1; i > 0; i--) {
    const j = Math.floor(uniform() * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}

export interface Screened {
  /** mean absolute effect of going through the whole range */ readonly effect: number;
  /** standard deviation of the effects: large where they hang on the other inputs, or are no straight line */ readonly sd: number;
}

/** Effects of one input from the results of each walk, one value a run. */
export function screened(walks: readonly Walk[], results: readonly (readonly number[])[], input: number): Screened {
  const effects = walks.map(({ points, moved }, w) => {
    const step = moved.indexOf(input);
    return (results[w]![step + 1]! - results[w]![step]!) / (points[step + 1]![input]! - points[step]![input]!);
  });
  return { effect: mean(effects.map(Math.abs)), sd: effects.length > 1 ? sampleStandardDeviation(effects) : 0 };
}
