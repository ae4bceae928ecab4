/** Many campaigns of one plan: when all is in, how much of it inside the window, what lies where, and when to start. */
import { clockOf } from "../findings/clock.ts";
import { quantile } from "../findings/summary.ts";
import { band } from "../forage/scatter.ts";
import { densestDry, poreSpace } from "../forage/porespace.ts";
import { dryMatterWindowOf, type WindowSide } from "../forage/window.ts";
import { dateOf } from "../scenario/dates.ts";
import { hashOf } from "../scenario/hash.ts";
import type { Scenario } from "../scenario/types.ts";
import { ENGINE_VERSION } from "../version.ts";
import { campaignRun, farmsOf, type CampaignDay, type CampaignRun, type Farm } from "./campaign.ts";
import { campaignNotes } from "./campaignnotes.ts";
import { campaignsOf, costOf, costPerDryTonne, currencyOf, shareOf, sidesOf, whenToStart, type TriedStart, type WhenToStart } from "./campaignstart.ts";
import { checkedRehearsals, isDeterministic, USUAL_REHEARSALS } from "./rehearsal.ts";
import type { Study } from "./work.ts";

/** Farms of one campaign (assumption of this project). */
export const MOST_FARMS = 10;

/** One day as it is told. */
export interface ToldDay {
  readonly date: string;
  readonly farm: string;
  readonly lost: "rain" | null;
  readonly fields: readonly { readonly name: string; readonly freshT: number; /** share */ readonly dryMatter: number; readonly side: WindowSide }[];
  readonly loads: number;
  readonly freshT: number;
  readonly dryT: number;
  /** share of all that was cut that day */ readonly dryMatter: number | null;
  /** kg DM/m3 of what was laid that day */ readonly density: number | null;
  /** time of day at which all was packed */ readonly closedAt: string | null;
  /** what the farm spends on the work of that day, in its currency */ readonly cost: number;
  readonly storages: readonly { readonly name: string; /** share of its room */ readonly filled: number; /** m2 of wedge that wait for more */ readonly openFace: number }[];
  /** h that the wedge waits; 0 when nothing more comes */ readonly openFor: number;
}

export interface ToldStorage {
  readonly farm: string;
  readonly name: string;
  /** in the campaign that is shown */ readonly filledOn: readonly [string, string];
  readonly freshT: number;
  readonly dryT: number;
  readonly dryMatter: number;
  readonly window: readonly [number, number];
  readonly density: { readonly mean: number; /** where 8 of 10 storages packed like it lie, by the relation's scatter */ readonly band: readonly [number, number] };
  /** null where the relation gives more than there is room for */ readonly poreSpace: number | null;
  /** L, of the whole storage, by the published curve */ readonly effluent: number;
}

/** What is known of the campaign as planned, whenever else it could start. */
export interface PlannedCampaigns {
  readonly engine: string;
  readonly farms: readonly { readonly name: string; readonly hash: string; readonly crop: string }[];
  readonly seed: number;
  readonly campaigns: number;
  readonly starts: string;
  /** shares of the campaigns */ readonly chance: { readonly allIn: number; readonly endsInside: number };
  /** mean shares of the dry matter cut */ readonly window: { readonly inside: number; readonly tooWet: number; readonly tooDry: number };
  /** of the campaigns that bring everything in; null when none does */ readonly finish: { readonly early: string; readonly median: string; readonly late: string } | null;
  /** mean */ readonly rainDays: number;
  /** of the work of all days, film and covering not in it; null where the farms reckon in several currencies */ readonly cost: {
    readonly currency: string; readonly mean: number; /** 8 of 10 campaigns lie between */ readonly low: number; readonly high: number; /** a tonne of dry matter cut */ readonly perDryTonne: number;
  } | null;
  /** the campaign with the median finish */ readonly shown: { readonly campaign: number; readonly days: readonly ToldDay[] };
  readonly storages: readonly ToldStorage[];
  readonly notes: readonly string[];
  readonly assumptions: readonly string[];
}

export interface Campaigns extends PlannedCampaigns { readonly whenToStart: WhenToStart }

/** While starts are being tried. */
export interface CampaignsSoFar extends PlannedCampaigns { readonly tried: readonly TriedStart[] }

export interface CampaignsOptions {
  readonly campaigns?: number;
  /** instead of the first scenario's own */ readonly seed?: number;
}

/** Campaigns when nobody says how many: one is enough where nothing varies and rain comes on given days. */
export function usualCampaigns(scenarios: readonly Scenario[]): number {
  const rain = scenarios[0]?.campaign?.rain ?? 0;
  return scenarios.every(isDeterministic) && (typeof rain !== "number" || rain === 0 || rain === 1) ? 1 : USUAL_REHEARSALS;
}

/**
 * The study of a campaign, rehearsed so many times, the farms in their order, the choppers and trucks of the first.
 * @throws RangeError in the user's words when the first scenario has no campaign, or there are too many farms, or a number is none; EndlessDay
 */
export function* campaigns(scenarios: readonly Scenario[], options: CampaignsOptions = {}): Study<Campaigns, CampaignsSoFar> {
  if (scenarios.length > MOST_FARMS) throw new RangeError(`A campaign goes to up to ${MOST_FARMS} farms, not ${scenarios.length}.`);
  const { farms, campaign } = farmsOf(scenarios);
  const count = checkedRehearsals(options.campaigns ?? usualCampaigns(scenarios));
  const seed = options.seed ?? scenarios[0]!.seed;
  const runs: CampaignRun[] = [];
  let days = 0;
  for (let number = 0; number < count; number++) {
    const run = campaignRun(farms, campaign, { seed, number });
    runs.push(run);
    days += run.days.length;
    yield { batches: [], worked: run.days.length, expected: Math.round((days / runs.length) * campaignsOf(count)) };
  }
  const ends = runs.map(endOf);
  const order = ends.map((_, i) => i).sort((a, b) => ends[a]! - ends[b]! || a - b);
  const shown = order[Math.floor((order.length - 1) / 2)]!;
  const inTime = ends.filter((_, i) => runs[i]!.allIn);
  const window = sidesOf(runs);
  const chance = { allIn: shareOf(runs, (run) => run.allIn), endsInside: shareOf(runs, (run) => run.endsInside) };
  const planned: PlannedCampaigns = {
    engine: ENGINE_VERSION, farms: scenarios.map((scenario) => ({ name: scenario.name, hash: hashOf(scenario), crop: scenario.crop.kind })), seed, campaigns: count,
    starts: dateOf(campaign.starts), chance, window,
    finish: inTime.length === 0 ? null : { early: at(quantile(inTime, 0.1)), median: at(quantile(inTime, 0.5)), late: at(quantile(inTime, 0.9)) },
    rainDays: runs.reduce((sum, run) => sum + run.days.filter(({ rained }) => rained).length, 0) / count,
    shown: { campaign: shown, days: runs[shown]!.days.map((day) => told(day, farms)) },
    storages: storagesOf(runs, shown, farms), cost: costsOf(runs, farms), ...campaignNotes(farms, campaign, runs),
  };
  return { ...planned, whenToStart: yield* whenToStart(farms, campaign, { seed, campaigns: count, days, show: (tried) => ({ ...planned, tried }) }) };
}

function costsOf(runs: readonly CampaignRun[], farms: readonly Farm[]): Campaigns["cost"] {
  const [currency, perDryTonne] = [currencyOf(farms), costPerDryTonne(farms, runs)];
  if (currency === null || perDryTonne === null) return null;
  const costs = runs.map(costOf);
  return { currency, mean: costs.reduce((sum, cost) => sum + cost / costs.length, 0), low: quantile(costs, 0.1), high: quantile(costs, 0.9), perDryTonne };
}

const DAY = 86_400;
/** s after midnight of day 0 at which the last work of a campaign was done. */
function endOf({ days }: CampaignRun): number {
  const last = days.findLast(({ closedAt }) => closedAt !== null);
  return last ? last.day * DAY + last.closedAt! : (days.at(-1)?.day ?? 0) * DAY;
}
const at = (moment: number): string => `${dateOf(Math.floor(moment / DAY))} ${clockOf(moment % DAY)}`;

function told(day: CampaignDay, farms: readonly Farm[]): ToldDay {
  const { scenario } = farms[day.farm]!;
  const sum = (of: "mass" | "dryMass") => day.fields.reduce((total, field) => total + field[of], 0);
  return {
    date: dateOf(day.day), farm: scenario.name, lost: day.rained ? "rain" : null,
    fields: day.fields.map(({ field, mass, dryMass, side }) => ({ name: scenario.fields[field]!.name, freshT: mass / 1000, dryMatter: dryMass / mass, side })),
    loads: day.loads, freshT: sum("mass") / 1000, dryT: sum("dryMass") / 1000, dryMatter: day.fields.length > 0 ? sum("dryMass") / sum("mass") : null,
    density: day.density, closedAt: day.closedAt === null ? null : clockOf(day.closedAt), cost: day.cost, openFor: day.openFor / 3600,
    storages: scenario.storages.map(({ name }, s) => ({ name, filled: day.filled[s] ?? 0, openFace: day.openFace[s] ?? 0 })),
  };
}

function storagesOf(runs: readonly CampaignRun[], shown: number, farms: readonly Farm[]): ToldStorage[] {
  return farms.flatMap(({ scenario }, farm) => scenario.storages.flatMap(({ name }, storage): ToldStorage[] => {
    const all = runs.flatMap((run) => run.storages.filter((each) => each.farm === farm && each.storage === storage));
    const one = runs[shown]!.storages.find((each) => each.farm === farm && each.storage === storage) ?? all[0];
    if (!one) return [];
    const mean = (of: (each: (typeof all)[number]) => number) => all.reduce((sum, each) => sum + of(each) / all.length, 0);
    const density = mean(({ stored }) => stored.dryMass / stored.volume);
    const dryMatter = mean(({ stored }) => stored.dryMass) / mean(({ stored }) => stored.mass);
    return [{
      farm: scenario.name, name, filledOn: [dateOf(one.from), dateOf(one.to)], freshT: mean(({ stored }) => stored.mass) / 1000, dryT: mean(({ stored }) => stored.dryMass) / 1000,
      dryMatter, window: dryMatterWindowOf(scenario.crop.kind).value, density: { mean: density, band: band(density, scenario.crop.kind) },
      poreSpace: density < densestDry(dryMatter) ? poreSpace(density, density / dryMatter, dryMatter) : null, effluent: mean((each) => each.effluent),
    }];
  }));
}
