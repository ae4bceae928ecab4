/** Storages and the crews that work at them: from words to SI. */
import { capacityOf } from "../forage/geometry/index.ts";
import type { Desk } from "./desk.ts";
import { isOn } from "./desk.ts";
import { tractorOf } from "./machines.ts";
import type { CommonBreakdowns } from "./machines.ts";
import { slopeOf } from "./pieces.ts";
import type { Storage, Tractor } from "./types.ts";
import { settled } from "./units.ts";
import { found } from "./words.ts";
import type { Path } from "./words.ts";
import type { WrittenScenario, WrittenStorage } from "./written.ts";

/** Given top width and slope may disagree by this share of the top width, or by 5 cm: people round (assumption of this project). */
const ROUNDING = 0.02;

export function storagesOf(written: WrittenScenario, common: CommonBreakdowns, desk: Desk): Storage[] {
  const crews = crewsOf(written, common, desk);
  const anyTruckTipsOnPile = written.trucks.some(({ tipsOnPile }) => isOn(tipsOnPile ?? false));
  const storages = written.storage.map((storage, i): Storage => {
    const at = ["storage", i];
    const { form } = storage;
    const base = {
      name: desk.nameOr(storage.name, "storage[].name", at),
      form,
      width: desk.si(storage.width, "storage[].width"),
      length: desk.si(storage.length, "storage[].length"),
      height: desk.si(storage.height, "storage[].height"),
      wedge: slopeOf(desk.wordOr(storage.wedge, "storage[].wedge", at)) ?? NaN,
      ...(form === "pile" ? pileSides(storage, at, desk) : bunkerSides(storage, at, desk)),
    };
    const meanDepth = desk.siOrNull(storage.meanDepth, "storage[].meanDepth");
    if (form === "pile" && meanDepth !== null && meanDepth > base.height) {
      desk.problems.add([...at, "meanDepth"], `is ${found(storage.meanDepth)}, more than the pile's height of ${found(storage.height)}`);
    }
    return {
      ...base,
      meanDepth,
      apron: desk.siOr(storage.apron, "storage[].apron", at, { form }),
      tippingPlaces: desk.countOr(storage.tippingPlaces, "storage[].tippingPlaces", at),
      tipsOnPile: storage.tipsOnPile === undefined ? form === "pile" && anyTruckTipsOnPile : isOn(storage.tipsOnPile),
      tractors: crews[i] ?? [],
      cover: desk.wordOr(storage.cover, "storage[].cover", at) as Storage["cover"],
      unloaderReach: desk.siOrNull(storage.unloaderReach, "storage[].unloaderReach"),
      wallRating: desk.siOrNull(storage.wallRating, "storage[].wallRating"),
      capitalCost: desk.countOr(storage.capitalCost, "storage[].capitalCost", at),
      life: desk.siOr(storage.life, "storage[].life", at),
    };
  });
  desk.refuseDoubles(storages.map(({ name }) => name), (i) => ["storage", i, "name"]);
  if (anyTruckTipsOnPile && !storages.some(({ form }) => form === "pile")) {
    const which = written.trucks.findIndex(({ tipsOnPile }) => isOn(tipsOnPile ?? false));
    desk.problems.add(["trucks", which, "tipsOnPile"], "is on, but no storage is a pile: leave it out");
  }
  return storages;
}

type Sides = Pick<Storage, "sideSlope" | "topWidth">;

function bunkerSides(storage: WrittenStorage, at: Path, desk: Desk): Sides {
  for (const key of ["sideSlope", "topWidth"] as const) {
    if (storage[key] !== undefined) desk.problems.add([...at, key], `is ${found(storage[key])}, but a bunker has upright walls: leave it out, or say form: pile`);
  }
  if (isOn(storage.tipsOnPile ?? false)) desk.problems.add([...at, "tipsOnPile"], "is on, but this is a bunker: leave it out, or say form: pile");
  return { sideSlope: 0, topWidth: null };
}

/** Base width, height, top width and slope hang together: top = base - 2 x slope x height. Either of the last two gives the other. */
function pileSides(storage: WrittenStorage, at: Path, desk: Desk): Sides {
  const [width, length, height] = [desk.si(storage.width, "storage[].width"), desk.si(storage.length, "storage[].length"), desk.si(storage.height, "storage[].height")];
  const givenTop = desk.siOrNull(storage.topWidth, "storage[].topWidth");
  if (givenTop !== null && givenTop >= width) {
    desk.problems.add([...at, "topWidth"], `is ${found(storage.topWidth)}, not less than the base width of ${found(storage.width)}: a pile gets narrower`);
    return { sideSlope: 0, topWidth: givenTop };
  }
  const sideSlope = givenTop !== null && storage.sideSlope === undefined
    ? settled((width - givenTop) / (2 * height))
    : slopeOf(desk.wordOr(storage.sideSlope, "storage[].sideSlope", at)) ?? NaN;
  const top = settled(width - 2 * sideSlope * height);
  if (givenTop !== null && Math.abs(top - givenTop) > Math.max(ROUNDING * givenTop, 0.05)) {
    desk.problems.add([...at, "topWidth"], `is ${found(storage.topWidth)}, but base, height and sideSlope give ${Number(top.toFixed(2))} m: leave one of them out`);
  } else if (!(top > 0 && length - 2 * sideSlope * height > 0)) {
    const highest = Math.min(width, length) / (2 * sideSlope);
    desk.problems.add([...at, "height"], `is ${found(storage.height)}: with sides of 1:${Number(sideSlope.toFixed(2))} this base comes to a ridge at ${Number(highest.toFixed(2))} m; a lower pile or a larger base would do`);
  } else if (!(capacityOf({ form: "pile", width, length, height, sideSlope, meanDepth: null }) > 0)) {
    desk.problems.add(at, "holds nothing: a larger base would do");
  }
  return { sideSlope, topWidth: givenTop ?? top };
}

/** Who works where: with one storage everybody there; with several, each names its own, and nobody works at two. */
function crewsOf(written: WrittenScenario, common: CommonBreakdowns, desk: Desk): Tractor[][] {
  const pool = (written.packing.tractors ?? []).map((tractor, i) => tractorOf(tractor, ["packing", "tractors", i], i + 1, common, desk));
  const poolNames = pool.map(({ name }) => name);
  const places: Path[] = pool.map((_, i) => ["packing", "tractors", i, "name"]);
  const everybody = [...poolNames];
  const taken = new Map<number, string>();
  const alone = written.storage.length === 1;

  const crews = written.storage.map((storage, s): Tractor[] => {
    const at: Path = ["storage", s, "tractors"];
    if (storage.tractors === undefined) {
      if (alone) return pool;
      desk.problems.add(at, "is missing: with several storages each needs its own tractors, by the names in packing.tractors");
      return [];
    }
    return storage.tractors.flatMap((entry, i): Tractor[] => {
      const place: Path = [...at, i];
      if (typeof entry !== "string") {
        const tractor = tractorOf(entry, place, everybody.length + 1, common, desk);
        everybody.push(tractor.name);
        places.push([...place, "name"]);
        return [tractor];
      }
      const index = desk.indexOf(entry, poolNames, place, "tractor of packing.tractors");
      if (index < 0) return [];
      const already = taken.get(index);
      if (already !== undefined) {
        desk.problems.add(place, `is ${found(entry)}, who works at ${already} already: one tractor works at one storage`);
        return [];
      }
      taken.set(index, `storage[${s}]`);
      return [pool[index]!];
    });
  });

  if (!(alone && written.storage[0]?.tractors === undefined)) {
    pool.forEach((tractor, i) => {
      if (!taken.has(i)) desk.problems.add(["packing", "tractors", i], `is ${found(tractor.name)}, who works nowhere: name it under the tractors of a storage, or leave it out`);
    });
  }
  desk.refuseDoubles(everybody, (i) => places[i]!);
  crews.forEach((crew, s) => {
    const known = written.storage[s]?.tractors !== undefined || alone;
    if (known && !crew.some(({ spreads }) => spreads !== null)) {
      const at: Path = alone && written.storage[0]?.tractors === undefined ? ["packing", "tractors"] : ["storage", s, "tractors"];
      desk.problems.add(at, "need at least one tractor with spreads, such as \"220 t/h\": without a blade nothing is laid");
    }
  });
  return crews;
}
