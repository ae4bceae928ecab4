/** The plans a search goes through: from words to SI. */
import { clockOf } from "./pieces.ts";
import type { Desk } from "./desk.ts";
import { tractorOf } from "./machines.ts";
import type { CommonBreakdowns } from "./machines.ts";
import type { Search, Storage, TruckKind } from "./types.ts";
import { found } from "./words.ts";
import type { Path } from "./words.ts";
import type { WrittenSearch } from "./written.ts";

export function searchOf(written: WrittenSearch, trucks: readonly TruckKind[], storages: readonly Storage[], common: CommonBreakdowns, desk: Desk): Search {
  const at = ["search"];
  const paces = written.pace?.map((pace) => desk.si(pace, "search.pace")) ?? null;
  const layers = written.layers?.map((layer) => desk.si(layer, "packing.layer")) ?? null;
  refuseTwice(layers, written.layers, [...at, "layers"], desk);
  refuseTwice(paces, written.pace, [...at, "pace"], desk);
  refuseTwice(written.rules ?? null, written.rules, [...at, "rules"], desk);
  return {
    trucks: written.trucks === undefined ? null : trucksOf(written.trucks, trucks, desk),
    tractors: written.tractors === undefined ? null : tractorsOf(written.tractors, storages, common, desk),
    layers, rules: written.rules ?? null, pace: paces,
    targets: {
      finishBy: written.targets?.finishBy === undefined ? null : clockOf(written.targets.finishBy),
      waiting: desk.siOrNull(written.targets?.waiting, "search.targets.waiting"),
      relation: desk.siOrNull(written.targets?.relation, "search.targets.relation"),
    },
  };
}

function trucksOf(written: NonNullable<WrittenSearch["trucks"]>, trucks: readonly TruckKind[], desk: Desk): NonNullable<Search["trucks"]> {
  const most = trucks.reduce((best, { count }, i) => (count > trucks[best]!.count ? i : best), 0);
  const kind = written.kind === undefined ? most : desk.indexOf(written.kind, trucks.map((truck) => truck.kind), ["search", "trucks", "kind"], "kind of truck");
  refuseTurned(written, ["search", "trucks"], desk);
  return { kind: Math.max(0, kind), from: written.from, to: written.to };
}

function tractorsOf(written: NonNullable<WrittenSearch["tractors"]>, storages: readonly Storage[], common: CommonBreakdowns, desk: Desk): NonNullable<Search["tractors"]> {
  const at: Path = ["search", "tractors"];
  const names = storages.map(({ name }) => name);
  const storage = written.storage === undefined ? 0 : desk.indexOf(written.storage, names, [...at, "storage"], "storage");
  if (written.storage === undefined && storages.length > 1) desk.problems.add([...at, "storage"], `is missing: with several storages say at which, ${names.slice(0, 8).map(found).join(", ")}`);
  const working = storages.reduce((sum, { tractors }) => sum + tractors.length, 0);
  const list = written.list.map((entry, i) => ({ tractor: tractorOf(entry, [...at, "list", i], working + i + 1, common, desk), count: entry.count ?? 1 }));
  // Those that spread stay; the others of this storage make way for the list.
  const staying = storages.flatMap(({ tractors }, s) => tractors.filter(({ spreads }) => s !== storage || spreads !== null).map(({ name }) => name));
  desk.refuseDoubles(list.map(({ tractor }) => tractor.name), (i) => [...at, "list", i, "name"]);
  list.forEach(({ tractor }, i) => {
    if (staying.includes(tractor.name)) desk.problems.add([...at, "list", i, "name"], `is ${found(tractor.name)}, the name of a tractor that works already: each needs its own`);
  });
  refuseTurned(written, at, desk);
  const all = list.reduce((sum, entry) => sum + entry.count, 0);
  if (written.to > all) desk.problems.add([...at, "to"], `is ${written.to}, but the list has ${all} in all: a larger count of one of them, or a lower end would do`);
  return { storage: Math.max(0, storage), from: written.from, to: written.to, list };
}

/** A range that ends before it begins. */
function refuseTurned({ from, to }: { readonly from: number; readonly to: number }, at: Path, desk: Desk): void {
  if (from > to) desk.problems.add([...at, "to"], `is ${to}, less than the ${from} it starts from: turn them round`);
}

/** The same value twice would be the same plan twice. */
function refuseTwice(values: readonly unknown[] | null, written: readonly unknown[] | undefined, at: Path, desk: Desk): void {
  values?.forEach((value, i) => {
    if (values.indexOf(value) < i) desk.problems.add([...at, i], `is ${found(written![i])}, which is in this list already`);
  });
}
