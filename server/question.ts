/** What a client asks: the body of `POST /api/v1/rehearsals`, read, checked and bounded into a job. Every function here throws a `Refusal`. */
import { counted } from "../sim/findings/figure.ts";
import type { DayStart } from "../sim/harvest/start.ts";
import { takenUp } from "../sim/harvest/takeup.ts";
import { readDocument } from "../sim/scenario/document.ts";
import { hashOf } from "../sim/scenario/hash.ts";
import { checkNow } from "../sim/scenario/now.ts";
import { checkScenario } from "../sim/scenario/read.ts";
import type { AppliedDefault, Scenario } from "../sim/scenario/types.ts";
import { usualRehearsals } from "../sim/study/rehearsal.ts";
import { ENGINE_VERSION } from "../sim/version.ts";
import { digest } from "./documents.ts";
import type { WrittenText } from "./forms.ts";
import type { Job } from "./job.ts";
import { parseJson } from "./jsontext.ts";
import type { Limits } from "./limits.ts";
import { refusals } from "./problems.ts";
import type { ProblemPlace } from "./problems.ts";

/** The largest whole number that JSON carries between programs unharmed. */
export const LARGEST_SEED = Number.MAX_SAFE_INTEGER;

const WISHES = ["rehearsals", "seed"];
const KNOWN_KEYS = ["scenario", ...WISHES, "from"];

/** A question as it came: all that is kept of it, to be read again when the day it asked for is to be seen. */
export interface Question extends WrittenText {
  /** of its address, `?` included; empty for none */ readonly query: string;
}

/** The job that is asked for. */
export function jobOf({ form, text, query }: Question, limits: Limits): Job {
  const asked = new URLSearchParams(query);
  return form === "yaml" ? jobOfYaml(text, asked, limits) : jobOfJson(text, asked, limits);
}

/** What stands in the query and is not read there: a wish that went unheard would be taken for granted. */
const unread = (query: URLSearchParams, known: readonly string[], instead: string, limits: Limits): ProblemPlace[] =>
  [...new Set(query.keys())].filter((key) => !known.includes(key)).slice(0, limits.errors).map((key) => ({ pointer: "", detail: `In the query: ${JSON.stringify(key.slice(0, 40))} is not read; ${instead}.` }));

export interface Checked { readonly scenario: Scenario; readonly defaults: readonly AppliedDefault[] }
/** How often, and with which luck; where undefined, the scenario decides. */
interface Wish { readonly rehearsals?: number | undefined; readonly seed?: number | undefined }

/** A body of JSON: `{"scenario": ..., "rehearsals"?, "seed"?, "from"?}`. Pointers of errors begin at the body. */
function jobOfJson(text: string, query: URLSearchParams, limits: Limits): Job {
  const body = parseJson(text, limits.depth);
  if (typeof body !== "object" || body === null || Array.isArray(body)) {
    throw unsound([{ pointer: "", detail: "The body is one object: {\"scenario\": ..., \"rehearsals\": 100, \"seed\": 1}; the last two may be left out." }], limits);
  }
  const { scenario, rehearsals, seed, from } = body as Record<string, unknown>;
  const others = Object.keys(body).filter((key) => !KNOWN_KEYS.includes(key));
  // Cut before anything is made of them: a body has room for a hundred thousand.
  const errors = others.slice(0, limits.errors).map((key) => strayKey(key, KNOWN_KEYS));
  errors.push(...wishErrors({ rehearsals, seed }, limits), ...unread(query, [], "a body of JSON holds all that is asked", limits));
  if (scenario === undefined) throw unsound([...errors, { pointer: "", detail: "The scenario is missing: {\"scenario\": ...}, written as in a scenario file." }], limits);
  const checked = checkScenario(scenario);
  if ("problems" in checked) throw unsound([...errors, ...checked.problems.map((problem) => ({ ...problem, pointer: "/scenario" + problem.pointer }))], limits);
  const { start, wrong } = startAsked(from, checked.scenario);
  if (errors.length + wrong.length > 0) throw unsound([...errors, ...wrong], limits);
  return bounded(checked, { rehearsals, seed } as Wish, "/scenario", limits, start);
}

/** How things stand, at the key `from` of a body: what the rest of the day starts from, or what is wrong with it. */
export function startAsked(from: unknown, scenario: Scenario): { readonly start?: DayStart; readonly wrong: readonly ProblemPlace[] } {
  if (from === undefined) return { wrong: [] };
  const checked = checkNow(from, scenario);
  return "now" in checked ? { start: takenUp(scenario, checked.now), wrong: [] } : { wrong: checked.problems.map((problem) => ({ ...problem, pointer: "/from" + problem.pointer })) };
}

/** A body of YAML: the text of a scenario file. `rehearsals` and `seed` stand in the address. Pointers of errors begin at the file's root. */
function jobOfYaml(text: string, query: URLSearchParams, limits: Limits): Job {
  const read = readDocument(text);
  if ("problem" in read) throw refusals.brokenYaml([read.problem]);
  const number = (name: string) => (query.has(name) ? Number(query.get(name) || NaN) : undefined);
  const wish: Wish = { rehearsals: number("rehearsals"), seed: number("seed") };
  const errors = wishErrors(wish, limits).map(({ detail }) => ({ pointer: "", detail: `In the query: ${detail.charAt(0).toLowerCase()}${detail.slice(1)}` }));
  errors.push(...unread(query, WISHES, `${WISHES.join(" and ")} are known there`, limits));
  const checked = checkScenario(read.value);
  if ("problems" in checked) throw unsound([...errors, ...checked.problems.map((problem) => ({ ...problem, ...read.placeOf(problem.pointer) }))], limits);
  if (errors.length > 0) throw unsound(errors, limits);
  return bounded(checked, wish, "", limits);
}

/** A text that is to be kept: a scenario file's own, or the scenario as JSON. Pointers of errors begin at its root. */
export function checkedText({ form, text }: WrittenText, limits: Limits): Checked {
  const read = form === "yaml" ? readDocument(text) : { value: parseJson(text, limits.depth), placeOf: () => ({}) };
  if ("problem" in read) throw refusals.brokenYaml([read.problem]);
  const checked = checkScenario(read.value);
  if ("problems" in checked) throw unsound(checked.problems.map((problem) => ({ ...problem, ...read.placeOf(problem.pointer) })), limits);
  return checked;
}

function wishErrors({ rehearsals, seed }: Record<keyof Wish, unknown> | Wish, limits: Limits): ProblemPlace[] {
  const errors: ProblemPlace[] = [];
  const wholeUpTo = (value: unknown, least: number, most: number) => Number.isInteger(value) && (value as number) >= least && (value as number) <= most;
  if (rehearsals !== undefined && !wholeUpTo(rehearsals, 1, limits.rehearsals)) {
    errors.push({ pointer: "/rehearsals", detail: `Rehearsals are a whole number from 1 to ${counted(limits.rehearsals)}.` });
  }
  if (seed !== undefined && !wholeUpTo(seed, 0, LARGEST_SEED)) {
    errors.push({ pointer: "/seed", detail: `The seed is a whole number from 0 to ${counted(LARGEST_SEED)}.` });
  }
  return errors;
}

/** Bounds the work and gives it its id: the same for the same checked scenario, defaults that applied, seed, rehearsals, engine and start. */
function bounded({ scenario, defaults }: Checked, wish: Wish, pointer: string, limits: Limits, start?: DayStart): Job {
  const rehearsals = wish.rehearsals ?? usualRehearsals(scenario);
  const seed = wish.seed ?? scenario.seed;
  const steps = stepsOf(scenario);
  if (steps > limits.stepsPerDay) throw unsound([tooLongADay(pointer, steps, limits)], limits);
  if (steps * rehearsals > limits.steps) {
    throw unsound([{
      pointer: "/rehearsals",
      detail: `${counted(rehearsals)} rehearsals of a day with about ${counted(steps)} truck loads and crop rows are more than is done at once; up to ${counted(Math.floor(limits.steps / steps))} would do.`,
    }], limits);
  }
  const id = digest(JSON.stringify([hashOf(scenario), defaults, seed, rehearsals, ENGINE_VERSION, ...(start ? [start] : [])]));
  return { id, scenario, defaults, rehearsals, seed, ...(start && { start }) };
}

/** A key that nobody knows, at the top of a body. */
export const strayKey = (key: string, known: readonly string[]): ProblemPlace => ({
  pointer: "/" + key.replaceAll("~", "~0").replaceAll("/", "~1"),
  detail: `There is no key "${key.slice(0, 40)}" here; ${known.join(", ")} are known.`,
});

export const tooLongADay = (pointer: string, steps: number, limits: Limits): ProblemPlace =>
  ({ pointer, detail: `The day has about ${counted(steps)} truck loads and crop rows; up to ${counted(limits.stepsPerDay)} are rehearsed here.` });

/** How many things happen in a day, roughly: loads of the smallest truck, and rows of the narrowest chopper. */
export function stepsOf({ fields, trucks, choppers }: Scenario): number {
  const load = Math.min(...trucks.map((truck) => truck.load));
  const width = Math.min(...choppers.map((chopper) => chopper.width));
  return fields.reduce((steps, field) => steps + (field.area * field.yield) / load + field.area / (width * field.rowLength), 0);
}

export const unsound = (errors: readonly ProblemPlace[], limits: Limits) => refusals.unsound(errors, limits.errors);
