/**
 * What one unit more of each resource is worth now, each rehearsed on the same days: the honest proof of what limits the day. The units are
 * what a manager would buy next (a truck, a lane, a tractor) and are told; they are not of one size.
 */
import { meanOver } from "../findings/figure.ts";
import { STATION_WORDS } from "../findings/words.ts";
import { bottleneckOf } from "../findings/verdict.ts";
import type { Station } from "../findings/types.ts";
import type { Scenario } from "../scenario/types.ts";
import { HIRED, meanTractor, usualKind, withApron, withLength, withPace, withSpreading, withTippingPlaces, withTractor, withTrucks, withWeighingLanes } from "./change.ts";
import type { Effects, Rehearsed } from "./effects.ts";
import { LEFT_STANDING } from "./figures.ts";

/** One unit more of a resource. */
export interface Unit {
  readonly station: Station | "apron";
  /** "one truck", "one lane" ... */ readonly unit: string;
  readonly apply: (scenario: Scenario) => Scenario;
}

export type ShortOf = "crop" | "density" | "pace";

export interface Marginal {
  readonly station: Station | "apron";
  readonly unit: string;
  readonly effects: Effects;
  /** the share gained of what the plan is short of: crop brought in, density as far as the target asks for it, or pace of delivery */ readonly worth: number;
}

export interface Proof {
  /** what the plan is short of, in which the worth of a unit is told */ readonly of: ShortOf;
  /** the station whose unit is worth most, or null when none is worth anything */ readonly station: Station | "apron" | null;
  /** what the waiting of the day says */ readonly byWaiting: Station;
  readonly agree: boolean;
  readonly inWords: string;
}

/** How much one unit more of what has no natural unit is (assumption of this project). */
const TENTH = 1.1;

/** The units of a scenario; those of the storages go to each that is some field's first choice. */
export function unitsOf(scenario: Scenario): Unit[] {
  const used = scenario.storages.map((_, s) => s).filter((s) => scenario.fields.some((field) => field.storages[0] === s));
  const everywhere = (change: (plan: Scenario, s: number) => Scenario) => (plan: Scenario) => used.reduce(change, plan);
  const k = usualKind(scenario);
  const load = scenario.trucks[k]!.load;
  const each = used.length > 1 ? " at each storage" : "";
  return [
    { station: "cutting", unit: "a tenth more pace of every chopper", apply: (s) => withPace(s, TENTH) },
    { station: "hauling", unit: "one truck", apply: (s) => withTrucks(s, s.trucks[k]!.count + 1, k) },
    ...(scenario.weighing ? [{ station: "weighing", unit: "one lane at the scale", apply: (s: Scenario) => withWeighingLanes(s, scenario.weighing!.lanes + 1) } as const] : []),
    { station: "tipping", unit: `one tipping place${each}`, apply: everywhere((plan, s) => withTippingPlaces(plan, s, plan.storages[s]!.tippingPlaces + 1)) },
    { station: "apron", unit: `room for one load more on the apron${each}`, apply: everywhere((plan, s) => withApron(plan, s, plan.storages[s]!.apron + load)) },
    { station: "spreading", unit: `blades a tenth faster${each}`, apply: everywhere((plan, s) => withSpreading(plan, s, TENTH)) },
    { station: "packing", unit: `one packing tractor like the crew's mean${each}`, apply: everywhere((plan, s) => withTractor(plan, s, meanTractor(plan.storages[s]!, HIRED))) },
    { station: "storage", unit: `a tenth more length of storage${each}`, apply: everywhere((plan, s) => withLength(plan, s, TENTH)) },
  ];
}

/** Shares below which a day is short of nothing: of the crop left standing, and of the target density missed (assumption of this project). */
const SHORT = 0.01;

const over = ({ days }: Rehearsed, of: (day: Rehearsed["days"][number]) => number) => meanOver(days, of);

/** What the plan is short of first: of crop brought in, then of density, then of pace. A faster chopper is no gain while the clamp is loose. */
export function shortOfWhat(base: Rehearsed): ShortOf {
  const crop = base.scenario.fields.reduce((sum, field) => sum + field.area * field.yield, 0);
  if (over(base, (day) => day.uncut) > SHORT * crop) return "crop";
  return over(base, (day) => day.measures.dryDensity) < (1 - SHORT) * base.scenario.targets.dryDensity ? "density" : "pace";
}

/** Worth of a unit, see `Marginal`. Gains that are not sure, or that nobody would notice, count nothing. */
export function worthOf({ by }: Effects, before: Rehearsed, after: Rehearsed, of: ShortOf): number {
  const target = before.scenario.targets.dryDensity;
  switch (of) {
    case "crop": {
      const gained = over(before, (day) => day.uncut) - over(after, (day) => day.uncut);
      return gained > LEFT_STANDING ? gained / over(before, (day) => day.measures.delivered * 1000) : 0;
    }
    case "density": return by.density.moves ? Math.min(over(after, (day) => day.measures.dryDensity), target) / over(before, (day) => day.measures.dryDensity) - 1 : 0;
    case "pace": return by.pace.moves ? by.pace.mean / over(before, (day) => day.measures.deliveryRate) : 0;
  }
}

/** Worth under which a unit does not help (assumption of this project). */
const NOTHING = 0.005;

/** What is gained, in words. */
export const GAINED: Readonly<Record<ShortOf, string>> = { crop: "crop brought in", density: "density, as far as the target asks for it", pace: "delivered by the hour" };

/** What the marginal picture proves, beside what the waiting says. */
export function proofOf(base: Rehearsed, marginals: readonly Marginal[], of: ShortOf): Proof {
  const byWaiting = bottleneckOf(base.scenario, base.days);
  const [best, next] = [...marginals].sort((a, b) => b.worth - a.worth);
  if (!best || best.worth < NOTHING) {
    return { of, station: null, byWaiting, agree: false, inWords: "No unit more of anything makes the day noticeably better: it is balanced, or what limits it is not bought by the piece." };
  }
  const name = (station: Marginal["station"]) => (station === "apron" ? "room on the apron" : STATION_WORDS[station]);
  const percent = (worth: number) => `${(worth * 100).toFixed(worth < 0.1 ? 1 : 0)} %`;
  const agree = best.station === byWaiting;
  return {
    of, station: best.station, byWaiting, agree,
    inWords: `One unit more of ${name(best.station)} (${best.unit}) is worth most: ${percent(best.worth)} more ${GAINED[of]}`
      + `${next && next.worth >= NOTHING ? `; next comes ${name(next.station)} (${next.unit}) with ${percent(next.worth)}` : ""}. `
      + (agree ? "The waiting of the day points to the same." : `The waiting of the day points to ${STATION_WORDS[byWaiting]}: where two stations are close, adding to one alone helps little.`),
  };
}
