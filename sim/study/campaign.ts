/** One campaign, day by day: rain or not, the fields left, the crop as dry as it is by then, each day from what the one before left. */
import { farmTotal, harvestLines } from "../findings/money.ts";
import { storedIn, type Stored } from "../findings/stored.ts";
import { dryingOf, dryingSpread, type Drying } from "../forage/drying.ts";
import { effluent } from "../forage/effluent.ts";
import { capacityOf, wedgeSurface } from "../forage/geometry/index.ts";
import { windowSide, type WindowSide } from "../forage/window.ts";
import type { Day } from "../harvest/daylog.ts";
import { Luck } from "../harvest/luck.ts";
import { factorOf, Streams } from "../kernel/index.ts";
import { LIMITS } from "../scenario/limits.ts";
import type { Campaign, Scenario } from "../scenario/types.ts";
import { dayFrom, stateAfter, type FarmOnADay, type FarmState } from "./campaignday.ts";
import { isDeterministic } from "./rehearsal.ts";

/** A farm of the campaign. Choppers and trucks are the first farm's everywhere. */
export interface Farm {
  readonly scenario: Scenario;
  readonly drying: Drying;
  /** share a second, before its luck */ readonly perSecond: number;
  /** day on which its dry matter was true */ readonly measured: number;
}

export interface FieldOnADay { readonly field: number; readonly mass: number; readonly dryMass: number; readonly side: WindowSide }

/** One day of the calendar. Masses kg, times s after midnight. */
export interface CampaignDay {
  readonly day: number;
  /** index of the farm */ readonly farm: number;
  readonly rained: boolean;
  readonly fields: readonly FieldOnADay[];
  readonly loads: number;
  readonly closedAt: number | null;
  /** what the farm spends on the work of that day */ readonly cost: number;
  /** kg DM/m3 of what was laid that day */ readonly density: number | null;
  /** share of its room that each storage of the farm is filled to */ readonly filled: readonly number[];
  /** m2 of open wedge that wait for more, by storage, and s until work goes on; 0 when nothing more is to come */ readonly openFace: readonly number[];
  openFor: number;
}

/** What lies in a storage in the end. */
export interface CampaignStorage {
  readonly farm: number;
  readonly storage: number;
  /** first and last day of filling */ readonly from: number;
  readonly to: number;
  readonly stored: Stored;
  /** L */ readonly effluent: number;
}

export interface CampaignRun {
  readonly days: readonly CampaignDay[];
  readonly storages: readonly CampaignStorage[];
  /** kg of dry matter cut, by side of the window */ readonly dry: Readonly<Record<WindowSide, number>>;
  /** share of each farm's fields that still stands */ readonly left: readonly (readonly number[])[];
  readonly allIn: boolean;
  /** all is in, and the last of it, as everything before, is not too dry, and the last not too wet */ readonly endsInside: boolean;
}

/** Dry matter cut in a campaign, kg. */
export const dryCut = ({ dry }: CampaignRun): number => dry["too wet"] + dry.inside + dry["too dry"];

/** The farms in their order, with the first one's choppers and trucks. @throws RangeError when the first has no campaign */
export function farmsOf(scenarios: readonly Scenario[]): { readonly farms: readonly Farm[]; readonly campaign: Campaign } {
  const [first] = scenarios;
  if (!first?.campaign) throw new RangeError(`${first ? `"${first.name}"` : "The first scenario"} says nothing of a campaign: its first day at least must be there, such as campaign: {starts: 2026-09-14}.`);
  const { campaign, choppers, trucks } = first;
  const farms = scenarios.map((scenario, i): Farm => {
    const drying = dryingOf(scenario.crop.kind);
    const fleet = i === 0 ? scenario : { ...scenario, choppers, trucks, fields: scenario.fields.map((field) => ({ ...field, chopper: null })) };
    return { scenario: fleet, drying, perSecond: scenario.campaign?.drying ?? drying.perSecond, measured: scenario.campaign?.measured ?? campaign.measured };
  });
  const late = farms.find(({ measured }) => measured > campaign.starts);
  if (late) throw new RangeError(`The dry matter of "${late.scenario.name}" was measured after the first day of cutting: that day or one before it would do.`);
  const short = farms.find(({ scenario }) => (campaign.dew ?? 0) >= scenario.shift.end);
  if (short) throw new RangeError(`The shift of "${short.scenario.name}" is over before the dew is off: a later end, or an earlier dew, would do.`);
  return { farms, campaign };
}

/** Rehearsal numbers set apart for one campaign: a day of the calendar has the same luck whenever the campaign starts. */
const DAYS_APART = 2 * (LIMITS.campaignWait + LIMITS.campaignDays);

/** When it starts otherwise than planned. */
export interface Beginning { /** day of the calendar */ readonly starts?: number; /** s later each morning */ readonly later?: number }

/** Goes through one campaign. @throws EndlessDay in the user's words */
export function campaignRun(farms: readonly Farm[], campaign: Campaign, { seed, number }: { readonly seed: number; readonly number: number }, beginning: Beginning = {}): CampaignRun {
  const streams = new Streams(seed, number);
  const starts = beginning.starts ?? campaign.starts;
  const { rain } = campaign;
  // Fresh streams: asked twice for a day, it answers the same.
  const rains = (day: number) => (typeof rain === "number" ? new Streams(seed, number).stream(`rain/${day}`)() < rain : rain.includes(day));
  const fields = farms.map(({ scenario }, i) => {
    const luck = new Luck(scenario.variation, streams);
    return scenario.fields.map((_, f) => luck.at("yield", `farm ${i}, field ${f}`)());
  });
  const pace = farms.map(({ scenario, drying, perSecond }) => perSecond * (isDeterministic(scenario) ? 1 : factorOf(dryingSpread(drying.rate))(streams.stream(`drying/${scenario.crop.kind}`)())));
  const states: FarmState[] = farms.map(({ scenario }) => ({ left: scenario.fields.map(() => 1), storages: scenario.storages.map(() => ({ lifts: [], apron: [] })) }));

  const days: CampaignDay[] = [];
  const storages = new Map<string, CampaignStorage>();
  let farm = 0;
  let day = starts;
  while (farm < farms.length && day < starts + campaign.days) {
    const { scenario, drying, measured } = farms[farm]!;
    const mownFrom = Math.max(scenario.shift.start, campaign.dew ?? 0);
    const begin = mownFrom + (beginning.later ?? 0);
    const before = states[farm]!;
    if (rains(day)) {
      days.push({ ...nothing(day, farm), rained: true, filled: days.findLast((each) => each.farm === farm)?.filled ?? scenario.storages.map(() => 0) });
      day++;
      continue;
    }
    const on: FarmOnADay = { scenario, yields: fields[farm]!, begin, mownFrom, drying: pace[farm]!, since: drying.way === "mown" ? null : (day - measured) * 86_400 };
    const { plan, day: went } = dayFrom(on, before, { seed, rehearsal: number * DAYS_APART + day - campaign.measured });
    if (went.trips.every((trip) => trip.mass === 0)) {
      // No storage has room, or the shift is too short: nothing more comes of this farm, and the day is free for the next.
      farm++;
      continue;
    }
    const waits = days.findLast((each) => !each.rained);
    if (waits?.openFace.some((area) => area > 0)) waits.openFor = (day - waits.day) * 86_400 + begin - waits.closedAt!;
    const after = stateAfter(before, plan, went);
    states[farm] = after;
    const isBare = after.left.every((share) => share === 0);
    const lying = plan.storages.map((_, s) => storedIn(went, plan, s));
    lying.forEach((stored, s) => {
      if (!went.lifts.some((lift) => lift.storage === s && lift.trip >= 0)) return;
      const known = storages.get(`${farm} ${s}`);
      const juice = went.trips.reduce((sum, trip) => sum + (trip.storage === s ? (trip.mass / 1000) * effluent(trip.dryMass / trip.mass) : 0), 0);
      storages.set(`${farm} ${s}`, { farm, storage: s, from: known?.from ?? day, to: day, stored, effluent: (known?.effluent ?? 0) + juice });
    });
    days.push(dayOf(day, farm, plan, went, lying, (s) => !isBare && after.left.some((share, f) => share > 0 && plan.fields[f]!.storages.includes(s))));
    if (isBare) farm++;
    day++;
  }

  const dry: Record<WindowSide, number> = { "too wet": 0, inside: 0, "too dry": 0 };
  for (const each of days) for (const { side, dryMass } of each.fields) dry[side] += dryMass;
  const allIn = states.every(({ left }) => left.every((share) => share === 0));
  const lastCut = days.findLast((each) => each.fields.length > 0);
  return {
    days, storages: [...storages.values()], dry, left: states.map(({ left }) => left), allIn,
    endsInside: allIn && dry["too dry"] === 0 && lastCut!.fields.every(({ side }) => side === "inside"),
  };
}

const nothing = (day: number, farm: number) => ({ day, farm, rained: false, fields: [], loads: 0, closedAt: null, cost: 0, density: null, openFace: [], openFor: 0 });

function dayOf(day: number, farm: number, plan: Scenario, went: Day, lying: readonly Stored[], waits: (storage: number) => boolean): CampaignDay {
  const fields = plan.fields.flatMap((field, f): FieldOnADay[] => {
    const trips = went.trips.filter((trip) => trip.field === f);
    const sum = (of: "mass" | "dryMass") => trips.reduce((total, trip) => total + trip[of], 0);
    return trips.length === 0 ? [] : [{ field: f, mass: sum("mass"), dryMass: sum("dryMass"), side: windowSide(field.dryMatter, plan.crop.kind) }];
  });
  let [dry, volume] = [0, 0];
  for (const { lifts, densities } of lying) {
    lifts.forEach((lift, i) => {
      if (lift.trip < 0) return;
      dry += lift.dryMass;
      volume += lift.dryMass / densities[i]!;
    });
  }
  return {
    ...nothing(day, farm), fields, loads: went.trips.length, cost: farmTotal(harvestLines(plan, went)), density: volume > 0 ? dry / volume : null,
    closedAt: Math.max(...went.lifts.map((lift) => (lift.trip < 0 ? went.from : lift.closed))),
    filled: lying.map((stored, s) => stored.volume / capacityOf(plan.storages[s]!)),
    openFace: lying.map((stored, s) => (stored.lifts.length > 0 && waits(s) ? wedgeSurface(plan.storages[s]!, stored.volume).area : 0)),
  };
}
