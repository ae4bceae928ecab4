/**
 * What a lesson is: the plans it rehearses, how the truth is read from what the engine says, and how that is explained. All of it is data
 * and pure functions; one component (`Walk`) walks a room through any of them.
 */
import type { Findings, MeasureName } from "../../sim/findings/types.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import type { Document } from "../document.ts";
import type { DimensionName, UnitSystem } from "../quantity.ts";
import type { LessonId } from "../words/lessons.ts";
import type { FigureName } from "./figures.ts";
import type { Say } from "./say.ts";

/** What the engine said of one plan of a lesson. */
export interface Outcome {
  readonly findings: Findings;
  readonly scenario: Scenario;
}

/** The drawings that a lesson may show side by side. */
export type DrawingName = "strips" | "clamps" | "bands" | "ledgers" | "holds";

/** A slider of a lesson's last step. */
export interface Knob {
  /** names it in the lesson's words */ readonly id: string;
  /** null: a plain number with the unit of `unit` */ readonly dimension: DimensionName | null;
  readonly unit?: string;
  /** least, most and step, in the reader's unit */ readonly range: Readonly<Record<UnitSystem, readonly [number, number, number]>>;
  /** plans it turns: all of them, or the last one only, held against the others as they were */ readonly turns: "all" | "last";
  /** SI, or the plain number, as the plan has it */ read(plan: Document): number | null;
  /** the plan with this value, written as a document says it (`22 t`), or the plain number */ write(plan: Document, value: string): Document;
}

export interface Lesson {
  readonly id: LessonId;
  /** id of a worked example, or a small plan of the lesson's own */ readonly base: string | Document;
  /** what makes each plan out of the base, in the order of the lesson's words */ readonly plans: readonly ((base: Document) => Document)[];
  /** the choice that came true, a key of the lesson's words; or the number, of 100, where the room guesses one */
  truth(told: readonly Outcome[]): string | number;
  readonly figures: readonly FigureName[];
  readonly drawings: readonly DrawingName[];
  /** Sentences out of what came out, whatever that was: they stay true when a participant has turned a plan. */
  explain(told: readonly Outcome[], say: Say): string[];
  readonly knobs: readonly Knob[];
  /** measures whose sources the handout prints */ readonly sources: readonly MeasureName[];
  /** the relation's scatter, or the line for loose packing, stands among the sources */ readonly further?: readonly ("scatter" | "losses")[];
}

/** Which luck the lessons are rehearsed on: the same for every plan and for every room. */
export const LUCK = 1;

/** Differences under one part in a hundred are called none. */
export const SAME = 0.01;

export const asItIs = (base: Document): Document => base;

/** A mean over the days rehearsed; NaN where the day gives none. */
export const meanOf = ({ findings }: Outcome, name: MeasureName): number => findings.measures[name]?.mean ?? NaN;

/** By how much of itself a figure has grown. */
export const gainOf = (name: MeasureName, before: Outcome, now: Outcome): number => meanOf(now, name) / meanOf(before, name) - 1;

/** h that all tractors together rolled. */
export const rolledHours = ({ findings }: Outcome): number =>
  findings.machines.reduce((sum, { kind, hours }) => sum + (kind === "blade" || kind === "roller" ? hours.rolling ?? 0 : 0), 0);

/** The word of caution that goes with two densities which the relation's own scatter would hide; nothing where it would not. */
export function scatterNote(a: Outcome, b: Outcome, say: Say): string[] {
  const band = a.findings.storages[0]?.dryDensity.band;
  if (!band || !(meanOf(b, "dryDensity") > band[0] && meanOf(b, "dryDensity") < band[1])) return [];
  return [say.scatter(say.range(say.density(band[0]), say.density(band[1])))];
}
