/** What a day should reach, and whether it did. The luck of the day only: what the published relation leaves open stands beside it. */
import type { DayFacts } from "../findings/facts.ts";
import { AT_TARGET } from "../findings/stored.ts";
import { densityForChance } from "../forage/scatter.ts";
import type { Scenario } from "../scenario/types.ts";

/** `crop`: everything is brought in. */
export const TARGETS = ["crop", "density", "poreSpace", "finish", "waiting"] as const;
export type TargetName = (typeof TARGETS)[number];

/** What is asked for; null where it is not. */
export interface Targets {
  /** kg DM/m3 that every storage must come to on the day */ readonly dryDensity: number | null;
  /** share that every storage must stay under */ readonly poreSpace: number | null;
  /** s after midnight by which the clamp is closed */ readonly finishBy: number | null;
  /** share of its field time that the chopper may stand */ readonly waiting: number | null;
}

/** More crop left standing than nobody would speak of, kg (assumption of this project). */
export const LEFT_STANDING = 500;

/** The targets of a scenario that says no more: its density and pore space, and the clamp closed by the end of the shift. */
export const plainTargets = ({ targets, shift }: Scenario): Targets =>
  ({ dryDensity: targets.dryDensity, poreSpace: targets.poreSpace, finishBy: shift.end, waiting: null });

/** Density that a plan must predict, kg DM/m3, so that the relation itself gives the target this chance; half a chance asks for the target. */
export function densityFor({ targets, crop }: Scenario, relation: number): number {
  return densityForChance(targets.dryDensity, relation, crop.kind);
}

/** How far a day is from each target that is asked for: 0 or less is met, 0.1 is a tenth of the target short. */
export function shortfalls({ shift }: Scenario, targets: Targets, day: DayFacts): Partial<Record<TargetName, number>> {
  const filled = day.storages.filter((storage) => storage.mass > 0);
  const brought = filled.length > 0;
  const short: Partial<Record<TargetName, number>> = { crop: day.uncut > LEFT_STANDING || !brought ? Math.max(day.uncut, 1) / (day.measures.delivered * 1000 + Math.max(day.uncut, 1)) : 0 };
  if (targets.dryDensity !== null) short.density = brought ? AT_TARGET - Math.min(...filled.map(({ dryDensity }) => dryDensity)) / targets.dryDensity : 1;
  if (targets.poreSpace !== null) short.poreSpace = brought ? Math.max(...filled.map(({ poreSpace }) => (Number.isFinite(poreSpace) ? poreSpace : 0))) - targets.poreSpace : 1;
  if (targets.finishBy !== null) short.finish = (shift.start + day.measures.finishedAt * 3600 - targets.finishBy) / (targets.finishBy - shift.start);
  if (targets.waiting !== null) short.waiting = Number.isFinite(day.measures.chopperWaiting) ? day.measures.chopperWaiting - targets.waiting : 1;
  return short;
}

/** True when the day is short of nothing that is asked for. */
export const meets = (short: Partial<Record<TargetName, number>>): boolean => Object.values(short).every((by) => by <= 0);
