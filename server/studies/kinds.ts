/** The kinds of study that are carried out for clients: what each is asked with, about how many days it takes, and which study it is. */
import type { Scenario } from "../../sim/scenario/types.ts";
import { campaigns, usualCampaigns } from "../../sim/study/campaigns.ts";
import type { CampaignsOptions } from "../../sim/study/campaigns.ts";
import { campaignsOf } from "../../sim/study/campaignstart.ts";
import { compare } from "../../sim/study/compare.ts";
import type { CompareOptions } from "../../sim/study/compare.ts";
import { crewUp } from "../../sim/study/crew.ts";
import type { CrewOptions } from "../../sim/study/crew.ts";
import { fixes, mostPlans } from "../../sim/study/fixes.ts";
import type { FixesOptions } from "../../sim/study/fixes.ts";
import { multiples, MOST_MULTIPLES } from "../../sim/study/multiples.ts";
import type { MultiplesOptions } from "../../sim/study/multiples.ts";
import { countPlans, MOST_PLANS } from "../../sim/study/plans.ts";
import { precision, USUAL_PRECISION } from "../../sim/study/precision.ts";
import type { PrecisionOptions } from "../../sim/study/precision.ts";
import { quote } from "../../sim/study/quote.ts";
import type { QuoteOptions } from "../../sim/study/quote.ts";
import { usualRehearsals } from "../../sim/study/rehearsal.ts";
import { FIRST_DAYS } from "../../sim/study/select.ts";
import { sensitivity } from "../../sim/study/sensitivity.ts";
import type { SensitivityOptions } from "../../sim/study/sensitivity.ts";
import { tickets } from "../../sim/study/tickets/study.ts";
import type { TicketsOptions } from "../../sim/study/tickets/study.ts";
import type { Study } from "../../sim/study/work.ts";

export const KINDS = ["compare", "fixes", "crewup", "multiples", "quote", "sensitivity", "precision", "tickets", "campaign"] as const;
export type Kind = (typeof KINDS)[number];

/** One study as plain data, so that it can go to a thread. */
export type StudyQuestion = { readonly scenarios: readonly Scenario[] } & (
  | { readonly kind: "compare"; readonly options: CompareOptions }
  | { readonly kind: "fixes"; readonly options: FixesOptions }
  | { readonly kind: "crewup"; readonly options: Omit<CrewOptions, "prune"> }
  | { readonly kind: "multiples"; readonly options: MultiplesOptions }
  | { readonly kind: "quote"; readonly options: QuoteOptions }
  | { readonly kind: "sensitivity"; readonly options: Pick<SensitivityOptions, "rehearsals" | "seed"> }
  | { readonly kind: "precision"; readonly options: Pick<PrecisionOptions, "within" | "most" | "seed"> }
  | { readonly kind: "tickets"; readonly options: TicketsOptions }
  | { readonly kind: "campaign"; readonly options: CampaignsOptions }
);

/** The study that a question asks for. */
export function studyOf({ scenarios, ...asked }: StudyQuestion): Study<unknown, unknown> {
  const [scenario] = scenarios as [Scenario, ...Scenario[]];
  switch (asked.kind) {
    case "compare": return compare(scenarios, asked.options);
    case "fixes": return fixes(scenario, asked.options);
    case "crewup": return crewUp(scenario, asked.options);
    case "multiples": return multiples(scenario, asked.options);
    case "quote": return quote(scenario, asked.options);
    case "sensitivity": return sensitivity(scenario, asked.options);
    case "precision": return precision(scenario, asked.options);
    case "tickets": return tickets(scenario, asked.options);
    case "campaign": return campaigns(scenarios, asked.options);
  }
}

/** Guesses of a usual plan, for telling the days of a study before (assumption of this project). */
const USUAL_GUESSES = 20;
/** Days on which inputs that could explain a recorded day are tried: twenty of them, thirty days each (assumption of this project). */
const USUAL_TRIED = 600;

/** Days that a question will take, roughly, by plan of its list; remedies are counted. */
export function daysOf({ scenarios, ...asked }: StudyQuestion): readonly number[] {
  const rehearsals = (asked.options as { readonly rehearsals?: number }).rehearsals ?? Math.max(...scenarios.map(usualRehearsals));
  const [scenario] = scenarios as [Scenario, ...Scenario[]];
  switch (asked.kind) {
    case "compare": return scenarios.map(() => rehearsals);
    case "fixes": return [mostPlans(scenario, asked.options) * rehearsals];
    case "crewup": return [Math.min(countPlans(scenario), MOST_PLANS) * FIRST_DAYS];
    case "multiples": return [MOST_MULTIPLES * rehearsals];
    case "quote": return [rehearsals];
    case "sensitivity": return [3 * USUAL_GUESSES * rehearsals];
    case "precision": return [asked.options.most ?? USUAL_PRECISION.most];
    case "tickets": return [rehearsals + USUAL_TRIED];
    // A crop that is cut on several days is cut once all the same.
    case "campaign": return scenarios.map(() => campaignsOf(asked.options.campaigns ?? usualCampaigns(scenarios)));
  }
}
