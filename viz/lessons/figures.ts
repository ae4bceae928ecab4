/** The figures that a lesson holds side by side: what each says, its range, and what that range means. */
import type { MeasureName } from "../../sim/findings/types.ts";
import { MEASURE_WORDS, measureNumber, measureUnit } from "../../sim/findings/words.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { inEnglish } from "../english.ts";
import { number, printed, quantity, unitName, type UnitSystem } from "../quantity.ts";
import { measureIn } from "../sentences.ts";
import { lessonSheet } from "../words/lessons.ts";
import { rolledHours, type Outcome } from "./lesson.ts";

export type FigureName = MeasureName | "rolled" | "chance" | "daysOfFeed" | "spends" | "fed";

export interface Figure {
  readonly value: number;
  readonly range: readonly [low: number, high: number] | null;
}

export interface FigureRow {
  readonly label: string;
  readonly unit: string;
  readonly figures: readonly Figure[];
  /** what the ranges mean; empty where there are none */ readonly means: string;
  /** a line across the bars, and its words */ readonly target: { readonly value: number; readonly said: string } | null;
  /** what a whole bar stands for, where that is known */ readonly whole?: number;
  say(value: number): string;
}

/** One row for each figure of a lesson, all plans in it. */
export function figureRow(name: FigureName, told: readonly Outcome[], system: UnitSystem): FigureRow {
  const { figuresOwn: own, see: { ranges } } = lessonSheet;
  const span = (of: (outcome: Outcome) => { readonly low: number; readonly central: number; readonly high: number }): Figure[] =>
    told.map((outcome) => ({ value: of(outcome).central, range: [of(outcome).low, of(outcome).high] }));
  switch (name) {
    case "rolled":
      return { label: own.rolled, unit: "h", means: "", target: null, say: (value) => formatNumber(value, 1), figures: told.map((outcome) => ({ value: rolledHours(outcome), range: null })) };
    case "chance":
      return {
        label: own.chance, unit: "%", means: "", target: null, whole: 1, say: (value) => formatNumber(value * 100, 0),
        figures: told.map(({ findings }) => ({ value: findings.storages[0]!.dryDensity.chanceOfTarget, range: null })),
      };
    case "fed":
      return {
        label: own.fed, unit: unitName("mass", system), means: ranges.ledger, target: null, say: (value) => number(value * 1000, "mass", system),
        figures: span(({ findings }) => findings.ledger.fedT),
      };
    case "daysOfFeed": {
      const none = { low: NaN, central: NaN, high: NaN };
      return { label: own.daysOfFeed, unit: lessonSheet.days, means: ranges.ledger, target: null, say: (value) => formatNumber(value, 0), figures: span(({ findings }) => findings.storages[0]?.feedOut?.daysOfFeed ?? none) };
    }
    case "spends":
      return { label: own.spends, unit: told[0]!.findings.money.currency, means: "", target: null, say: (value) => formatNumber(value, 0), figures: told.map(({ findings }) => ({ value: findings.money.total, range: null })) };
    default: return measureRow(name, told, system);
  }
}

function measureRow(name: MeasureName, told: readonly Outcome[], system: UnitSystem): FigureRow {
  const { ranges, target: toTarget } = lessonSheet.see;
  const { targets } = told[0]!.scenario;
  const figures = told.map(({ findings }): Figure => {
    const measure = findings.measures[name];
    return { value: measure?.mean ?? NaN, range: measure && findings.rehearsals > 1 ? [measure.p10, measure.p90] : null };
  });
  const label = inEnglish(MEASURE_WORDS[name].label);
  const row = { label, figures, means: figures.some(({ range }) => range) ? ranges.days : "", target: null };
  if (name === "costPerTonne" || name === "costPerTonneFed") {
    const { unit, factor } = measureIn(system, "per t");
    return { ...row, unit: `${told[0]!.findings.money.currency} ${unit}`, say: (value) => formatNumber(value * factor, name === "costPerTonne" ? 2 : 0) };
  }
  if (name === "dryDensity") {
    return {
      ...row, unit: unitName("density", system), say: (value) => number(value, "density", system),
      target: { value: targets.dryDensity, said: toTarget(quantity(targets.dryDensity, "density", system)) },
    };
  }
  const say = (value: number) => measureNumber(name, value, system);
  const target = name === "poreSpace" ? { value: targets.poreSpace, said: toTarget(`${say(targets.poreSpace)} %`) } : null;
  return { ...row, unit: printed(measureUnit(name, system)), say, target };
}
