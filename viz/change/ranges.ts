/** The ranges of a crew search as the sheet asks for them, and as a scenario says them. */
import { BEHIND_RULES, type Scenario } from "../../sim/scenario/types.ts";
import { usualKind } from "../../sim/study/change.ts";
import { at, type Document, type Json } from "../document.ts";
import { read, shownIn, written, type UnitSystem } from "../quantity.ts";

export interface Ranges {
  readonly trucksFrom: number;
  readonly trucksTo: number;
  readonly tractorsFrom: number;
  readonly tractorsTo: number;
  /** of a further tractor, in the reader's unit; not asked where the file lists the tractors that could be had */ readonly mass: number;
  /** every rule instead of the plan's own */ readonly anyRule: boolean;
}

/** What the sheet begins with: the file's own search, or a few trucks and tractors around the plan. */
export function rangesOf(scenario: Scenario, document: Document, system: UnitSystem): Ranges {
  const { search } = scenario;
  const now = scenario.trucks[usualKind(scenario)]!.count;
  const crew = scenario.storages[search?.tractors?.storage ?? 0]!.tractors;
  const rollers = crew.filter(({ spreads }) => spreads === null).length;
  const mass = read(furtherOf(document)?.mass, "machineMass") ?? crew.reduce((sum, tractor) => sum + tractor.mass, 0) / crew.length;
  const shown = shownIn(mass, "machineMass", system);
  return {
    trucksFrom: search?.trucks?.from ?? Math.max(1, now - 1), trucksTo: search?.trucks?.to ?? now + 2,
    tractorsFrom: search?.tractors?.from ?? Math.max(0, rollers), tractorsTo: search?.tractors?.to ?? rollers + 3,
    mass: system === "us" ? Math.round(shown / 1000) * 1000 : Math.round(shown), anyRule: search?.rules !== undefined && search?.rules !== null && search.rules.length > 1,
  };
}

/** Whether the mass of a further tractor is asked for: not where the file lists the tractors that could be had. */
export const asksMass = ({ search }: Scenario, document: Document): boolean => !search?.tractors || furtherOf(document) !== null;

/** Packing tractors that the sheet asks for at the most. */
export const MOST_TRACTORS = 8;

/** The same for this plan: those of the file's own list, where it has one. */
export const mostTractorsOf = (scenario: Scenario, document: Document): number =>
  (asksMass(scenario, document) ? MOST_TRACTORS : Math.min(MOST_TRACTORS, scenario.search!.tractors!.list.reduce((sum, { count }) => sum + count, 0)));

/** The tractor that an earlier search from this sheet wrote last into the plan's list; null where the list is the file's own. */
function furtherOf(document: Document): { readonly [key: string]: Json } | null {
  const list = at(document, ["search", "tractors", "list"]);
  const last = Array.isArray(list) ? (list.at(-1) as { readonly [key: string]: Json }) : null;
  return last && FURTHER.test(String(last.name)) ? last : null;
}

/** What a further tractor is called, with a number where there is one already. */
const FURTHER_NAME = "Further tractor";
const FURTHER = new RegExp(`^${FURTHER_NAME}( \\d+)?$`);

/** The ranges as the scenario's `search` says them; what the file's own search says of layers, pace and targets stays. */
export function searchOf(scenario: Scenario, document: Document, ranges: Ranges, system: UnitSystem): Json {
  const told = (at(document, ["search"]) ?? {}) as { readonly [key: string]: Json };
  const kind = scenario.trucks[scenario.search?.trucks?.kind ?? usualKind(scenario)]!.kind;
  const list = asksMass(scenario, document) ? furtherTractors(scenario, ranges, system) : at(document, ["search", "tractors", "list"])!;
  const { rules: _, ...rest } = told;
  return {
    ...rest,
    trucks: { kind, from: Math.min(ranges.trucksFrom, ranges.trucksTo), to: Math.max(ranges.trucksFrom, ranges.trucksTo) },
    tractors: {
      ...((at(document, ["search", "tractors"]) ?? (scenario.storages.length > 1 ? { storage: scenario.storages[0]!.name } : {})) as object),
      from: Math.min(ranges.tractorsFrom, ranges.tractorsTo), to: Math.max(ranges.tractorsFrom, ranges.tractorsTo), list,
    },
    ...(ranges.anyRule ? { rules: [...BEHIND_RULES] } : {}),
  };
}

/** The packing tractors that the plan has, and further ones of the mass asked for. */
function furtherTractors(scenario: Scenario, { mass, tractorsTo }: Ranges, system: UnitSystem): Json {
  const crew = scenario.storages[0]!.tractors;
  const own = crew.filter(({ spreads }) => spreads === null);
  const money = crew.reduce((sum, { costPerHour }) => sum + costPerHour, 0) / crew.length;
  const say = (kg: number) => written(shownIn(kg, "machineMass", system), "machineMass", system);
  const names = new Set(scenario.storages.flatMap(({ tractors }) => tractors.map(({ name }) => name)));
  let name = FURTHER_NAME;
  for (let n = 2; names.has(name); n++) name = `${FURTHER_NAME} ${n}`;
  return [
    ...own.map((tractor): Json => ({ name: tractor.name, mass: say(tractor.mass), rolling: `${Number((100 * tractor.rolling).toFixed(6))} %`, cost: `${Number(tractor.costPerHour.toFixed(6))} per h` })),
    { name, mass: written(mass, "machineMass", system), cost: `${Number(money.toFixed(6))} per h`, count: Math.max(1, tractorsTo - own.length) },
  ];
}
