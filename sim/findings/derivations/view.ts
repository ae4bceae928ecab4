/** What a derivation is written from, and the forms most of them share. */
import type { Scenario } from "../../scenario/types.ts";
import type { DayFacts } from "../facts.ts";
import { meanOver } from "../figure.ts";
import type { Derivation, Measure, MeasureName } from "../types.ts";

/** The days of a study, seen through their means. */
export interface View {
  readonly scenario: Scenario;
  readonly days: readonly DayFacts[];
  /** mean of a measure over the days, NaN when it is absent */ readonly mean: (name: MeasureName) => number;
  /** mean of any figure of a day */ readonly over: (of: (day: DayFacts) => number) => number;
  /** storages that anything was laid in, by index; the only one even when it stayed empty */ readonly used: readonly number[];
}

/** Writes one derivation. */
export type Derive = (view: View) => Derivation;

export function viewOf(scenario: Scenario, days: readonly DayFacts[], measures: Partial<Record<MeasureName, Measure>>): View {
  const all = scenario.storages.map((_, s) => s);
  return {
    scenario, days,
    mean: (name) => measures[name]?.mean ?? NaN,
    over: (of) => meanOver(days, of),
    used: all.length === 1 ? all : all.filter((s) => days.some((day) => day.storages[s]!.mass > 0)),
  };
}

/** A count or an average of what happened in the simulation: no relation stands behind it but the day itself. */
export const simulated = (formula: string, inputs: Derivation["inputs"]): Derivation => ({
  formula: `simulated: ${formula}`, inputs, source: "this rehearsal", mark: "simulated", range: null, outside: false,
});

/** Names an input after its storage where there are several. */
export const atStorage = ({ scenario, used }: View, s: number, what: string): string =>
  (used.length > 1 ? `${what}, ${scenario.storages[s]!.name}` : what);
