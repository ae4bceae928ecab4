/** What to do next where no plan of a crew search meets the targets: read off the plan that comes nearest and off what was asked. Pure. */
import type { Nearest } from "../../sim/study/crew.ts";
import type { TargetName } from "../../sim/study/targets.ts";
import type { Ranges } from "./ranges.ts";

/** What a search was asked. */
export interface AskedCrew {
  readonly ranges: Ranges;
  /** days of 100 */ readonly sure: number;
  /** packing tractors that the sheet can ask for at all */ readonly mostTractors: number;
}

/** Ends of the ranges at which the nearest plan stands, where going further could help against what it fails. */
export type Edge = "fewestTrucks" | "mostTrucks" | "mostTractors";

export interface NextSteps {
  readonly edges: readonly Edge[];
  /** the ranges moved on at those ends; null where it stands at none */ readonly wider: Ranges | null;
  /** a search with every rule is still to be had */ readonly rules: boolean;
  /** days of 100 that the nearest plan surely meets the targets on, fewer than were asked for; null where that is hardly any */ readonly sure: number | null;
}

/** Trucks and tractors that a range is moved on by (assumption of this project). */
const FURTHER = 2;
export const MOST_TRUCKS = 60;
/** Certainties are asked for in steps of so many days of 100. */
const STEP = 5;

/** What going beyond an end of the ranges works on. */
const WORKS_ON: Readonly<Record<Edge, readonly TargetName[]>> = {
  fewestTrucks: ["density", "poreSpace", "relation"],
  mostTrucks: ["crop", "finish", "waiting"],
  mostTractors: ["crop", "density", "poreSpace", "finish", "waiting", "relation"],
};

export function nextSteps({ plan, fails }: Nearest, { ranges, sure, mostTractors }: AskedCrew): NextSteps {
  const tractors = plan.tractors?.reduce((sum, { count }) => sum + count, 0) ?? null;
  const further: Readonly<Record<Edge, Partial<Ranges> | null>> = {
    fewestTrucks: plan.trucks === ranges.trucksFrom && ranges.trucksFrom > 1 ? { trucksFrom: Math.max(1, ranges.trucksFrom - FURTHER) } : null,
    mostTrucks: plan.trucks === ranges.trucksTo && ranges.trucksTo < MOST_TRUCKS ? { trucksTo: Math.min(MOST_TRUCKS, ranges.trucksTo + FURTHER) } : null,
    mostTractors: tractors === ranges.tractorsTo && ranges.tractorsTo < mostTractors ? { tractorsTo: Math.min(mostTractors, ranges.tractorsTo + FURTHER) } : null,
  };
  // Each target met often enough, and all together too seldom: any of them may be the one.
  const helps = (edge: Edge) => further[edge] !== null && (fails.length === 0 || fails.some((name) => WORKS_ON[edge].includes(name)));
  const edges = (Object.keys(further) as Edge[]).filter(helps);
  const less = STEP * Math.floor((100 * plan.chance.low) / STEP);
  return {
    edges, wider: edges.length > 0 ? edges.reduce((wider, edge) => ({ ...wider, ...further[edge] }), ranges) : null,
    rules: !ranges.anyRule, sure: less >= STEP && less < sure ? less : null,
  };
}
