/** Studies as the API takes and gives them. The compiler holds the results to the types that the engine fills. */
import { z } from "zod";
import { DIMENSIONS } from "../../sim/scenario/units.ts";
import { campaigns, campaignsSoFar } from "./campaigns.ts";
import { BEHIND_RULES } from "../../sim/scenario/types.ts";
import type { Comparison } from "../../sim/study/compare.ts";
import type { Chance } from "../../sim/study/chance.ts";
import type { CrewSearch } from "../../sim/study/crew.ts";
import { EFFECTS } from "../../sim/study/effectnames.ts";
import type { Effects } from "../../sim/study/effects.ts";
import { FIGURE_NAMES } from "../../sim/study/figures.ts";
import type { FigureName } from "../../sim/study/figures.ts";
import type { Fixes, FixRow } from "../../sim/study/fixes.ts";
import type { Multiples } from "../../sim/study/multiples.ts";
import { OVERS } from "../../sim/study/overs.ts";
import type { CrewPlan } from "../../sim/study/planrecord.ts";
import type { Precision } from "../../sim/study/precision.ts";
import type { Quote } from "../../sim/study/quote.ts";
import { FAMILIES } from "../../sim/study/remedies.ts";
import type { Sensitivity } from "../../sim/study/sensitivity.ts";
import { TARGETS } from "../../sim/study/targets.ts";
import { bodies } from "../studies/asked.ts";
import { KINDS } from "../studies/kinds.ts";
import type { Kind } from "../studies/kinds.ts";
import { caution, measure, measures, names, orNull, scenarioName, station, verdict } from "./findings.ts";
import { scenario, state } from "./schemas.ts";
import { weighedDay } from "./tickets.ts";

type Of<T> = z.ZodType<T>;

/** A number of the engine's that may be none: it then travels as null. */
const numberOrNone = () => z.number().nullable() as unknown as z.ZodType<number>;
const pair = () => z.tuple([z.number(), z.number()]);
const figureName = z.enum(FIGURE_NAMES as readonly [FigureName, ...FigureName[]]);
const cost = z.enum(["costPerTonne", "costPerTonneFed"]);

/** What every result begins with. */
const head = { engine: z.string(), seed: z.number() };
const onOne = { ...head, scenario: scenarioName };

const difference = z.object({
  mean: z.number(), sd: z.number(), low: z.number().describe("Confidence limits of the mean difference, on the paired days."), high: z.number(), unit: z.string(),
  sure: z.boolean().describe("Zero lies outside the limits."), correlation: z.number().nullable(), luckGain: z.number().nullable().describe("Days of separate luck that one paired day is worth."),
  better: z.boolean().nullable().describe("Null where it depends, or is not sure."),
}).meta({ id: "Difference" });

const planDifference = difference.extend({
  within: z.enum(["relation", "ledger"]).nullable().describe("What leaves open which plan is more, however sure the days are: the scatter of the published relation, or the range of the loss ledger. Null where they are told apart."),
}).meta({ id: "PlanDifference" });

const comparison = z.object({
  ...head, rehearsals: z.number(), confidence: z.number().describe("That all differences of one figure hold at once."),
  plans: z.array(z.object({
    letter: z.string(), name: z.string(), hash: z.string(), verdict, measures, closedAt: orNull(measure).describe("h after midnight"),
    chanceOfTarget: z.number().nullable().describe("By the published relation itself, beside the luck of the day."),
  })),
  differences: z.array(z.object({ plan: z.string(), against: z.string(), figures: z.partialRecord(figureName, planDifference) })),
  inWords: z.array(z.string()), notes: z.array(z.string()),
}).meta({ id: "Comparison", description: "Plans on the same luck." }) satisfies Of<Comparison>;

const effect = difference.extend({ figure: figureName, moves: z.boolean().describe("Sure, and large enough to notice.") });
const effects = z.object({
  by: z.record(names(EFFECTS), effect), chance: pair().describe("Of keeping pace: before and after."), chanceMoves: z.boolean().describe("It is surely another, by enough to notice."), chanceOfTarget: pair(), densityAfter: numberOrNone(), left: pair().describe("kg left standing: before and after."), bottleneck: station,
}).meta({ id: "Effects", description: "What a change does to the day." }) satisfies Of<Effects>;

const fixRow = z.object({
  id: z.string(), family: names(FAMILIES), what: z.string(),
  figure: z.object({ dimension: names([...Object.keys(DIMENSIONS), "clock"] as (keyof typeof DIMENSIONS | "clock")[]).nullable(), from: z.number(), to: z.number() }).nullable(),
  burdens: z.array(z.enum(["weight", "hours", "traffic"])), storage: z.number().nullable(), note: z.string().nullable(), parts: z.array(z.string()),
  does: z.enum(["helps", "mixed", "harms", "saves", "nothing", "endless"]), effects: orNull(effects), withoutLayerTerm: effects.optional(), why: z.string().nullable(), cautions: z.array(caution),
}).meta({ id: "FixRow" }) satisfies Of<FixRow>;
const ranking = z.record(names(EFFECTS), z.array(z.string())).describe("Ids of the rows by what they gain, the best first.");
const placeOfUnit = z.union([station, z.literal("apron")]);

const fixes = z.object({
  ...onOne, rehearsals: z.number(), confidence: z.number(), cost, base: z.object({ measures, chance: z.number() }), rows: z.array(fixRow), ranking,
  marginal: z.array(z.object({ station: placeOfUnit, unit: z.string(), effects, worth: z.number() })).describe("One unit more of each."),
  proof: z.object({ of: z.enum(["crop", "density", "pace"]), station: orNull(placeOfUnit), byWaiting: station, agree: z.boolean(), inWords: z.string() }),
  sendHome: z.array(z.object({ id: z.string(), what: z.string(), can: z.boolean(), inWords: z.string() })),
  notTried: z.array(z.object({ family: names(FAMILIES), because: z.string() })),
  from: z.string().optional().describe("Wall clock from which the rest of a day was rehearsed."),
}).meta({ id: "Fixes", description: "What to change." }) satisfies Of<Fixes>;

const chance = z.object({ share: z.number(), low: z.number(), high: z.number() }).meta({ id: "Chance", description: "A share of days with its 95 % confidence limits." }) satisfies Of<Chance>;
const chances = z.partialRecord(names(TARGETS), chance);
const targets = z.object({ dryDensity: z.number().nullable(), poreSpace: z.number().nullable(), finishBy: z.number().nullable(), waiting: z.number().nullable(), relation: z.number().nullable() });
const crewPlan = z.object({
  trucks: z.number().nullable(), tractors: z.array(z.object({ name: z.string(), count: z.number() })).nullable(), layer: z.number().nullable().describe("m"), rule: names(BEHIND_RULES).nullable(), pace: z.number().nullable(),
  index: z.number(), fate: z.enum(["chosen", "often", "seldom", "dearer", "hopeless", "undecided", "open"]), days: z.number(), chance, targets: chances,
  cost: orNull(measure), density: orNull(measure), closedAt: orNull(measure), waiting: orNull(measure), chanceOfTarget: z.number().nullable(),
}).meta({ id: "CrewPlan" }) satisfies Of<CrewPlan>;

const crewSearch = z.object({
  ...onOne, sure: z.number(), promise: z.number(), targets, plans: z.number(), hopeless: z.number(), days: z.number(),
  chosen: orNull(crewPlan), nearest: z.object({ plan: crewPlan, fails: z.array(names(TARGETS)), inWords: z.string() }).nullable(), runnersUp: z.array(crewPlan), front: z.array(crewPlan),
  cautions: z.array(caution), withoutLayerTerm: z.object({ density: z.number(), chance }).nullable(), guarantee: z.string(), method: z.string(),
}).meta({ id: "CrewSearch", description: "The cheapest plan that meets the targets." }) satisfies Of<CrewSearch>;

const multiples = z.object({
  ...onOne, rehearsals: z.number(), over: names(OVERS), kind: z.string().describe("Of truck, or the storage whose packing tractors they are."), now: z.number(), target: z.number().describe("kg DM/m3"), cost,
  multiples: z.array(z.object({
    count: z.number(), endless: z.string().nullable(), chopper: z.object({ cutting: z.number(), waitingForTrucks: z.number(), waitingForStorage: z.number() }).nullable(),
    truck: z.object({ waiting: z.number(), round: z.number() }).nullable(), idle: z.number().nullable(), pace: orNull(measure), density: orNull(measure), closedAt: orNull(measure), cost: orNull(measure),
    chance: z.number().nullable(), bottleneck: orNull(station), more: orNull(effects),
  })),
  enough: z.number().nullable(), inWords: z.string(),
}).meta({ id: "Multiples", description: "The same day with so many trucks or packing tractors." }) satisfies Of<Multiples>;

const price = z.object({ covers: z.number(), price: z.number(), low: z.number().nullable(), high: z.number().nullable() });
const quote = z.object({
  ...onOne, rehearsals: z.number(), currency: z.string(), cost: measure,
  prices: z.object({ perTonne: z.array(price), perHour: z.array(price), perHectare: z.array(price) }), inWords: z.string(),
}).meta({ id: "Quote", description: "The price that covers the cost." }) satisfies Of<Quote>;

const sensitivity = z.object({
  ...onOne, rehearsals: z.number(), cost,
  rows: z.array(z.object({
    id: z.string(), what: z.string(), as: z.enum(["factor", "points"]), low: z.number(), high: z.number(), measure: z.string(), swing: orNull(effects),
    screened: z.record(names(EFFECTS), z.object({ effect: z.number(), sd: z.number() })).nullable(), most: names(EFFECTS).nullable(), importance: z.number().nullable(), hangsTogether: z.boolean(),
  })),
  measure: z.array(z.object({ id: z.string(), what: z.string(), how: z.string() })), inWords: z.string(),
}).meta({ id: "Sensitivity", description: "Which guesses matter." }) satisfies Of<Sensitivity>;

const sureness = z.partialRecord(figureName, z.object({ mean: z.number(), low: z.number(), high: z.number(), within: z.number().nullable(), sure: z.boolean(), unit: z.string() }));
const precision = z.object({
  ...onOne, rehearsals: z.number(), reached: z.boolean(), asked: z.number(), sureness, measures,
  spread: z.object({ closedAt: z.tuple([z.number(), z.number(), z.number()]).nullable(), keepsPace: chance, targets: chances }), chanceOfTarget: z.number().nullable(),
}).meta({ id: "Precision", description: "Days until the means are sure enough." }) satisfies Of<Precision>;

/** Result by kind of study. */
const RESULTS = { compare: comparison, fixes, crewup: crewSearch, multiples, quote, sensitivity, precision, tickets: weighedDay, campaign: campaigns } as const satisfies Record<Kind, z.ZodType>;

/** What can be shown before the end, by the kinds that have such a thing. */
const SO_FAR: Partial<Record<Kind, z.ZodType>> = {
  fixes: z.object({ rehearsals: z.number(), ranking, rows: z.array(fixRow) }),
  crewup: z.object({ rehearsed: z.number(), best: z.array(crewPlan) }),
  precision: z.object({ rehearsals: z.number(), sureness }),
  campaign: campaignsSoFar,
};

export const studyAsked = z.union(bodies(scenario, state)).meta({ id: "StudyAsked" });

const known = (kind: Kind) => ({
  id: z.string().regex(/^[\w-]{22}$/).describe("Of the checked scenarios, the wishes and the engine: the same question has the same id."),
  kind: z.literal(kind), scenarios: z.array(scenarioName), events: z.string().describe("Address of what happens to it."),
});
const progress = z.strictObject({ done: z.int().min(0).describe("Days rehearsed."), expected: z.int().min(0).describe("Days in all, as far as can be told.") });
const name = (kind: Kind) => kind[0]!.toUpperCase() + kind.slice(1);

/** A study as it is: done with its result, or how far it is. */
export const study = z.union(KINDS.flatMap((kind) => [
  z.strictObject({ ...known(kind), state: z.literal("done"), result: RESULTS[kind] }).meta({ id: `${name(kind)}Done` }),
  z.strictObject({
    ...known(kind), state: z.enum(["waiting", "running", "failed", "cancelled"]), progress, ...(SO_FAR[kind] ? { soFar: SO_FAR[kind].optional() } : {}),
    because: z.string().optional().describe("Why it failed."),
  }).meta({ id: `${name(kind)}UnderWay` }),
])).meta({ id: "Study" });
