/** When to start a campaign so that it ends while the crop is still fit: each start is rehearsed, on the same luck. */
import { clockOf } from "../findings/clock.ts";
import { percent } from "../findings/figure.ts";
import { dateOf } from "../scenario/dates.ts";
import { LIMITS } from "../scenario/limits.ts";
import type { Campaign } from "../scenario/types.ts";
import { campaignRun, dryCut, type Beginning, type CampaignRun, type Farm } from "./campaign.ts";
import { CERTAINTY } from "./rest.ts";
import type { Study } from "./work.ts";

/** Campaigns that each start is tried on, at the most, and s between starts of a day that are tried (assumptions of this project). */
const TRIAL_CAMPAIGNS = 30;
const HOUR = 3600;
/** Starts that are usually tried until more of the crop is too dry than not, for telling how much there is to do. */
const USUAL_STARTS = 12;

/** Campaigns that a study of so many goes through in all, roughly. */
export const campaignsOf = (campaigns: number): number => campaigns + USUAL_STARTS * Math.min(campaigns, TRIAL_CAMPAIGNS);

export interface TriedStart {
  /** a day, `2026-09-14`, or for a mown crop a time of day, `11:00` */ readonly starts: string;
  /** mean share of the dry matter cut, by side of the window */ readonly inside: number;
  readonly tooWet: number;
  readonly tooDry: number;
  /** share of the campaigns that bring everything in, the last of it inside the window and nothing too dry */ readonly endsInside: number;
  readonly allIn: number;
  /** mean of what the work of all days costs the farms a tonne of dry matter cut; null where they reckon in several currencies */ readonly costPerDryTonne: number | null;
}

export interface WhenToStart {
  /** what was tried: days for a standing crop, times of day for a mown one */ readonly by: "day" | "time of day";
  /** with the most of the whole crop's dry matter cut inside the window, what is left standing counted in; of equals the first */ readonly best: TriedStart;
  /** the last from which the harvest ends inside the window on 9 of 10 campaigns; null when there is none */ readonly latest: TriedStart | null;
  readonly tried: readonly TriedStart[];
  readonly inWords: string;
}

/** Share of something over all campaigns. */
export const shareOf = (runs: readonly CampaignRun[], holds: (run: CampaignRun) => boolean): number => runs.filter(holds).length / runs.length;

/** Mean shares of the dry matter cut, by side of the window. */
export function sidesOf(runs: readonly CampaignRun[]): { readonly inside: number; readonly tooWet: number; readonly tooDry: number } {
  const mean = (side: keyof CampaignRun["dry"]) => runs.reduce((sum, run) => sum + (run.dry[side] / (dryCut(run) || 1)) / runs.length, 0);
  return { inside: mean("inside"), tooWet: mean("too wet"), tooDry: mean("too dry") };
}

/** Mean share of the whole crop that is cut inside the window: a start may leave so much standing that hardly any of what it cuts is outside. */
function ofCrop(farms: readonly Farm[], runs: readonly CampaignRun[]): number {
  const dryOf = (shares: (farm: number, field: number) => number) => farms.reduce((sum, { scenario: { fields } }, farm) =>
    sum + fields.reduce((dry, { area, yield: mass, dryMatter }, field) => dry + area * mass * dryMatter * shares(farm, field), 0), 0);
  const whole = dryOf(() => 1);
  return runs.reduce((sum, run) => sum + ((run.dry.inside / (dryCut(run) || 1)) * (1 - dryOf((farm, field) => run.left[farm]![field]!) / whole)) / runs.length, 0);
}

/** What the work of all days of a campaign costs the farms. */
export const costOf = ({ days }: CampaignRun): number => days.reduce((sum, { cost }) => sum + cost, 0);

/** The currency of all farms; null where there are several. */
export function currencyOf(farms: readonly Farm[]): string | null {
  const [first, ...others] = new Set(farms.map(({ scenario }) => scenario.money.currency));
  return others.length === 0 ? first! : null;
}

/** Cost of a tonne of dry matter cut, over all campaigns. */
export function costPerDryTonne(farms: readonly Farm[], runs: readonly CampaignRun[]): number | null {
  const tonnes = runs.reduce((sum, run) => sum + dryCut(run), 0) / 1000;
  return currencyOf(farms) === null || tonnes === 0 ? null : runs.reduce((sum, run) => sum + costOf(run), 0) / tonnes;
}

/** Beginnings that could be: every day from the measuring on, or every full hour of the shift. */
function* beginnings(farms: readonly Farm[], campaign: Campaign): Generator<Beginning & { readonly called: string }> {
  if (farms[0]!.drying.way === "standing") {
    const from = Math.max(...farms.map(({ measured }) => measured));
    for (let starts = from; starts <= from + LIMITS.campaignWait; starts++) yield { starts, called: dateOf(starts) };
    return;
  }
  const from = farms.map(({ scenario }) => Math.max(scenario.shift.start, campaign.dew ?? 0));
  const longest = Math.min(...farms.map(({ scenario }, i) => scenario.shift.end - from[i]!));
  for (let later = 0; later < longest; later += HOUR) yield { later, called: clockOf(from[0]! + later) };
}

/** Tries every start until more of the crop is too dry than not, on more campaigns than not. @throws EndlessDay in the user's words */
export function* whenToStart<SoFar>(farms: readonly Farm[], campaign: Campaign, { seed, campaigns, days: before, show }: {
  readonly seed: number;
  readonly campaigns: number;
  /** of the campaigns as planned */ readonly days: number;
  /** what can be shown already */ readonly show: (tried: readonly TriedStart[]) => SoFar;
}): Study<WhenToStart, SoFar> {
  const count = Math.min(campaigns, TRIAL_CAMPAIGNS);
  const tried: TriedStart[] = [];
  const shares: number[] = [];
  let soFar = show(tried);
  let days = before;
  for (const beginning of beginnings(farms, campaign)) {
    const runs: CampaignRun[] = [];
    for (let number = 0; number < count; number++) {
      const run = campaignRun(farms, campaign, { seed, number }, beginning);
      runs.push(run);
      days += run.days.length;
      const gone = campaigns + tried.length * count + runs.length;
      yield { batches: [], worked: run.days.length, expected: Math.round((days / gone) * Math.max(gone, campaignsOf(campaigns))), soFar };
    }
    const start = { starts: beginning.called, ...sidesOf(runs), endsInside: shareOf(runs, (run) => run.endsInside), allIn: shareOf(runs, (run) => run.allIn), costPerDryTonne: costPerDryTonne(farms, runs) };
    tried.push(start);
    shares.push(ofCrop(farms, runs));
    soFar = show([...tried]);
    if (start.endsInside < 0.5 && start.tooDry > 0.5) break;
  }
  const by = farms[0]!.drying.way === "standing" ? "day" : "time of day";
  const best = tried[shares.indexOf(Math.max(...shares))]!;
  const latest = tried.findLast(({ endsInside }) => endsInside >= CERTAINTY) ?? null;
  return { by, best, latest, tried, inWords: `${said(by, best, latest, tried)} ${count === 1 ? "One campaign" : `${count} campaigns`} rehearsed for each ${by}.` };
}

function said(by: WhenToStart["by"], best: TriedStart, latest: TriedStart | null, tried: readonly TriedStart[]): string {
  if (best.inside === 0) {
    const [first, last] = [tried[0]!, tried.at(-1)!];
    if (first.tooDry > 0.5) return `The window is past already: even from ${first.starts} on, ${percent(first.tooDry)} of the dry matter is cut too dry.`;
    return `From no start is anything cut inside the window: from ${first.starts} on it is too wet, ${last.tooDry === 0 ? `and so it is still on the last one tried, ${last.starts}.`
      : `and on the last one tried, ${last.starts}, ${percent(last.tooDry)} is too dry.`}`;
  }
  const most = `Start ${by === "day" ? "on" : "at"} ${best.starts}: then ${percent(best.inside)} of the dry matter is cut inside the window${tried.every(({ inside }) => inside <= best.inside) ? ", the most of any start" : "; of the whole crop that is the most of any start"}.`;
  if (latest) return `${most} Latest start: ${latest.starts}; from then the harvest still ends inside the window on at least 9 of 10 campaigns.`;
  const nearest = tried.reduce((most, start) => (start.endsInside > most.endsInside ? start : most));
  if (nearest.endsInside === 0) return `${most} From no start does the harvest end inside the window, on any campaign.`;
  return `${most} From no start does the harvest end inside the window on 9 of 10 campaigns; the nearest is ${nearest.starts} with ${percent(nearest.endsInside)}.`;
}
