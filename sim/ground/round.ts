/** A round that was driven: it ends near its beginning, a little before or a little past it. */
import type { Problems } from "../scenario/problems.ts";
import { pathOf } from "../scenario/words.ts";
import type { Path } from "../scenario/words.ts";
import { MAP_LIMITS } from "./limits.ts";
import { lineBetween } from "./plane.ts";
import type { Place } from "./plane.ts";
import type { Told } from "./told.ts";

/** Without what was driven past the beginning; null, and told as a problem, where it does not come back. */
export function drivenRound(path: Path, places: readonly Place[], problems: Problems, told: Told): readonly Place[] | null {
  const first = places[0];
  if (!first || places.length < 3) {
    problems.add(path, `has ${places.length === 1 ? "1 point" : `${places.length} points`}: a round about a field needs three at least`);
    return null;
  }
  const steps = places.map((place, i) => (i === 0 ? 0 : lineBetween(places[i - 1]!, place).length));
  const total = steps.reduce((sum, step) => sum + step, 0);
  const allowed = Math.max(MAP_LIMITS.shortGap, MAP_LIMITS.gap * total);
  // The nearest point to the beginning among the last ones, so far as the gap may reach back.
  let [nearest, gap, back] = [places.length - 1, lineBetween(places.at(-1)!, first).length, 0];
  for (let i = places.length - 1; i > 2 && back <= allowed; i -= 1) {
    const apart = lineBetween(places[i]!, first).length;
    if (apart < gap) [nearest, gap] = [i, apart];
    back += steps[i]!;
  }
  if (gap > allowed) {
    problems.add(path, `ends ${Math.round(gap)} m from where it began: that is no round of a field; up to ${Math.round(allowed)} m would be closed with a straight side`);
    return null;
  }
  const past = places.length - 1 - nearest;
  if (past > 0) told.add(`${pathOf(path)} goes on past its beginning: its last ${past === 1 ? "point is" : `${past} points are`} left out.`);
  return places.slice(0, nearest + 1);
}
