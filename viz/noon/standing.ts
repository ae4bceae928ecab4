/** How the day stands, as the form shows it and the file says it: read off the rehearsed day first, then corrected by the crew. */
import { truckNames } from "../../sim/scenario/trucknames.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { at, listAt, type Document, type Json } from "../document.ts";
import { clock, secondsOfClock, shownIn, written, type UnitSystem } from "../quantity.ts";
import type { Rehearsed } from "../rehearsed.ts";

/** Noon, s after midnight. */
const NOON = 12 * 3600;

/** The time that the page asks about first: noon, or halfway through a harvest that has begun by then not at all, or ended. */
export function firstAsked({ scenario: { shift: { start, end } }, replay: { day } }: Rehearsed): number {
  const filled = day.trips.map((trip) => trip.filled).filter(Number.isFinite);
  const until = Math.max(start, ...filled);
  return start < NOON && NOON < until ? NOON : Math.min(end, Math.round((start + until) / 2 / 300) * 300);
}

/** How the day that is shown stood at a time: what had been tipped from each field, what lay on each apron, and how many loads were on the road. */
export function asRehearsed({ scenario, replay: { day } }: Rehearsed, time: number, system: UnitSystem): Document {
  const tonnes = (kg: number) => written(Math.round(shownIn(kg, "mass", system)), "mass", system);
  const tipped = day.trips.filter((trip) => trip.tipped <= time);
  const sum = (items: readonly { readonly mass: number }[]) => items.reduce((total, { mass }) => total + mass, 0);
  const delivered = scenario.fields.flatMap(({ name, storages }, f) => {
    const loads = tipped.filter((trip) => trip.field === f);
    if (loads.length === 0) return [];
    // A field is told of once; what went to a second storage counts for the one that got most.
    const [storage] = [...storages].sort((a, b) => sum(loads.filter((trip) => trip.storage === b)) - sum(loads.filter((trip) => trip.storage === a)));
    const off = day.trips.filter((trip) => trip.field === f);
    // A field may yield more on that day than the plan says, so the share that is cut is told as well.
    const cut = sum(off.filter((trip) => trip.filled <= time)) / (sum(off) + day.uncut[f]!);
    return [{ field: name, mass: tonnes(sum(loads)), cut: `${(100 * cut).toFixed(1)} %`, ...(storage === storages[0] ? {} : { storage: scenario.storages[storage!]!.name }) }];
  });
  const apron = scenario.storages.map(({ name }, s) => ({
    storage: name, mass: tonnes(Math.max(0, sum(tipped.filter((trip) => trip.storage === s)) - sum(day.lifts.filter((lift) => lift.storage === s && lift.spreadFrom <= time)))),
  }));
  return {
    at: clock(time), ...said("delivered", delivered),
    apron: apron.length === 1 ? apron[0]!.mass : apron,
    onTheRoad: day.trips.filter((trip) => trip.filled <= time && trip.tipped > time).length,
  };
}

/** A list of the state, which says nothing rather than an empty one. */
const said = (key: string, list: readonly Json[]): Document => (list.length === 0 ? {} : { [key]: list });

/** Has a problem of the state a line of the form to stand at? Otherwise it is about a list as a whole, or about a name or key that the form does not know. */
export function hasLine(pointer: string, standing: Document, { fields, storages }: Scenario): boolean {
  const [, key = "", place] = /^\/from\/(\w+)(?:\/(\d+))?(?:\/|$)/u.exec(pointer) ?? [];
  const named = (list: readonly { readonly name: string }[], as: string) => list.some(({ name }) => name === at(standing, [key, Number(place), as]));
  if (key === "delivered") return place !== undefined && named(fields, "field");
  if (key === "apron" && storages.length > 1) return place !== undefined && named(storages, "storage");
  if (key === "machines") return place !== undefined;
  return ["at", "apron", "onTheRoad", "density"].includes(key);
}

/** The place of what a list of the state tells under a name, or behind the list's end. */
function placeIn(standing: Document, list: string, key: string, name: string): number {
  const entries = listAt(standing, [list]);
  const place = entries.findIndex((entry) => at(entry, [key]) === name);
  return place < 0 ? entries.length : place;
}

/** Of a field among what came in. */
export const fieldPlace = (standing: Document, field: string): number => placeIn(standing, "delivered", "field", field);

/** Of a storage among what lies on the aprons. */
export const apronPlace = (standing: Document, storage: string): number => placeIn(standing, "apron", "storage", storage);

/** Names of the machines of a plan as a state of the day may name them: a truck by its kind and number. */
export const machinesOf = (scenario: Scenario): string[] => [
  ...scenario.choppers.map(({ name }) => name),
  ...truckNames(scenario),
  ...scenario.storages.flatMap(({ tractors }) => tractors.map(({ name }) => name)),
];

/** The state with what came in from a field; null takes the field out: nothing of it is in yet. */
export function withDelivered(standing: Document, field: string, mass: string | null): Document {
  const list = listAt(standing, ["delivered"]);
  const place = fieldPlace(standing, field);
  if (mass === null) {
    const { delivered: _, ...without } = standing;
    return { ...without, ...said("delivered", list.filter((__, i) => i !== place)) };
  }
  const entry = list[place];
  // The share of the field that was told before belongs to the mass that was told before.
  const { cut: _, ...others } = (typeof entry === "object" && entry !== null && !Array.isArray(entry) ? entry : {}) as Document;
  const changed = { ...others, field, mass };
  return { ...standing, delivered: place < list.length ? list.map((each, i) => (i === place ? changed : each)) : [...list, changed] };
}

/** What lies on the apron of a storage, as the state tells it: bare, for the only storage there is, or by name. */
export function apronAt(standing: Document, storage: string): Json | undefined {
  const said = at(standing, ["apron"]);
  return Array.isArray(said) ? at(said.find((entry: Json) => at(entry, ["storage"]) === storage), ["mass"]) : said;
}

export function withApron(standing: Document, scenario: Scenario, storage: string, mass: string): Document {
  if (scenario.storages.length === 1) return { ...standing, apron: mass };
  return { ...standing, apron: scenario.storages.map(({ name }) => ({ storage: name, mass: name === storage ? mass : (apronAt(standing, name) ?? written(0, "mass", "metric")) })) };
}

/** A machine that does not work: until a time of day, or for the rest of it. */
export interface Down { readonly name: string; readonly until: string | null }

export function downOf(standing: Document): readonly Down[] {
  return listAt(standing, ["machines"]).map((entry) => {
    const [, until] = /^\s*until\s+(\d{1,2}:\d{2})\s*$/u.exec(String(at(entry, ["down"]))) ?? [];
    return { name: String(at(entry, ["name"])), until: until ?? null };
  });
}

export function withDown(standing: Document, down: readonly Down[]): Document {
  const { machines: _, ...others } = standing;
  return { ...others, ...said("machines", down.map(({ name, until }) => ({ name, down: until === null ? "all day" : `until ${until}` }))) };
}

/** An hour after the state's own time, within the day: when a machine that has just gone down may be back. */
export function anHourOn(standing: Document): string {
  const from = secondsOfClock(String(at(standing, ["at"]))) ?? NOON;
  return clock(Math.min(from + 3600, 86_340));
}
