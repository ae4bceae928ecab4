/** One day of a campaign: the plan as it stands on that day, with the crop as dry as it is by then, and what the day leaves for the next. */
import { dried } from "../forage/drying.ts";
import { depthTerm } from "../forage/packing.ts";
import { storedIn } from "../findings/stored.ts";
import { rehearseDay } from "../harvest/day.ts";
import type { Day } from "../harvest/daylog.ts";
import { MORNING, type DayStart, type PastLift, type StorageStart } from "../harvest/start.ts";
import type { Scenario } from "../scenario/types.ts";

/** A farm as the campaign left it so far. */
export interface FarmState {
  /** share of the crop that stands, by field */ readonly left: readonly number[];
  readonly storages: readonly StorageStart[];
}

/** What one farm's crop and day hang on. */
export interface FarmOnADay {
  readonly scenario: Scenario;
  /** factor of the yield, by field, the same all campaign long */ readonly yields: readonly number[];
  /** s after midnight at which work may begin */ readonly begin: number;
  /** share a second */ readonly drying: number;
  /** s that a standing crop has dried since its dry matter was measured; null for a mown one, which dries from `mownFrom` on */ readonly since: number | null;
  /** s after midnight at which a mown crop is as dry as the file says */ readonly mownFrom: number;
}

/** The plan with each field at a dry matter: its dry mass stays what it was, so what is to be cut, hauled and pushed gets lighter as it dries. */
function planAt({ scenario, yields, begin }: FarmOnADay, dryMatters: readonly number[], cropDryMatter: number): Scenario {
  const { shift, crop } = scenario;
  const looseDensity = (crop.looseDensity * crop.dryMatter) / cropDryMatter;
  return {
    ...scenario,
    // Dry matter weighs as much loose, wet or dry, see forage/load: a truck filled to the brim carries less of a drier crop.
    crop: { ...crop, dryMatter: cropDryMatter, looseDensity },
    fields: scenario.fields.map((field, f) => ({ ...field, dryMatter: dryMatters[f]!, yield: (field.yield * yields[f]! * field.dryMatter) / dryMatters[f]! })),
    trucks: scenario.trucks.map((kind) => (kind.volume === null ? kind : { ...kind, load: Math.min(kind.load, kind.volume * looseDensity) })),
    shift: { ...shift, start: begin, breaks: shift.breaks.filter(({ at }) => at >= begin) },
    // The yield's luck is drawn once a campaign, not every morning.
    variation: { ...scenario.variation, yield: null },
  };
}

/** s by which the time at which a field is cut must be known, and how often it is looked for (assumptions of this project). */
const NEAR = 300;
const TRIES = 6;

/** Rehearses a day from what the one before left. A mown crop dries while the day goes on: each field has the dry matter of the middle of its cutting, found by trying. */
export function dayFrom(farm: FarmOnADay, state: FarmState, luck: { readonly seed: number; readonly rehearsal: number }): { readonly plan: Scenario; readonly day: Day } {
  const { scenario, drying, since, begin, mownFrom } = farm;
  const start = startOf(state);
  const rehearsed = (times: readonly number[]) => {
    const plan = planAt(farm, scenario.fields.map((field, f) => dried(field.dryMatter, drying, times[f]!)), dried(scenario.crop.dryMatter, drying, since ?? begin - mownFrom));
    return { plan, day: rehearseDay(plan, { ...luck, ...(start && { start }) }) };
  };
  if (since !== null) return rehearsed(scenario.fields.map(() => since));
  let times: readonly number[] = scenario.fields.map(() => begin - mownFrom);
  let found = rehearsed(times);
  for (let tried = 1; tried < TRIES; tried++) {
    const middles = middlesOf(found.day, times, mownFrom);
    const near = middles.every((time, f) => Math.abs(time - times[f]!) <= NEAR);
    if (near) break;
    times = middles;
    found = rehearsed(times);
  }
  return found;
}

/** s from `from` to the middle of each field's cutting, by mass; what it was before for a field that is not cut. */
function middlesOf(day: Day, before: readonly number[], from: number): number[] {
  const sums = before.map(() => ({ mass: 0, moment: 0 }));
  for (const { field, mass, fillFrom, filled } of day.trips) {
    sums[field]!.mass += mass;
    sums[field]!.moment += mass * ((fillFrom + filled) / 2 - from);
  }
  return sums.map(({ mass, moment }, f) => (mass > 0 ? moment / mass : before[f]!));
}

function startOf({ left, storages }: FarmState): DayStart | null {
  if (left.every((share) => share === 1) && storages.every(({ lifts }) => lifts.length === 0)) return null;
  // Only what stands counts; anything taken at all says that the field was opened already.
  return { ...MORNING, fields: left.map((share) => ({ taken: share < 1 ? 1 : 0, left: share })), storages };
}

/** What the next morning finds. Everything cut is laid by the evening, so nothing is on the road or the apron. */
export function stateAfter({ left, storages }: FarmState, plan: Scenario, day: Day): FarmState {
  return {
    left: left.map((share, f) => Math.min(share, day.uncut[f]! / (plan.fields[f]!.area * plan.fields[f]!.yield))),
    // Who rolls a storage to which nothing came that day rolls for nobody.
    storages: storages.map((before, s) => (day.lifts.some((lift) => lift.storage === s && lift.trip >= 0) ? { lifts: laidIn(plan, day, s), apron: [] } : before)),
  };
}

function laidIn(plan: Scenario, day: Day, storage: number): PastLift[] {
  const { lifts, densities, depth } = storedIn(day, plan, storage);
  const toPlanned = depthTerm(day.plannedDepth[storage]!) / depthTerm(depth);
  return lifts.map(({ mass, dryMass, layer }, i) => ({ mass, dryMass, layer, density: densities[i]! * toPlanned }));
}
