/** A rehearsed day as the drawings need it: everything that can be reckoned once, when the log comes in. */
import { packingDebt, readDebt, type DebtPoint, type DebtStory } from "../sim/findings/debt.ts";
import { readLog } from "../sim/harvest/log.ts";
import { cycleAtTarget, usualLoad } from "../sim/harvest/pace.ts";
import { replayOf, type Replay } from "../sim/harvest/replay.ts";
import type { Scenario } from "../sim/scenario/types.ts";
import { curvesOf, heightAt, type Curves } from "./curves.ts";
import { clampStory, type ClampStory } from "./lifts.ts";

export interface Debt {
  readonly points: readonly DebtPoint[];
  readonly story: DebtStory;
  /** s, what one usual load owes */ readonly oneLoad: number;
}

export interface Rehearsed {
  readonly scenario: Scenario;
  readonly replay: Replay;
  readonly curves: Curves;
  readonly clamps: readonly ClampStory[];
  /** by storage */ readonly debts: readonly Debt[];
  /** s after midnight: the moment that tells most */ readonly telling: number;
}

/** @throws SyntaxError when the text is not a day log */
export function readRehearsed(text: string): Rehearsed {
  const { header: { plan: scenario }, day } = readLog(text);
  const curves = curvesOf(day, null);
  const debts = scenario.storages.map((storage, s): Debt => {
    const points = packingDebt(day, scenario, s);
    const depth = day.plannedDepth[s]!;
    const lastClosed = Math.max(day.from, ...day.lifts.map((lift) => (lift.storage === s ? lift.closed : day.from)));
    return { points, story: readDebt(points, scenario, s, depth, lastClosed), oneLoad: cycleAtTarget(scenario, storage, usualLoad(scenario, s), depth) };
  });
  return {
    scenario, replay: replayOf(day, scenario.shift.breaks), curves, debts,
    clamps: scenario.storages.map((_, s) => clampStory(day, scenario, s)),
    telling: tellingMoment(curves),
  };
}

/** The fullest apron between the first half of the crop and the first four fifths of it: trucks are under way, and there is a clamp to see. */
function tellingMoment({ tipped, packed }: Curves): number {
  const whole = tipped.at(-1)!.mass;
  const then = tipped.filter(({ mass }) => mass >= whole * 0.5 && mass <= whole * 0.8);
  const gap = (time: number) => heightAt(tipped, time) - heightAt(packed, time);
  return then.reduce((best, point) => (gap(point.time) > gap(best.time) + 1 ? point : best), then[0] ?? tipped[0]!).time;
}
