/** What a day should reach, and whether it did. The luck of the day only: what the published relation leaves open stands beside it. */
import type { DayFacts } from "../findings/facts.ts";
import { AT_TARGET } from "../findings/stored.ts";
import { densityForChance } from "../forage/scatter.ts";
import type { Scenario } from "../scenario/types.ts";
import { LEFT_STANDING } from "./figures.ts";

/** `crop`: everything is brought in. */
export const TARGETS = ["crop", "density", "poreSpace", "finish", "waiting", "relation"] as const;
export type TargetName = (typeof TARGETS)[number];

/** What is asked for; null where it is not. */
export interface Targets {
  /** kg DM/m3 that every storage must come to on the day */ readonly dryDensity: number | null;
  /** share that every storage must stay under */ readonly poreSpace: number | null;
  /** s after midnight by which the clamp is closed */ readonly finishBy: number | null;
  /** share of its field time that the chopper may stand */ readonly waiting: number | null;
  /** chance that the published relation must give the target at the day's density */ readonly relation: number | null;
}

/** The targets of a scenario that says no more: its density and pore space, and the clamp closed by the end of the shift. */
export const plainTargets = ({ targets, shift }: Scenario): Targets =>
  ({ dryDensity: targets.dryDensity, poreSpace: targets.poreSpace, finishBy: shift.end, waiting: null, relation: null });

/** The targets of a scenario's search: its density, the clamp closed in time, and what else the search asks for. */
export function searchTargets({ targets, shift, search }: Scenario): Targets {
  const { finishBy = null, waiting = null, relation = null } = search?.targets ?? {};
  return { dryDensity: targets.dryDensity, poreSpace: null, finishBy: finishBy ?? shift.end, waiting, relation };
}

/** What each target asks for, in words. */
export const TARGET_WORDS: Readonly<Record<TargetName, string>> = {
  crop: "everything brought in", density: "target density", poreSpace: "pore space", finish: "clamp closed in time", waiting: "chopper waiting", relation: "the relation's own chance of the target",
};

/** Density that a plan must predict, kg DM/m3, so that the relation itself gives the target this chance; half a chance asks for the target. */
function densityFor({ targets, crop }: Scenario, relation: number): number {
  return densityForChance(targets.dryDensity, relation, crop.kind);
}

/** How far a day is from each target that is asked for: 0 or less is met, 0.1 is a tenth of the target short. */
export function shortfalls(scenario: Scenario, targets: Targets, day: DayFacts): Partial<Record<TargetName, number>> {
  const { shift } = scenario;
  const filled = day.storages.filter((storage) => storage.mass > 0);
  const brought = filled.length > 0;
  const loosest = Math.min(...filled.map(({ dryDensity }) => dryDensity));
  const short: Partial<Record<TargetName, number>> = { crop: day.uncut > LEFT_STANDING || !brought ? Math.max(day.uncut, 1) / (day.measures.delivered * 1000 + Math.max(day.uncut, 1)) : 0 };
  if (targets.dryDensity !== null) short.density = brought ? AT_TARGET - loosest / targets.dryDensity : 1;
  if (targets.poreSpace !== null) short.poreSpace = brought ? Math.max(...filled.map(({ poreSpace }) => (Number.isFinite(poreSpace) ? poreSpace : 0))) - targets.poreSpace : 1;
  if (targets.finishBy !== null) short.finish = (shift.start + day.measures.finishedAt * 3600 - targets.finishBy) / (targets.finishBy - shift.start);
  if (targets.waiting !== null) short.waiting = Number.isFinite(day.measures.chopperWaiting) ? day.measures.chopperWaiting - targets.waiting : 1;
  if (targets.relation !== null) short.relation = brought ? 1 - loosest / densityFor(scenario, targets.relation) : 1;
  return short;
}

/** True when the day is short of nothing that is asked for. */
export const meets = (short: Partial<Record<TargetName, number>>): boolean => Object.values(short).every((by) => by <= 0);
