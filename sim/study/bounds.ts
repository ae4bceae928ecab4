/**
 * What a plan surely cannot do, told by hand before it is rehearsed. The bounds are those of the hand check, which no rehearsed day's mean
 * passes; a margin stands between them and the verdict, for the luck of a day.
 */
import { handBounds } from "../findings/hand.ts";
import { pausedBetween } from "../findings/pauses.ts";
import { THICKEST_LAYER } from "../harvest/blade.ts";
import { behindOf } from "../scenario/behind.ts";
import type { Scenario } from "../scenario/types.ts";
import type { Targets } from "./targets.ts";

/** Share by which a plan must be too slow before it is given up unrehearsed (assumption of this project): four times what the luck of a usual day does to its length. */
const MARGIN = 0.25;

/**
 * Least working time from the first row to the last load laid, s, of a day with mean luck: the whole crop by the slowest station. What each
 * truck does before its first load and after its last is left out, and so is what lies in front of the storage in the evening. Packing
 * counts only where the rule lets no lift be buried before its time; elsewhere a hurried crew spreads thicker, and so faster, than the set layer.
 */
export function leastTime(scenario: Scenario): number {
  const crop = scenario.fields.reduce((sum, field) => sum + field.area * field.yield, 0);
  const { cutting, hauling, weighing, tipping, spreading, packing } = handBounds(scenario);
  const carried = scenario.trucks.reduce((sum, { count, load }) => sum + count * load, 0);
  const load = Math.max(...scenario.trucks.map((kind) => kind.load));
  const held = behindOf(scenario).holds === "always";
  return Math.max(
    crop / cutting, (crop - carried) / hauling, (crop - load) / weighing, (crop - load) / tipping, (crop - load) / (held ? spreading : spreading * Math.max(1, THICKEST_LAYER / scenario.packing.layer)),
    held ? (crop - load) / packing : 0,
  );
}

/** True when the plan is so slow that no luck of a usual day closes the clamp in time. */
export function isHopeless(scenario: Scenario, { finishBy }: Targets): boolean {
  if (finishBy === null) return false;
  const { start, breaks } = scenario.shift;
  return leastTime(scenario) > (finishBy - start - pausedBetween(breaks, start, finishBy)) * (1 + MARGIN);
}
