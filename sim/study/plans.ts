/** The plans that a scenario's search goes through: counted before they are made, so that a search too large is refused with its number. */
import { counted } from "../findings/figure.ts";
import type { BehindRule, Scenario, Tractor } from "../scenario/types.ts";
import { withCrew, withLayer, withPace, withRule, withTrucks } from "./change.ts";

/** Most plans of one search (assumption of this project): more would take minutes where a person would narrow the ranges. */
export const MOST_PLANS = 2000;

/** One plan of a search, by what it chooses; what the search leaves alone is null. */
export interface Plan {
  readonly trucks: number | null;
  /** the packing tractors beside the blades, so many of each */ readonly tractors: readonly { readonly name: string; readonly count: number }[] | null;
  /** m */ readonly layer: number | null;
  readonly rule: BehindRule | null;
  /** share of the choppers' pace */ readonly pace: number | null;
  readonly scenario: Scenario;
}

/** How many plans a search has. A count beyond what a number holds exactly comes out rounded. */
export function countPlans({ search }: Scenario): number {
  if (!search) return 0;
  const trucks = search.trucks ? search.trucks.to - search.trucks.from + 1 : 1;
  return trucks * crewCount(search.tractors) * (search.layers?.length ?? 1) * (search.rules?.length ?? 1) * (search.pace?.length ?? 1);
}

type Crews = NonNullable<Scenario["search"]>["tractors"];

/** Crews of `from` to `to` from the list: coefficients of the product of (1 + x + ... + x^count), which are the ways to choose n. */
function crewCount(tractors: Crews): number {
  if (!tractors) return 1;
  let ways = [1];
  for (const { count } of tractors.list) {
    const next = new Array<number>(ways.length + count).fill(0);
    ways.forEach((way, n) => { for (let more = 0; more <= count; more++) next[n + more]! += way; });
    ways = next;
  }
  return ways.slice(tractors.from, tractors.to + 1).reduce((sum, way) => sum + way, 0);
}

/** All crews as counts along the list, the smaller ones first. Whatever is begun can still be finished, so that the work grows with the crews there are. */
function crewsOf({ from, to, list }: NonNullable<Crews>): (readonly number[])[] {
  const size = (crew: readonly number[]) => crew.reduce((sum, n) => sum + n, 0);
  let left = list.reduce((sum, { count }) => sum + count, 0);
  let crews: number[][] = [[]];
  for (const { count } of list) {
    left -= count;
    const rest = left;
    crews = crews.flatMap((crew) => Array.from({ length: count + 1 }, (_, n) => [...crew, n])).filter((crew) => size(crew) <= to && size(crew) + rest >= from);
  }
  return crews.sort((a, b) => size(a) - size(b));
}

/** The tractors of a crew; where there may be several of a kind, a number tells them apart. */
const tractorsOf = ({ list }: NonNullable<Crews>, crew: readonly number[]): Tractor[] =>
  list.flatMap(({ tractor, count }, i) => Array.from({ length: crew[i]! }, (_, n) => ({ ...tractor, name: count > 1 ? `${tractor.name} ${n + 1}` : tractor.name })));

const namedCounts = ({ list }: NonNullable<Crews>, crew: readonly number[]) =>
  list.flatMap(({ tractor: { name } }, i) => (crew[i]! > 0 ? [{ name, count: crew[i]! }] : []));

/**
 * All plans of the scenario's search, in a fixed order.
 * @throws RangeError in the user's words when there is no search, or it has more plans than are gone through
 */
export function plansOf(scenario: Scenario): Plan[] {
  const { search } = scenario;
  if (!search) throw new RangeError("The scenario has no search: give ranges of trucks, tractors, layers, rules or pace under `search`.");
  const count = countPlans(scenario);
  if (count > MOST_PLANS) {
    throw new RangeError(`The search has ${counted(count)} plans; up to ${counted(MOST_PLANS)} are gone through: fewer values or narrower ranges would do.`);
  }
  const { search: _search, ...plain } = scenario;
  const trucks = search.trucks ? Array.from({ length: search.trucks.to - search.trucks.from + 1 }, (_, i) => search.trucks!.from + i) : [null];
  const crews = search.tractors ? crewsOf(search.tractors) : [null];
  const plans: Plan[] = [];
  for (const n of trucks) for (const crew of crews) for (const layer of search.layers ?? [null]) for (const rule of search.rules ?? [null]) for (const pace of search.pace ?? [null]) {
    let plan: Scenario = plain;
    if (n !== null) plan = withTrucks(plan, n, search.trucks!.kind);
    if (crew !== null) {
      const { storage } = search.tractors!;
      plan = withCrew(plan, storage, [...plan.storages[storage]!.tractors.filter(({ spreads }) => spreads !== null), ...tractorsOf(search.tractors!, crew)]);
    }
    if (layer !== null) plan = withLayer(plan, layer);
    if (rule !== null) plan = withRule(plan, rule);
    if (pace !== null) plan = withPace(plan, pace);
    plans.push({ trucks: n, tractors: crew && namedCounts(search.tractors!, crew), layer, rule, pace, scenario: plan });
  }
  return plans;
}
