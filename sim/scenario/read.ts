/**
 * The way in: from the text of a scenario file, or from a document that a client sent, to a checked scenario in SI with the list of
 * defaults that applied, or to the list of what is wrong. Nothing here throws, whatever comes in.
 */
import { Desk } from "./desk.ts";
import type { MapOf } from "./desk.ts";
import { readDocument } from "./document.ts";
import { LIMITS } from "./limits.ts";
import { addIssues } from "./problems.ts";
import { settle } from "./settle.ts";
import type { AppliedDefault, Problem, Scenario } from "./types.ts";
import type { Path } from "./words.ts";
import { writtenScenario } from "./written.ts";

export type Checked = { readonly scenario: Scenario; readonly defaults: readonly AppliedDefault[] } | { readonly problems: readonly Problem[] };

/** Reads YAML or JSON text; map files that it names come from `mapOf`. Problems carry line and column beside the pointer. The scenario is frozen, deep down. */
export function readScenario(text: string, mapOf?: MapOf): Checked {
  const read = readDocument(text);
  if ("problem" in read) return { problems: [read.problem] };
  const checked = checkScenario(read.value, mapOf);
  if (!("problems" in checked)) return checked;
  return { problems: checked.problems.map((problem) => ({ ...problem, ...read.placeOf(problem.pointer) })) };
}

/** Checks a document of plain values, as JSON gives them; without `mapOf` it may name no map file. The scenario is frozen, deep down. */
export function checkScenario(document: unknown, mapOf?: MapOf): Checked {
  const desk = new Desk(undefined, mapOf);
  refuseStrange(document, desk);
  if (desk.problems.count > 0) return { problems: desk.problems.list };
  const parsed = writtenScenario.safeParse(document);
  if (!parsed.success) {
    addIssues(desk.problems, parsed.error.issues);
    return { problems: desk.problems.list };
  }
  const scenario = settle(parsed.data, desk);
  if (desk.problems.count > 0) return { problems: desk.problems.list };
  return { scenario: frozen(scenario), defaults: frozen(desk.silence.applied) };
}

/** Keys that reach into JavaScript itself; no group of a scenario has them. */
const REACHING = new Set(["__proto__", "constructor", "prototype"]);

/** Refuses what no scenario can be: too large, too deep, not plain, or with keys that reach into JavaScript itself. Walks without recursion. */
export function refuseStrange(document: unknown, desk: Desk): void {
  const open: { readonly value: unknown; readonly path: Path }[] = [{ value: document, path: [] }];
  let values = 0;
  for (let next = open.pop(); next; next = open.pop()) {
    const { value, path } = next;
    values += 1;
    if (values > LIMITS.values) return desk.problems.add([], `has more than ${LIMITS.values} values; a scenario needs far fewer`);
    if (path.length > LIMITS.depth) return desk.problems.add(path.slice(0, 3), `holds lists and groups more than ${LIMITS.depth} deep inside each other; a scenario needs six`);
    if (typeof value !== "object" || value === null) continue;
    if (Array.isArray(value)) {
      if (value.length > LIMITS.values) return desk.problems.add(path, `is a list of ${value.length}; a scenario has none so long`);
      value.forEach((item: unknown, i) => open.push({ value: item, path: [...path, i] }));
      continue;
    }
    const kind: unknown = Object.getPrototypeOf(value);
    if (kind !== Object.prototype && kind !== null) {
      desk.problems.add(path, "is no plain group, list, text or number");
      continue;
    }
    const keys = Object.keys(value);
    if (keys.length > LIMITS.values) return desk.problems.add(path, `has ${keys.length} keys; a scenario has no group so large`);
    for (const key of keys) {
      if (REACHING.has(key)) desk.problems.unknownKey([...path, key], []);
      else open.push({ value: (value as Record<string, unknown>)[key], path: [...path, key] });
    }
  }
}

/** Freezes a value and all that it holds. */
export function frozen<T>(value: T): T {
  if (typeof value === "object" && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    Object.values(value).forEach(frozen);
  }
  return value;
}
