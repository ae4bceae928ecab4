/** What is found by rehearsing the rest of a day again and again: when to stop cutting, and which truck can go home and when. */
import { clockOf } from "../findings/clock.ts";
import { restFacts, type RestFacts } from "../findings/rest.ts";
import { quantile } from "../findings/summary.ts";
import type { RestOfDay } from "../findings/types.ts";
import { EndlessDay, rehearseDay } from "../harvest/day.ts";
import type { DayStart } from "../harvest/start.ts";
import { truckNames } from "../scenario/trucknames.ts";
import type { Scenario } from "../scenario/types.ts";

/** Share of the days on which all must be closed by the end of the shift (assumption of this project). */
export const CERTAINTY = 0.9;
/** s, steps in which a time is looked for (assumptions of this project). */
const STOP_STEP = 300;
const HOME_STEP = 900;
/** s by which no finish may be later without a truck, and kg that may stay standing more (assumptions of this project). */
export const HOME_TOLERANCE = 300;
const MORE_STANDING = 500;
/** Days that each trial is rehearsed on at the most, and trucks that are tried (assumptions of this project). */
const STOP_DAYS = 100;
const HOME_DAYS = 20;
const MOST_TRUCKS = 12;

interface Asked { readonly scenario: Scenario; readonly start: DayStart; readonly seed: number }

function daysOf({ scenario, start, seed }: Asked, count: number): readonly RestFacts[] | null {
  try {
    return Array.from({ length: count }, (_, rehearsal) => restFacts(rehearseDay(scenario, { seed, rehearsal, start })));
  } catch (error) {
    if (error instanceof EndlessDay) return null;
    throw error;
  }
}

/** The last of the steps 0 to `to` for which it holds, when it holds up to one of them and not beyond; null when not even for the first. */
function lastThat(holds: (step: number) => boolean, to: number): number | null {
  if (holds(to)) return to;
  if (!holds(0)) return null;
  let [good, bad] = [0, to];
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/** When cutting must stop so that on 9 of 10 days all is packed and closed by the end of the shift: each time tried is rehearsed. */
export function stopCutting(asked: Asked, days: readonly RestFacts[]): RestOfDay["stopCutting"] {
  const { scenario, start } = asked;
  const { end } = scenario.shift;
  const from = start.at ?? scenario.shift.start;
  const count = Math.min(days.length, STOP_DAYS);
  const enough = (rests: readonly RestFacts[] | null) => rests !== null && rests.filter(({ closed }) => closed <= end).length >= CERTAINTY * rests.length;
  const steps = Math.ceil((end - from) / STOP_STEP);
  const timeOf = (step: number) => Math.min(end, from + step * STOP_STEP);
  const stopping = (step: number) => (step === steps ? days.slice(0, count) : daysOf({ ...asked, scenario: { ...scenario, shift: { ...scenario.shift, end: timeOf(step) } } }, count));
  const last = lastThat((step) => enough(stopping(step)), steps);
  const often = count === 1 ? "" : " on at least 9 of 10 days";
  const how = `${count === 1 ? "One day" : `${count} days`} rehearsed for each time tried, ${STOP_STEP / 60} min apart`;
  if (last === steps) return { at: null, certainty: CERTAINTY, inWords: `No need to stop early: all is packed and closed by ${clockOf(end)}${often}. ${how}.` };
  if (last === null) return { at: clockOf(from), certainty: CERTAINTY, inWords: `It is too late already: even if cutting stops now, not all is packed and closed by ${clockOf(end)}${count === 1 ? "" : " on 9 of 10 days"}. ${how}.` };
  const at = clockOf(timeOf(last));
  return { at, certainty: CERTAINTY, inWords: `Stop cutting at ${at}: then all is packed and closed by ${clockOf(end)}${often}; five minutes later it is not. ${how}.` };
}

/**
 * For each truck, from the last to the first and those before it gone already: the earliest time after which sending it home makes no
 * rehearsed finish later by more than the tolerance and leaves no more crop standing.
 */
export function trucksHome(asked: Asked, days: number): RestOfDay["trucks"] {
  const { scenario, start } = asked;
  const from = start.at ?? scenario.shift.start;
  const whole = Math.min(days, HOME_DAYS);
  const base = daysOf(asked, whole);
  if (!base) return [];
  const names = truckNames(scenario);
  const all = (left: readonly number[]) => left.reduce((sum, kg) => sum + kg, 0);
  const asGood = (rests: readonly RestFacts[] | null) => rests !== null
    && rests.every((rest, i) => rest.closed <= base[i]!.closed + HOME_TOLERANCE && all(rest.left) <= all(base[i]!.left) + MORE_STANDING);
  const gone: DayStart["sentHome"][number][] = [...start.sentHome];
  const found: RestOfDay["trucks"][number][] = [];
  for (let truck = names.length - 1; truck >= Math.max(0, names.length - MOST_TRUCKS); truck--) {
    const name = names[truck]!;
    if (start.away.some((each) => each.kind === "truck" && each.name === name && each.until === null)) continue;
    const machine = scenario.choppers.length + truck;
    const tips = base.map(({ lastTip }) => lastTip[machine]).filter((tip) => typeof tip === "number");
    const latest = tips.length > 0 ? Math.max(...tips) : from;
    const steps = Math.ceil((latest - from) / HOME_STEP);
    const sent = (step: number) => ({ ...asked, start: { ...start, sentHome: [...gone, { name, at: from + step * HOME_STEP }] } });
    // Counted back from the last tip, after which nobody misses it.
    const back = lastThat((backwards) => asGood(daysOf(sent(steps - backwards), whole)), steps);
    if (back === null) continue;
    const at = from + (steps - back) * HOME_STEP;
    gone.push({ name, at });
    const anyway = tips.length > 0 ? quantile(tips, 0.5) : null;
    const when = at <= from ? "can go home now, after the load it has" : `can go home with the load it has at ${clockOf(at)}`;
    const needed = anyway !== null && at >= anyway - HOME_STEP / 2;
    found.push({
      name, from: clockOf(at), lastTip: anyway === null ? null : clockOf(anyway), needed,
      inWords: `${name} ${when}${needed ? ": it is needed to its last load" : ""}. Nothing finishes more than ${HOME_TOLERANCE / 60} min later on ${whole === 1 ? "the day" : `any of ${whole} days`} rehearsed${found.length > 0 ? ", those above gone already" : ""}.`,
    });
  }
  return found;
}
