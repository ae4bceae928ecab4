/** What a client asks of a study: the body of `POST /api/v1/studies`, read, checked and bounded. Every function here throws a `Refusal`. */
import { z } from "zod";
import { counted } from "../../sim/findings/figure.ts";
import { hashOf } from "../../sim/scenario/hash.ts";
import { LIMITS as SCENARIO_LIMITS } from "../../sim/scenario/limits.ts";
import { checkScenario } from "../../sim/scenario/read.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { farmsOf } from "../../sim/study/campaign.ts";
import { MOST_FARMS } from "../../sim/study/campaigns.ts";
import { FEWEST_COMPARED, MOST_COMPARED } from "../../sim/study/compare.ts";
import { MOST_SURE } from "../../sim/study/crew.ts";
import { MOST_MULTIPLES } from "../../sim/study/multiples.ts";
import { OVERS } from "../../sim/study/overs.ts";
import { countPlans, MOST_PLANS } from "../../sim/study/plans.ts";
import { DATE_ORDERS, DECIMALS, MASS_UNITS } from "../../sim/study/tickets/cells.ts";
import { COLUMNS } from "../../sim/study/tickets/headings.ts";
import { readTickets } from "../../sim/study/tickets/tickets.ts";
import { ENGINE_VERSION } from "../../sim/version.ts";
import { digest } from "../documents.ts";
import { parseJson } from "../jsontext.ts";
import { LIMITS } from "../limits.ts";
import type { Limits } from "../limits.ts";
import type { ProblemPlace } from "../problems.ts";
import { LARGEST_SEED, startAsked, stepsOf, strayKey, tooLongADay, unsound } from "../question.ts";
import { daysOf, KINDS } from "./kinds.ts";
import type { StudyQuestion } from "./kinds.ts";

const whole = (least: number, most: number, what: string, description: string) => {
  const words = `${what} a whole number from ${counted(least)} to ${counted(most)}.`;
  return z.int(words).min(least, words).max(most, words).optional().meta({ description });
};
const share = (most: number, what: string, description: string) => {
  const words = `${what} a number above 0 and up to ${most}.`;
  return z.number(words).gt(0, words).max(most, words).optional().meta({ description });
};
const count = (what: string, description: string) => whole(0, SCENARIO_LIMITS.trucks, what, description);

const one = <const Names extends readonly [string, ...string[]]>(names: Names, what: string, description: string) => z.enum(names, `${what} one of ${names.join(", ")}.`).optional().meta({ description });

/** The bodies by kind; `scenario` and `state` are what stands for one: anything where it is only read, its schema where it is described. */
export function bodies<Scenario extends z.ZodType, State extends z.ZodType>(scenario: Scenario, state: State) {
  const seed = whole(0, LARGEST_SEED, "The seed is", "Another luck than the first scenario's own.");
  const rehearsals = whole(1, LIMITS.rehearsals, "Rehearsals are", "How many days each.");
  const days = { rehearsals, seed };
  const several = `A comparison takes a list of ${FEWEST_COMPARED} to ${MOST_COMPARED} scenarios.`;
  const farms = `A campaign takes a list of 1 to ${MOST_FARMS} scenarios, one a farm.`;
  return [
    z.strictObject({ kind: z.literal("compare"), scenarios: z.array(scenario, several).min(FEWEST_COMPARED, several).max(MOST_COMPARED, several), ...days })
      .meta({ id: "CompareAsked", description: "Plans on the same luck; the others are held against the first." }),
    z.strictObject({ kind: z.literal("fixes"), scenario, ...days, from: state.optional() }).meta({ id: "FixesAsked", description: "What to change: remedies, ranked." }),
    z.strictObject({ kind: z.literal("crewup"), scenario, sure: share(MOST_SURE, "How sure a plan is to be is", "On which share of days the targets must be met."), seed })
      .meta({ id: "CrewupAsked", description: "The cheapest plan of the scenario's `search` that meets the targets." }),
    z.strictObject({
      kind: z.literal("multiples"), scenario, over: z.enum(OVERS, `It goes over ${OVERS.join(" or ")}.`).optional().meta({ description: "Trucks when left out; `tractors` are those beside the blades." }),
      from: count("The fewest are", "The fewest; 1 truck at the least."), to: count("The most are", "The most."), ...days,
    }).meta({ id: "MultiplesAsked", description: "The same day with so many trucks or packing tractors, and one more, and one more." }),
    z.strictObject({ kind: z.literal("quote"), scenario, ...days }).meta({ id: "QuoteAsked", description: "The price that covers the cost on so many days." }),
    z.strictObject({ kind: z.literal("sensitivity"), scenario, ...days }).meta({ id: "SensitivityAsked", description: "Which of the planner's guesses matter." }),
    z.strictObject({
      kind: z.literal("precision"), scenario, seed, within: share(0.5, "How sure the means are to be, as a share of each, is", "Half-width of the limits as a share of the mean."),
      most: whole(1, LIMITS.rehearsals, "The most rehearsals are", "Days at the most."),
    }).meta({ id: "PrecisionAsked", description: "Days until the means are sure enough." }),
    z.strictObject({
      kind: z.literal("tickets"), scenario, csv: z.string("The tickets are the text of a CSV file.").meta({ description: "Weigh tickets as a scale exports them: headings, then a row for each load." }),
      columns: z.partialRecord(z.enum(COLUMNS, `Columns are named ${COLUMNS.join(", ")}.`), z.string("A column is named by its heading."), "Columns are a group of headings by what they are.").optional()
        .meta({ description: "Headings of columns that their words do not tell." }),
      decimal: one(DECIMALS, "The decimal mark is", "Where the file leaves it open."), dates: one(DATE_ORDERS, "Dates are written", "Order of day, month and year where the file leaves it open."),
      unit: one(MASS_UNITS, "Masses are in", "Where the file does not say it; t is 1,000 kg, ton 2,000 lb."), ...days,
    }).meta({ id: "TicketsAsked", description: "Weigh tickets: what they tell, and whether the scenario was right on that day. What the file leaves open is a problem at the key that answers it." }),
    z.strictObject({
      kind: z.literal("campaign"), scenarios: z.array(scenario, farms).min(1, farms).max(MOST_FARMS, farms), seed,
      campaigns: whole(1, LIMITS.rehearsals, "Campaigns are", "How many campaigns; those with luck in them 100 when left out."),
    }).meta({ id: "CampaignAsked", description: "Several days and farms in order while the crop dries, and when to start; the first scenario has a `campaign`, and its choppers and trucks go round." }),
  ] as const;
}

const READ = Object.fromEntries(bodies(z.unknown(), z.unknown()).map((body) => [body.shape.kind.value, body]));

/** A question with the name it is kept under. */
export interface AskedStudy {
  /** the same for the same checked scenarios, options and engine */ readonly id: string;
  readonly question: StudyQuestion;
}

/** Reads and checks a body; `limits` bounds the work. */
export function studyAsked(text: string, limits: Limits): AskedStudy {
  const body = parseJson(text, limits.depth);
  const kind = typeof body === "object" && body !== null && !Array.isArray(body) ? (body as { kind?: unknown }).kind : undefined;
  const shape = typeof kind === "string" && Object.hasOwn(READ, kind) ? READ[kind] : undefined;
  if (shape === undefined) throw unsound([{ pointer: "/kind", detail: `The body is one object whose kind is one of ${KINDS.join(", ")}.` }], limits);

  const parsed = shape.safeParse(body);
  const errors = parsed.success ? [] : onceEach(parsed.error.issues.flatMap((issue) => placesOf(issue, Object.keys(shape.shape), limits)));
  const written = body as { readonly scenario?: unknown; readonly scenarios?: unknown };
  const places = !("scenarios" in shape.shape) ? [["/scenario", written.scenario]] as const
    : Array.isArray(written.scenarios) ? written.scenarios.slice(0, Math.max(MOST_COMPARED, MOST_FARMS)).map((each: unknown, i) => [`/scenarios/${i}`, each] as const) : [];
  const scenarios = places.flatMap(([pointer, each]): Scenario[] => {
    const checked = checkScenario(each);
    if (!("problems" in checked)) return [checked.scenario];
    errors.push(...checked.problems.map((problem) => ({ ...problem, pointer: pointer + problem.pointer })));
    return [];
  });
  const state = kind === "fixes" ? (body as { readonly from?: unknown }).from : undefined;
  const { start, wrong: stateWrong } = scenarios[0] ? startAsked(state, scenarios[0]) : { wrong: [] };
  errors.push(...stateWrong);
  if (errors.length > 0) throw unsound(errors, limits);

  const { kind: _kind, scenario: _scenario, scenarios: _scenarios, ...options } = parsed.data as Record<string, unknown>;
  if (state !== undefined) delete options.from;
  const question = { kind, scenarios, options: { ...options, ...(start && { start }) } } as unknown as StudyQuestion;
  const wrong = [...wrongWith(question), ...tooMuch(question, places.map(([pointer]) => pointer), limits)];
  if (wrong.length > 0) throw unsound(wrong, limits);
  return { id: digest(JSON.stringify(["study", kind, scenarios.map(hashOf), Object.entries(question.options).sort(), ENGINE_VERSION])), question };
}

function placesOf(issue: z.core.$ZodIssue, known: readonly string[], limits: Limits): ProblemPlace[] {
  const pointer = issue.path.map((part) => `/${String(part)}`).join("");
  // A scenario that is missing is told by its own check.
  if (pointer === "/scenario") return [];
  if (issue.code !== "unrecognized_keys") return [{ pointer, detail: issue.message }];
  // Columns of tickets are the only group inside a body that has keys of its own.
  return issue.keys.slice(0, limits.errors).map((key) => strayKey(key, pointer === "" ? known : COLUMNS)).map((place) => ({ ...place, pointer: pointer + place.pointer }));
}

/** A list that is no list is also too short and too long. */
const onceEach = (places: readonly ProblemPlace[]): ProblemPlace[] =>
  places.filter(({ pointer, detail }, i) => places.findIndex((other) => other.pointer === pointer && other.detail === detail) === i);

/** What hangs on two things at once. */
function wrongWith({ kind, scenarios, options }: StudyQuestion): ProblemPlace[] {
  const [scenario] = scenarios;
  if (kind === "crewup") {
    const plans = countPlans(scenario!);
    if (plans === 0) return [{ pointer: "/scenario", detail: "The scenario has no search: the plans to choose from stand under that key." }];
    if (plans > MOST_PLANS) return [{ pointer: "/scenario/search", detail: `The search has ${counted(plans)} plans; up to ${counted(MOST_PLANS)} are gone through.` }];
  }
  if (kind === "multiples") {
    const { over = "trucks", from, to } = options;
    if (over === "trucks" && from === 0) return [{ pointer: "/from", detail: "The fewest trucks are 1." }];
    if (over === "tractors" && (to ?? from ?? 0) > SCENARIO_LIMITS.tractors) return [{ pointer: to === undefined ? "/from" : "/to", detail: `Tractors are up to ${SCENARIO_LIMITS.tractors}.` }];
    if (from !== undefined && to !== undefined && !(from <= to && to - from < MOST_MULTIPLES)) return [{ pointer: "/to", detail: `The numbers go from the fewer to the more, over up to ${MOST_MULTIPLES} of them.` }];
  }
  if (kind === "campaign") {
    try {
      farmsOf(scenarios);
    } catch (error) {
      if (error instanceof RangeError) return [{ pointer: "/scenarios", detail: error.message }];
      throw error;
    }
  }
  return kind === "tickets" ? wrongWithTickets(options) : [];
}

/** What a file of tickets leaves open, at the key that answers it, and what makes it no file of tickets. */
function wrongWithTickets({ csv, ...answers }: Extract<StudyQuestion, { readonly kind: "tickets" }>["options"]): ProblemPlace[] {
  try {
    const { questions, tickets, refused } = readTickets(csv, answers);
    if (questions.length > 0 || tickets.length > 1) return questions.map(({ about, sentence }) => ({ pointer: csv.trim() === "" ? "/csv" : `/${about}`, detail: sentence }));
    const why = refused.slice(0, 3).map(({ row, because }) => ` Row ${row}: ${because}`).join("");
    return [{ pointer: "/csv", detail: `Two tickets are the fewest that tell of a day; ${tickets.length === 0 ? "no row is one" : "one row is one"}.${why}` }];
  } catch (error) {
    if (error instanceof RangeError) return [{ pointer: "/csv", detail: error.message }];
    throw error;
  }
}

/** Work that is more than is done for one study. */
function tooMuch(question: StudyQuestion, pointers: readonly string[], limits: Limits): ProblemPlace[] {
  const steps = question.scenarios.map(stepsOf);
  const long = steps.flatMap((count, i) => (count > limits.stepsPerDay ? [tooLongADay(pointers[i]!, count, limits)] : []));
  if (long.length > 0) return long;
  const all = daysOf(question).reduce((sum, days, i) => sum + days * steps[i]!, 0);
  if (all <= limits.studySteps) return [];
  return [{
    pointer: "",
    detail: `The study would rehearse about ${counted(all)} truck loads and crop rows; up to ${counted(limits.studySteps)} are rehearsed for one. Fewer rehearsals or fewer plans would do.`,
  }];
}
