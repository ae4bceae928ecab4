/**
 * A change that a study made to a checked scenario, made to the reader's own document: only what differs is written, everything else keeps the
 * words, units and silences it has.
 */
import type { Field, Scenario, Storage, Tractor } from "../../sim/scenario/types.ts";
import { at, listAt, put, type Document, type Json, type Path } from "../document.ts";
import { clock, shownIn, written, type DimensionName, type UnitSystem } from "../quantity.ts";

/**
 * The document of `before` with what is different in `after`: numbers of trucks, crews, ballast, layer, rule, pace, tipping places, apron,
 * rolling, breaks, start, and storages added at the end. What else differs is left as it is.
 * @param system units that new quantities are written in
 */
export function changedDocument(document: Document, before: Scenario, after: Scenario, system: UnitSystem): Document {
  const say = (value: number, dimension: DimensionName) => written(shownIn(value, dimension, system), dimension, system);
  let changed = document;
  const set = (path: Path, value: Json) => { changed = put(changed, path, value); };

  const trucks = after.trucks.map(({ kind }) => before.trucks.findIndex((old) => old.kind === kind));
  set(["trucks"], trucks.map((old, i) => {
    const told = listAt(document, ["trucks"])[old] as Document;
    const { count } = after.trucks[i]!;
    return count === before.trucks[old]!.count ? told : { ...told, count };
  }));

  after.choppers.forEach((chopper, i) => {
    const old = before.choppers[i]!;
    if (chopper.speed !== old.speed) set(["choppers", i, "speed"], say(chopper.speed, "speed"));
    if (chopper.throughput !== old.throughput) set(["choppers", i, "throughput"], say(chopper.throughput, "flow"));
  });

  if (after.packing.layer !== before.packing.layer) set(["packing", "layer"], say(after.packing.layer, "thickness"));
  if (after.packing.whenBehind !== before.packing.whenBehind) set(["packing", "whenBehind"], after.packing.whenBehind);
  if (after.shift.start !== before.shift.start) set(["shift", "start"], clock(after.shift.start));
  if (after.shift.breaks.length !== before.shift.breaks.length) set(["shift", "breaks"], []);

  after.storages.forEach((storage, s) => {
    const model = Math.min(s, before.storages.length - 1);
    const old = before.storages[model]!;
    if (s !== model) set(["storage"], [...listAt(changed, ["storage"]), { ...(listAt(document, ["storage"])[model] as Document), name: storage.name }]);
    if (storage.tippingPlaces !== old.tippingPlaces) set(["storage", s, "tippingPlaces"], storage.tippingPlaces);
    if (storage.apron !== old.apron) set(["storage", s, "apron"], say(storage.apron, "mass"));
    // A crew that stands under packing is that of the one place there is; where there are several, each has its own.
    const own = listAt(document, ["storage", model, "tractors"]).length > 0;
    const moves = !own && after.storages.length > before.storages.length;
    if (s !== model || moves || !sameCrew(storage, old)) {
      const crew = crewOf(storage, old, listAt(document, own ? ["storage", model, "tractors"] : ["packing", "tractors"]), say);
      set(own || moves ? ["storage", s, "tractors"] : ["packing", "tractors"], crew);
    }
    if (moves) {
      const { tractors: _, ...packing } = changed.packing as Document;
      set(["packing"], packing);
    }
  });

  const pool = listAt(changed, ["packing", "tractors"]);
  if (listAt(document, ["storage"]).some((storage) => listAt(storage, ["tractors"]).some((word) => typeof word === "string"))) {
    const called = new Set(listAt(changed, ["storage"]).flatMap((storage) => listAt(storage, ["tractors"])));
    set(["packing", "tractors"], pool.filter((tractor) => called.has(at(tractor, ["name"]) as Json)));
  }
  after.fields.forEach((field, f) => {
    if (!sameList(field.storages, before.fields[f]!.storages)) set(["fields", f, "storage"], namesOf(field, after));
  });
  return changed;
}

/** The crew as the document would say it: who was there keeps the words it has, save what changed. */
function crewOf(storage: Storage, old: Storage, told: readonly Json[], say: (value: number, dimension: DimensionName) => string): Json {
  return storage.tractors.map((tractor, i) => {
    let place = old.tractors.findIndex(({ name }) => name === tractor.name);
    // A whole crew taken over under other names, as at a second place.
    if (place < 0 && storage.tractors.length === old.tractors.length && old.tractors[i]!.mass === tractor.mass) place = i;
    const known = old.tractors[place];
    if (known === undefined) return newTractor(tractor, say);
    const word = told[place];
    // Called by name out of the pool under packing: it stays there as long as nothing about it changes.
    if (typeof word === "string" && word === tractor.name && tractor.mass === known.mass && tractor.rolling === known.rolling) return word;
    return {
      ...((typeof word === "string" ? newTractor(known, say) : word) as Document), name: tractor.name,
      ...(tractor.mass === known.mass ? {} : { mass: say(tractor.mass, "machineMass") }),
      ...(tractor.rolling === known.rolling ? {} : { rolling: percent(tractor.rolling) }),
    };
  });
}

function newTractor({ name, mass, spreads, rolling, maxMass, width, power, costPerHour }: Tractor, say: (value: number, dimension: DimensionName) => string): Json {
  return {
    name, mass: say(mass, "machineMass"), rolling: percent(rolling), width: say(width, "length"), cost: `${Number(costPerHour.toFixed(6))} per h`,
    ...(spreads === null ? {} : { spreads: say(spreads, "flow") }),
    ...(maxMass === null ? {} : { maxMass: say(maxMass, "machineMass") }),
    ...(power === null ? {} : { power: say(power, "power") }),
  };
}

const percent = (share: number): string => `${Number((100 * share).toFixed(6))} %`;

const sameCrew = (a: Storage, b: Storage): boolean =>
  a.tractors.length === b.tractors.length && a.tractors.every((tractor, i) => tractor.name === b.tractors[i]!.name && tractor.mass === b.tractors[i]!.mass && tractor.rolling === b.tractors[i]!.rolling);

const sameList = (a: readonly number[], b: readonly number[]): boolean => a.length === b.length && a.every((item, i) => item === b[i]);

const namesOf = ({ storages }: Field, scenario: Scenario): Json => storages.map((s) => scenario.storages[s]!.name);
