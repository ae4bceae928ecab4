/**
 * How rolling becomes density: the survey relation of Muck & Holmes 2000, Applied Engineering in Agriculture 16(6):613-619.
 *
 * As published, in US units:
 *   density [lb DM/ft3] = (8.5 + 0.0155 PF) (0.818 + 0.0136 D),   PF = (W / L) sqrt(DM N / C)
 *
 * N / C is tractor time per ton. A lift of mass M that got s_i seconds from tractor i of mass m_i therefore has
 * W sqrt(N / C) = sum(m_i s_i) / sqrt(M sum(s_i)). The part that belongs to the machines alone,
 * sum(m_i s_i) / sqrt(sum(s_i)), is called the packing effort here [kg sqrt(s)].
 *
 * Nothing here checks its input: these run at every lift, on figures from a checked scenario (masses, layer, depth above 0).
 */
import type { Sourced } from "./sourced.ts";
import { FOOT, INCH, LB_PER_FT3, POUND, US_TON } from "./us.ts";

/** The relation, its coefficients in the units it was published in, and the densities of the survey behind it. */
export const RELATION = {
  source: "Muck & Holmes 2000, Factors affecting bunker silo densities, Applied Engineering in Agriculture 16(6):613-619",
  mark: "published, figure from memory",
  formula: "density [lb DM/ft3] = (8.5 + 0.0155 PF) (0.818 + 0.0136 D), PF = (W / L) sqrt(DM N / C)",
  /** kg DM/m3 found in the survey */ range: [106, 434],
  /** lb DM/ft3 */ unpacked: 8.5,
  /** lb DM/ft3 per unit of packing factor */ perFactor: 0.0155,
  /** 1 */ atNoDepth: 0.818,
  /** 1/ft */ perFoot: 0.0136,
} as const;

/** Densities found in the survey, kg DM/m3: outside them the relation is a guess. */
export const surveyRange: Sourced<readonly [number, number]> = {
  value: RELATION.range, unit: "kg DM/m3", source: `${RELATION.source}, abstract, 175 bunkers`, mark: "published",
};

/** Share of the variation between bunkers that the packing factor explained. */
export const explainedShare: Sourced = {
  value: 0.182, unit: "1", source: `${RELATION.source}, abstract, 175 bunkers`, mark: "published",
};

/** Layer the relation is shown when its layer term is switched off. */
export const referenceLayer: Sourced = {
  value: 0.15, unit: "m", source: "the thickest layer the trade advises", mark: "assumption of this project",
  note: "The survey's authors later found that a thicker layer with the same packing time per ton gave the same density; thin layers may work by forcing time.",
};

// The published coefficients turned to SI by exact unit sizes, so that both forms agree to the last digits of a double.
const UNPACKED = RELATION.unpacked * LB_PER_FT3;
const PER_EFFORT = RELATION.perFactor * LB_PER_FT3 * (INCH / POUND) * Math.sqrt(US_TON / 3600);
const PER_METRE = RELATION.perFoot / FOOT;

/** What the weight of the crop above adds: the relation's second bracket, for a mean depth in m. 1 at 4.08 m. */
export const depthTerm = (depth: number): number => RELATION.atNoDepth + PER_METRE * depth;

/** The order in which groups of tractors are tried: indices by falling mass, equal masses in the order given. */
export function heaviestFirst(masses: readonly number[]): number[] {
  return masses.map((_, i) => i).sort((a, b) => masses[b]! - masses[a]!);
}

/**
 * Packing effort of a lift, kg sqrt(s): the largest sum(m s) / sqrt(sum s) over the heaviest, the two heaviest, and so on; 0 when
 * nobody rolled. Taken literally the relation lets a light helper lower the mean mass and with it the density; the largest over
 * heaviest-first groups (assumption of this project) makes sure that more rolling never counts for less.
 * @param masses kg @param seconds of rolling, by machine @param order from `heaviestFirst`
 */
export function packingEffort(masses: readonly number[], seconds: ArrayLike<number>, order: readonly number[]): number {
  let time = 0;
  let massTime = 0;
  let best = 0;
  for (let k = 0; k < order.length; k++) {
    const i = order[k]!;
    const s = seconds[i]!;
    if (s <= 0) continue;
    time += s;
    massTime += masses[i]! * s;
    const effort = massTime / Math.sqrt(time);
    if (effort > best) best = effort;
  }
  return best;
}

/** Tractors that rolled and get no credit from the relation, indices by falling mass: they stand outside the best heaviest-first group. */
export function uncreditedTractors(masses: readonly number[], seconds: ArrayLike<number>, order: readonly number[]): number[] {
  const rolled = order.filter((i) => seconds[i]! > 0);
  let time = 0;
  let massTime = 0;
  let best = 0;
  let credited = 0;
  rolled.forEach((i, k) => {
    time += seconds[i]!;
    massTime += masses[i]! * seconds[i]!;
    const effort = massTime / Math.sqrt(time);
    if (effort >= best) {
      best = effort;
      credited = k + 1;
    }
  });
  return rolled.slice(credited);
}

/**
 * Density of a lift by the relation, kg DM/m3.
 * @param effort kg sqrt(s) @param liftMass fresh kg @param dryMatter share of fresh mass @param layer m, loose, as spread
 * @param depth m, mean depth of the storage
 */
export function dryDensityOf(effort: number, liftMass: number, dryMatter: number, layer: number, depth: number): number {
  return (UNPACKED + ((PER_EFFORT * effort) / layer) * Math.sqrt(dryMatter / liftMass)) * depthTerm(depth);
}

/** Packing effort that gives a lift this density, kg sqrt(s): the inverse of `dryDensityOf`; 0 when no packing already gives it. */
export function effortFor(density: number, liftMass: number, dryMatter: number, layer: number, depth: number): number {
  const packed = density / depthTerm(depth) - UNPACKED;
  return packed <= 0 ? 0 : ((packed / PER_EFFORT) * layer) / Math.sqrt(dryMatter / liftMass);
}

/** Packing factor as published: lb of mean tractor mass, in of loose layer, decimal dry matter, tractors rolling full time, US ton/h delivered; see `densityUS`. */
export function packingFactorUS(massLb: number, layerIn: number, dryMatter: number, tractors: number, tonPerH: number): number {
  return (massLb / layerIn) * Math.sqrt((dryMatter * tractors) / tonPerH);
}

/** The relation as published, lb DM/ft3, from the packing factor and the mean depth in feet; here to check the metric form against. */
export function densityUS(packingFactor: number, depthFt: number): number {
  return (RELATION.unpacked + RELATION.perFactor * packingFactor) * (RELATION.atNoDepth + RELATION.perFoot * depthFt);
}

/** What a crew has done to the open lift and is about to do. Arrays run by machine, in the crew's order. */
export interface Wait {
  /** packing effort wanted, kg sqrt(s), see `effortFor` */ readonly target: number;
  /** kg */ readonly masses: readonly number[];
  /** from `heaviestFirst(masses)` */ readonly order: readonly number[];
  /** share of the wait each machine really rolls; 0 for one that is away */ readonly rates: readonly number[];
  /** s rolled already */ readonly have: ArrayLike<number>;
  /** s each will still add after the wait, while the next load is spread; null for none */ readonly ahead: ArrayLike<number> | null;
}

/**
 * The least wait, s, after which the effort is reached with what lies behind and ahead; Infinity when rolling on never gets there.
 *
 * A heaviest-first group with s0 seconds and s1 kilogram-seconds so far gains r0 and r1 of them a second. It reaches the effort q
 * when (s1 + r1 s)^2 = q^2 (s0 + r0 s). Below q at the start this quadratic has exactly one root ahead; the crew is done at the
 * earliest root of any group, because the effort is the largest over the groups.
 */
export function secondsToReach({ target, masses, order, rates, have, ahead }: Wait): number {
  if (target <= 0) return 0;
  const q2 = target * target;
  let s0 = 0;
  let s1 = 0;
  let r0 = 0;
  let r1 = 0;
  let earliest = Infinity;
  for (let k = 0; k < order.length; k++) {
    const i = order[k]!;
    const mass = masses[i]!;
    const rolled = ahead === null ? have[i]! : have[i]! + ahead[i]!;
    const rate = rates[i]!;
    s0 += rolled;
    s1 += mass * rolled;
    r0 += rate;
    r1 += mass * rate;
    const short = q2 * s0 - s1 * s1;
    if (s0 > 0 && short <= 0) return 0;
    if (r1 <= 0) continue;
    // r1^2 s^2 + b s - short = 0
    const a = r1 * r1;
    const b = 2 * s1 * r1 - q2 * r0;
    const seconds = (Math.sqrt(b * b + 4 * a * short) - b) / (2 * a);
    if (seconds < earliest) earliest = seconds;
  }
  return earliest;
}

/** One load after another, all alike, under the rule that no lift is buried before it is dense enough. */
export interface SteadyWork {
  /** fresh kg */ readonly liftMass: number;
  /** share of fresh mass */ readonly dryMatter: number;
  /** m, loose, as spread */ readonly layer: number;
  /** m, mean depth of the storage */ readonly depth: number;
  /** kg DM/m3 wanted */ readonly target: number;
  /** kg, by machine */ readonly masses: readonly number[];
  /** from `heaviestFirst(masses)` */ readonly order: readonly number[];
  /** share of its time on the clamp that each machine really rolls while the crew waits */ readonly rolling: readonly number[];
  /** the same while the next load is pushed, when that leaves more room; as `rolling` when left out */ readonly rollingBeside?: readonly number[];
  /** true for blades: they push while a load is spread and do not roll then */ readonly pushing: readonly boolean[];
  /** s to spread one load */ readonly spreadSeconds: number;
}

/**
 * Time one load takes in steady work, s, from the start of one spreading to the start of the next: the lift waits until it is rolled
 * by everybody long enough that, with what the machines that stay on it add while the next load is spread, it has the target
 * density. Infinity when nobody rolls. What the crew packs at target is liftMass / steadyCycle.
 */
export function steadyCycle(work: SteadyWork): number {
  const target = effortFor(work.target, work.liftMass, work.dryMatter, work.layer, work.depth);
  const ahead = (work.rollingBeside ?? work.rolling).map((share, i) => (work.pushing[i] ? 0 : share * work.spreadSeconds));
  const have = work.rolling.map(() => 0);
  return work.spreadSeconds + secondsToReach({ target, masses: work.masses, order: work.order, rates: work.rolling, have, ahead });
}
