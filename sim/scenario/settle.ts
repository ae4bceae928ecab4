/** From a scenario as written, already passed by the schema, to the checked one: SI, defaults, names turned into indices, and what cannot be together refused. */
import { checksOf } from "../forage/geometry/index.ts";
import { densestDry } from "../forage/porespace.ts";
import { campaignOf } from "./campaign.ts";
import { Desk, isOn } from "./desk.ts";
import { LIMITS } from "./limits.ts";
import { Survey } from "./survey.ts";
import { choppersOf, commonBreakdowns, trucksOf } from "./machines.ts";
import { clockOf } from "./pieces.ts";
import { searchOf } from "./search.ts";
import { storagesOf } from "./storages.ts";
import { LOSS_SWITCHES } from "./types.ts";
import type { BehindRule, Chopper, Crop, CropKind, Field, LossSwitch, Scenario, Storage, TruckKind, WedgeRoom } from "./types.ts";
import { formatNumber, settled } from "./units.ts";
import { variationOf } from "./variation.ts";
import { found, listed, pathOf } from "./words.ts";
import type { Path } from "./words.ts";
import type { WrittenScenario } from "./written.ts";

/** dryMatter and moisture may both be given when they agree within this: people round (assumption of this project). */
const AGREES = 0.001;

/** Builds the scenario. What is wrong is on the desk's problems; the scenario is then of no use. */
export function settle(written: WrittenScenario, desk: Desk): Scenario {
  const name = desk.wordOr(written.name, "name").trim();
  const crop = cropOf(written.crop ?? {}, desk);
  const common = commonBreakdowns(desk.silence.fill(written.breakdowns, "breakdowns") as WrittenScenario["breakdowns"], desk);
  const choppers = choppersOf(written.choppers, common, desk);
  const trucks = trucksOf(written.trucks, crop.looseDensity, choppers.map((chopper) => chopper.name), common, desk);
  const storages = storagesOf(written, common, desk);
  const fields = fieldsOf(written, crop, choppers, storages, desk);
  const scenario: Scenario = {
    name,
    crop,
    fields,
    choppers,
    trucks,
    lane: laneOf(written, fields, desk),
    weighing: weighingOf(written, desk),
    storages,
    packing: packingOf(written.packing, desk),
    targets: targetsOf(written, crop, fields, desk),
    shift: shiftOf(written.shift ?? {}, desk),
    variation: variationOf(desk.silence.fill(written.variation, "variation"), desk.problems),
    herd: written.herd === undefined ? null : {
      head: written.herd.head,
      intake: desk.si(written.herd.intake, "herd.intake"),
      season: desk.wordOr(written.herd.season, "herd.season") as "winter" | "summer",
    },
    money: {
      currency: desk.wordOr(written.currency, "currency").trim(),
      labourPerHour: desk.siOr(written.labour, "labour"),
      fuelPerLitre: desk.siOr(written.fuelPrice, "fuelPrice"),
      feedValuePerTonne: desk.siOr(written.feedValue, "feedValue"),
    },
    covering: coveringOf(written.covering ?? {}, desk),
    losses: lossesOf(written.losses, desk),
    ...(written.search === undefined ? {} : { search: searchOf(written.search, trucks, storages, common, desk) }),
    seed: desk.countOr(written.seed, "seed"),
  };
  const campaign = written.campaign === undefined ? null : campaignOf(written.campaign, scenario, desk);
  refuseTooMuchWork(fields, choppers, trucks, desk);
  if (desk.problems.count === 0) refuseTooSmall(scenario, desk);
  return campaign === null ? scenario : { ...scenario, campaign };
}

/** A storage must take one load of the smallest truck at least. */
function refuseTooSmall({ storages, trucks, crop, targets }: Scenario, desk: Desk): void {
  const load = (Math.min(...trucks.map((kind) => kind.load)) * crop.dryMatter) / targets.dryDensity;
  storages.forEach((storage, i) => {
    for (const { key, refuses, detail } of checksOf(storage, 0, load)) if (refuses) desk.problems.tell(["storage", i, key], `${storage.name}: ${detail}`);
  });
}

/** Dry matter from either way of saying it, or null when neither is there. */
function dryMatterOf(written: { dryMatter?: string | number; moisture?: string | number }, name: "crop" | "fields[]", at: Path, desk: Desk): number | null {
  const dryMatter = desk.siOrNull(written.dryMatter, `${name}.dryMatter`);
  const moisture = desk.siOrNull(written.moisture, `${name}.moisture`);
  if (moisture === null) return dryMatter;
  const fromMoisture = settled(1 - moisture);
  if (dryMatter !== null && Math.abs(dryMatter - fromMoisture) > AGREES) {
    desk.problems.add([...at, "moisture"], `is ${found(written.moisture)}, but a dryMatter of ${found(written.dryMatter)} leaves ${percent(1 - dryMatter)} moisture: leave one of them out`);
  }
  return dryMatter ?? fromMoisture;
}

const percent = (share: number): string => `${Number((100 * share).toFixed(1))} %`;

function cropOf(written: NonNullable<WrittenScenario["crop"]>, desk: Desk): Crop {
  const kind = desk.wordOr(written.kind, "crop.kind") as CropKind;
  const dryMatter = dryMatterOf(written, "crop", ["crop"], desk) ?? desk.siOr(undefined, "crop.dryMatter", [], { crop: kind });
  return {
    kind,
    dryMatter,
    chopLength: desk.siOr(written.chopLength, "crop.chopLength"),
    looseDensity: desk.siOr(written.looseDensity, "crop.looseDensity", [], { dryMatter }),
  };
}

function fieldsOf(written: WrittenScenario, crop: Crop, choppers: readonly Chopper[], storages: readonly Storage[], desk: Desk): Field[] {
  const chopperNames = choppers.map(({ name }) => name);
  const storageNames = storages.map(({ name }) => name);
  const before = desk.problems.count;
  const survey = new Survey(written.storage, desk);
  const fields = written.fields.map((field, i): Field => {
    const at = ["fields", i];
    const destinations = destinationsOf(field.storage, storageNames, [...at, "storage"], desk);
    const ground = survey.of(field, at, destinations[0]);
    const tied = field.chopper === undefined ? -1 : desk.indexOf(field.chopper, chopperNames, [...at, "chopper"], "chopper");
    return {
      name: desk.nameOr(field.name, "fields[].name", at),
      area: ground.area,
      yield: desk.si(field.yield, "fields[].yield"),
      distance: ground.distance,
      rowLength: ground.rowLength,
      dryMatter: dryMatterOf(field, "fields[]", at, desk) ?? crop.dryMatter,
      storages: destinations,
      chopper: tied < 0 ? null : tied,
      owner: field.owner?.trim() ?? null,
      opening: field.opening === undefined ? null : {
        time: desk.si(field.opening.time, "fields[].opening.time"),
        pace: desk.si(field.opening.pace, "fields[].opening.pace"),
      },
    };
  });
  desk.refuseDoubles(fields.map(({ name }) => name), (i) => ["fields", i, "name"]);
  // A misspelt name leaves its storage or chopper without a field: once is enough to tell.
  if (desk.problems.count > before) return fields;
  storages.forEach(({ name }, s) => {
    if (!fields.some((field) => field.storages.includes(s))) {
      desk.problems.add(["storage", s], `is ${found(name)}, to which no field leads: name it under the storage of a field, or leave it out`);
    }
  });
  choppers.forEach(({ name }, c) => {
    if (fields.every((field) => field.chopper !== null && field.chopper !== c)) {
      desk.problems.add(["choppers", c], `is ${found(name)}, for which no field is left: every field is tied to another chopper`);
    }
  });
  return fields;
}

/** Indices of the storages a field leads to, first choice first; all of them when the file is silent. */
function destinationsOf(written: string | string[] | undefined, storageNames: readonly string[], path: Path, desk: Desk): number[] {
  if (written === undefined) return storageNames.map((_, s) => s);
  if (typeof written === "string") return [desk.indexOf(written, storageNames, path, "storage")].filter((s) => s >= 0);
  const indices = written.map((name, i) => desk.indexOf(name, storageNames, [...path, i], "storage"));
  indices.forEach((s, i) => {
    if (s >= 0 && indices.indexOf(s) < i) desk.problems.add([...path, i], `is ${found(written[i])}, which is in this list already`);
  });
  return indices.filter((s) => s >= 0);
}

function laneOf(written: WrittenScenario, fields: readonly Field[], desk: Desk): Scenario["lane"] {
  const lane = desk.silence.fill(written.lane, "lane");
  if (typeof lane === "string") return null;
  const length = desk.si(lane.length, "lane.length");
  const near = fields.findIndex((field) => field.distance < length);
  if (near >= 0) desk.problems.add(["lane", "length"], `is ${found(lane.length)}, longer than the whole road of ${pathOf(["fields", near])}: the lane lies inside every field's distance`);
  return { length, speed: desk.si(lane.speed, "lane.speed"), meeting: desk.siOr(lane.meeting, "lane.meeting") };
}

function weighingOf(written: WrittenScenario, desk: Desk): Scenario["weighing"] {
  const weighing = desk.silence.fill(written.weighing, "weighing");
  if (typeof weighing === "string") return null;
  return { time: desk.si(weighing.time, "weighing.time"), lanes: desk.countOr(weighing.lanes, "weighing.lanes") };
}

function packingOf(written: WrittenScenario["packing"], desk: Desk): Scenario["packing"] {
  return {
    layer: desk.siOr(written.layer, "packing.layer"),
    layerTerm: isOn(desk.silence.fill(written.layerTerm, "packing.layerTerm")),
    wedgeRoom: desk.wordOr(written.wedgeRoom, "packing.wedgeRoom") as WedgeRoom,
    whenBehind: desk.wordOr(written.whenBehind, "packing.whenBehind") as BehindRule,
    finish: desk.siOr(written.finish, "packing.finish"),
  };
}

function coveringOf(written: NonNullable<WrittenScenario["covering"]>, desk: Desk): Scenario["covering"] {
  return {
    filmPerArea: { plain: desk.siOr(written.plain, "covering.plain"), barrier: desk.siOr(written.barrier, "covering.barrier") },
    people: desk.countOr(written.people, "covering.people"),
    pace: desk.siOr(written.pace, "covering.pace"),
  };
}

/** One word switches all lines; in a group each line that is left out is on, and is told by its own place. */
function lossesOf(written: WrittenScenario["losses"], desk: Desk): Scenario["losses"] {
  const grouped = typeof written === "object" ? written : null;
  const all = grouped ? true : isOn(desk.silence.fill(written as string | boolean | undefined, "losses"));
  const on = (line: LossSwitch) => (grouped ? isOn(desk.silence.fill(grouped[line], "losses", `losses.${line}`)) : all);
  return Object.fromEntries(LOSS_SWITCHES.map((line) => [line, on(line)])) as Record<LossSwitch, boolean>;
}

/** Targets, refused where solids and water alone would fill more than the whole: pore space below zero. */
function targetsOf(written: WrittenScenario, crop: Crop, fields: readonly Field[], desk: Desk): Scenario["targets"] {
  const dryDensity = desk.siOr(written.targets?.dryDensity, "targets.dryDensity");
  const poreSpace = desk.siOr(written.targets?.poreSpace, "targets.poreSpace");
  const wettest = Math.min(crop.dryMatter, ...fields.map((field) => field.dryMatter));
  const densest = densestDry(wettest);
  if (dryDensity >= densest) {
    desk.problems.add(
      ["targets", "dryDensity"],
      `is ${Math.round(dryDensity)} kg/m3, which leaves no pore space at a dry matter of ${percent(wettest)}: less than ${Math.floor(densest)} kg/m3 would do`,
    );
  }
  return { dryDensity, poreSpace };
}

function shiftOf(written: NonNullable<WrittenScenario["shift"]>, desk: Desk): Scenario["shift"] {
  const start = clockOf(desk.wordOr(written.start, "shift.start")) ?? NaN;
  const end = clockOf(desk.wordOr(written.end, "shift.end")) ?? NaN;
  if (end <= start) {
    desk.problems.add(["shift", "end"], `is ${found(written.end ?? "20:00")}, not after the start: a shift ends on the day it starts, at 24:00 at the latest`);
  }
  const wanted = desk.silence.fill(written.breaks, "shift.breaks");
  const breaks = typeof wanted === "string" ? [] : wanted.map((pause) => ({ at: clockOf(pause.at) ?? NaN, for: desk.si(pause.for, "shift.breaks[].for") }));
  breaks.forEach((pause, i) => {
    const path: Path = ["shift", "breaks", i];
    const previous = breaks[i - 1];
    if (pause.at < start || pause.at + pause.for > end) desk.problems.add(path, "does not lie within the shift: let it begin and end between start and end");
    else if (previous && pause.at < previous.at + previous.for) desk.problems.add(path, "begins before the break before it is over: write them in the order of the day");
  });
  const off = breaks.reduce((total, pause) => total + pause.for, 0);
  if (off > 0 && off >= end - start) desk.problems.add(["shift", "breaks"], "fill the whole shift: leave some time to work");
  return { start, end, breaks };
}

/** Keeps a day bounded: loads and rows are what a day's work grows with. */
function refuseTooMuchWork(fields: readonly Field[], choppers: readonly Chopper[], trucks: readonly TruckKind[], desk: Desk): void {
  const load = Math.min(...trucks.map((truck) => truck.load));
  const width = Math.min(...choppers.map((chopper) => chopper.width));
  const loads = fields.reduce((total, field) => total + (field.area * field.yield) / load, 0);
  const rows = fields.reduce((total, field) => total + field.area / (width * field.rowLength), 0);
  const told = ([[loads, LIMITS.loads, "loads"], [rows, LIMITS.rows, "rows"]] as const).filter(([expected, most]) => expected > most);
  if (told.length > 0) {
    desk.problems.add(["fields"], `make about ${listed(told.map(([expected, most, what]) => `${formatNumber(expected, 0)} ${what}, where up to ${formatNumber(most, 0)} would do`), "and")}: less area, larger trucks or longer rows would do`);
  }
}
