/**
 * How things stand at a time of the day, as a crew can tell it: what came in from each field, what lies on the apron, how many loads are on
 * the road, which machine is down. Read like a scenario, and checked against the one it belongs to.
 */
import { z } from "zod";
import { capacityOf } from "../forage/geometry/index.ts";
import { densestDry } from "../forage/porespace.ts";
import { Desk } from "./desk.ts";
import { readDocument } from "./document.ts";
import { LIMITS } from "./limits.ts";
import { clock, clockOf, count, group, label, measured, several } from "./pieces.ts";
import { addIssues } from "./problems.ts";
import { frozen, refuseStrange } from "./read.ts";
import type { Problem, Scenario } from "./types.ts";
import { formatQuantity } from "./units.ts";
import { found, nearest } from "./words.ts";
import type { Path } from "./words.ts";
import { tippedOf } from "./tipped.ts";
import { truckName, truckNames } from "./trucknames.ts";

const ALL_DAY = "all day";
const DOWN = /^\s*until\s+(\d{1,2}:\d{2})\s*$/u;

const down = z.string({ error: ({ input }) => `is ${input === undefined ? "missing" : found(input)}: "until 14:00" or "${ALL_DAY}" would do` })
  .superRefine((text, context) => {
    const [, time] = DOWN.exec(text) ?? [];
    if (text.trim() !== ALL_DAY && (time === undefined || clockOf(time) === null)) context.addIssue({ code: "custom", message: `is ${found(text)}: "until 14:00" or "${ALL_DAY}" would do` });
  })
  .meta({ description: "How long it does not work.", pattern: `^\\s*(until\\s+\\d{1,2}:\\d{2}|${ALL_DAY})\\s*$`, examples: ["until 14:00", ALL_DAY] });

const onApron = group({ storage: label("Name of the storage."), mass: measured("now.mass") }, "What lies on the apron of one storage.");

/** The file as a person writes it. Only `at` must be there. */
export const writtenNow = group({
  at: clock("The time of day that it tells of."),
  delivered: several(group({
    field: label("Name of the field."),
    mass: measured("now.mass").optional(),
    cut: measured("now.cut").optional(),
    storage: label("Name of the storage it went to; the field's first when left out.").optional(),
  }, "What has come in from one field: the fresh mass tipped, the share of the field cut, or both."), LIMITS.fields, "fields").optional(),
  apron: z.union([measured("now.mass"), several(onApron, LIMITS.storages, "storages")], {
    error: ({ input }) => `is ${found(input)}: a mass such as "45 t", or with several storages a list of {storage, mass} would do`,
  }).meta({ description: "What of it lies on the apron, not yet spread." }).optional(),
  density: measured("now.density").optional(),
  onTheRoad: count(0, LIMITS.trucks, "Loads that are filled and not tipped yet.").optional(),
  machines: several(group({ name: label("Name of the machine; a truck by its kind and number, such as Tipper 3."), down }, "A machine that does not work now."), LIMITS.trucks, "machines").optional(),
}, "How things stand at a time of the day.").meta({ id: "now" });

type WrittenNow = z.infer<typeof writtenNow>;

/** Which list of the scenario a machine is in. */
export type MachineGroup = "chopper" | "truck" | "tractor";

/** How things stand, checked, in SI. */
export interface Now {
  /** s after midnight */ readonly at: number;
  /** by field that was begun */
  readonly delivered: readonly {
    /** index into `fields` */ readonly field: number;
    /** index into `storages` */ readonly storage: number;
    /** fresh kg tipped, or null where only the share is known */ readonly mass: number | null;
    /** share of the field that is cut, or null where only the mass is known */ readonly cut: number | null;
  }[];
  /** fresh kg on the apron, by storage */ readonly apron: readonly number[];
  /** kg DM/m3 of what lies packed, or null when not known */ readonly density: number | null;
  /** loads */ readonly onTheRoad: number;
  readonly away: readonly { readonly kind: MachineGroup; readonly name: string; /** s after midnight, or null for all day */ readonly until: number | null }[];
}

export type CheckedNow = { readonly now: Now } | { readonly problems: readonly Problem[] };

/** Reads YAML or JSON text. Problems carry line and column beside the pointer. */
export function readNow(text: string, scenario: Scenario): CheckedNow {
  const read = readDocument(text);
  if ("problem" in read) return { problems: [read.problem] };
  const checked = checkNow(read.value, scenario);
  return "now" in checked ? checked : { problems: checked.problems.map((problem) => ({ ...problem, ...read.placeOf(problem.pointer) })) };
}

/** Checks a document of plain values. What comes out is frozen. */
export function checkNow(document: unknown, scenario: Scenario): CheckedNow {
  const desk = new Desk("The state of the day");
  refuseStrange(document, desk);
  if (desk.problems.count > 0) return { problems: desk.problems.list };
  const parsed = writtenNow.safeParse(document);
  if (!parsed.success) {
    addIssues(desk.problems, parsed.error.issues);
    return { problems: desk.problems.list };
  }
  const now = settle(parsed.data, scenario, desk);
  return desk.problems.count > 0 ? { problems: desk.problems.list } : { now: frozen(now) };
}

const tonnes = (kg: number): string => formatQuantity(kg, "mass", "metric");
const wall = (seconds: number): string => `${String(Math.floor(seconds / 3600)).padStart(2, "0")}:${String(Math.round((seconds % 3600) / 60)).padStart(2, "0")}`;
/** Share by which sums may be over: people round (assumption of this project). */
const ROUNDING = 0.005;
const over = (kg: number, most: number): boolean => kg > most * (1 + ROUNDING);

function settle(written: WrittenNow, scenario: Scenario, desk: Desk): Now {
  const { shift } = scenario;
  const at = clockOf(written.at)!;
  if (at < shift.start || at > shift.end) desk.problems.add(["at"], `is ${found(written.at)}, outside the shift of ${wall(shift.start)} to ${wall(shift.end)}: a time within it would do`);
  const delivered = (written.delivered ?? []).map((entry, i) => deliveredOf(entry, ["delivered", i], scenario, desk));
  refuseTwice(delivered.map(({ field }) => field), (i) => ["delivered", i, "field"], (field) => scenario.fields[field]!.name, desk);
  const away = (written.machines ?? []).map((entry, i) => awayOf(entry, ["machines", i], scenario, at, desk));
  refuseTwice(away.map(({ name }) => name), (i) => ["machines", i, "name"], (name) => name, desk);
  const now: Now = { at, delivered, apron: apronOf(written.apron, scenario, desk), density: desk.siOrNull(written.density, "now.density"), onTheRoad: written.onTheRoad ?? 0, away };
  if (desk.problems.count === 0) refuseImpossible(now, written, scenario, desk);
  return now;
}

function deliveredOf(written: NonNullable<WrittenNow["delivered"]>[number], at: Path, scenario: Scenario, desk: Desk): Now["delivered"][number] {
  const field = desk.indexOf(written.field, scenario.fields.map(({ name }) => name), [...at, "field"], "field");
  const mass = desk.siOrNull(written.mass, "now.mass");
  const cut = desk.siOrNull(written.cut, "now.cut");
  if (mass === null && cut === null) desk.problems.add([...at, "mass"], "is missing: what was tipped, such as \"310 t\", or the share that is cut, such as cut: 60 %, would do");
  const grown = scenario.fields[field];
  const storage = written.storage === undefined ? grown?.storages[0] ?? -1 : desk.indexOf(written.storage, scenario.storages.map(({ name }) => name), [...at, "storage"], "storage");
  if (grown && storage >= 0 && !grown.storages.includes(storage)) desk.problems.add([...at, "storage"], `is ${found(written.storage)}, to which ${found(grown.name)} does not lead`);
  if (grown && mass !== null && cut === null && over(mass, grown.area * grown.yield)) {
    desk.problems.add([...at, "mass"], `is ${found(written.mass)}, but ${found(grown.name)} holds ${tonnes(grown.area * grown.yield)}: less would do, or say beside it what share is cut, or a higher yield in the scenario`);
  }
  return { field, storage, mass, cut };
}

function apronOf(written: WrittenNow["apron"], { storages }: Scenario, desk: Desk): number[] {
  const apron = storages.map(() => 0);
  if (written === undefined) return apron;
  if (!Array.isArray(written)) {
    if (storages.length > 1) desk.problems.add(["apron"], `is ${found(written)}: with several storages say which, [{storage: ${storages[0]!.name}, mass: 45 t}]`);
    else apron[0] = desk.si(written, "now.mass");
    return apron;
  }
  const places = written.map(({ storage }, i) => desk.indexOf(storage, storages.map(({ name }) => name), ["apron", i, "storage"], "storage"));
  refuseTwice(places, (i) => ["apron", i, "storage"], (s) => storages[s]!.name, desk);
  written.forEach(({ mass }, i) => {
    if (places[i]! >= 0) apron[places[i]!] = desk.si(mass, "now.mass");
  });
  return apron;
}

function awayOf({ name: written, down }: NonNullable<WrittenNow["machines"]>[number], at: Path, scenario: Scenario, from: number, desk: Desk): Now["away"][number] {
  const name = written.trim();
  const groups: Readonly<Record<MachineGroup, readonly string[]>> = {
    chopper: scenario.choppers.map((chopper) => chopper.name),
    truck: truckNames(scenario),
    tractor: scenario.storages.flatMap(({ tractors }) => tractors.map((tractor) => tractor.name)),
  };
  const kinds = (Object.keys(groups) as MachineGroup[]).filter((kind) => groups[kind].includes(name));
  if (kinds.length === 0) {
    const kind = scenario.trucks.find((truck) => truck.kind === name);
    const near = nearest(name, Object.values(groups).flat());
    const would = kind ? `say which, ${found(truckName(name, 0))}${kind.count > 1 ? ` to ${found(truckName(name, kind.count - 1))}` : ""}` : near ? `did you mean ${found(near)}?` : "the names of the scenario would do, a truck by its kind and number";
    desk.problems.add([...at, "name"], `is ${found(written)}: no machine has that name; ${would}`);
  } else if (kinds.length > 1) {
    desk.problems.add([...at, "name"], `is ${found(written)}, the name of a ${kinds.join(" and of a ")}: give one of them another name in the scenario`);
  }
  const time = DOWN.exec(down)?.[1];
  const until = time === undefined ? null : clockOf(time)!;
  if (until !== null && until <= from) desk.problems.add([...at, "down"], `is ${found(down)}, which is over at ${wall(from)}: leave it out`);
  return { kind: kinds[0] ?? "truck", name, until };
}

function refuseTwice<T>(values: readonly T[], placeOf: (i: number) => Path, called: (value: T) => string, desk: Desk): void {
  values.forEach((value, i) => {
    if (value !== -1 && values.indexOf(value) < i) desk.problems.add(placeOf(i), `is ${found(called(value))}, which stands in this list already: once would do`);
  });
}

/** Sums that cannot be: an apron fuller than it can be or than what came in, a storage that overflows, more loads on the road than trucks, nobody to spread. */
function refuseImpossible(now: Now, written: WrittenNow, scenario: Scenario, desk: Desk): void {
  const largest = Math.max(...scenario.trucks.map(({ load }) => load));
  scenario.storages.forEach((storage, s) => {
    const at: Path = Array.isArray(written.apron) ? ["apron", written.apron.findIndex((entry) => entry.storage.trim() === storage.name), "mass"] : ["apron"];
    const from = now.delivered.filter((entry) => entry.storage === s);
    const fresh = from.reduce((sum, entry) => sum + tippedOf(entry, scenario), 0);
    const lying = now.apron[s]!;
    const most = Math.max(storage.apron, largest);
    if (over(lying, most)) desk.problems.add(at, `is ${tonnes(lying)}, but the apron of ${found(storage.name)} holds ${tonnes(most)}`);
    else if (over(lying, fresh)) desk.problems.add(at, `is ${tonnes(lying)}, more than the ${tonnes(fresh)} that came to ${found(storage.name)} so far`);
    const dry = from.reduce((sum, entry) => sum + tippedOf(entry, scenario) * scenario.fields[entry.field]!.dryMatter, 0);
    const packed = fresh > 0 ? dry * (1 - lying / fresh) : 0;
    const densest = fresh > 0 ? densestDry(dry / fresh) : Infinity;
    if (now.density !== null && now.density > densest) {
      desk.problems.add(["density"], `is ${found(written.density)}: at this dry matter nothing is packed denser than ${Math.floor(densest)} kg/m3`);
    } else if (over(packed / (now.density ?? densest), capacityOf(storage))) {
      desk.problems.add(["delivered"], `come to ${tonnes(fresh)} in ${found(storage.name)}, more than it holds${now.density === null ? " however it is packed" : " at that density"}`);
    }
    if (lying > 0 || from.length > 0 || scenario.fields.some((field) => field.storages[0] === s)) {
      const blades = storage.tractors.filter(({ spreads }) => spreads !== null);
      const gone = ({ name }: { readonly name: string }) => now.away.some((each) => each.kind === "tractor" && each.name === name && each.until === null);
      if (blades.every(gone)) desk.problems.add(["machines"], `leave nobody to spread at ${found(storage.name)} today: without a blade nothing is laid`);
    }
  });
  const there = scenario.trucks.reduce((sum, kind) => sum + kind.count, 0) - now.away.filter(({ kind }) => kind === "truck").length;
  if (now.onTheRoad > there) desk.problems.add(["onTheRoad"], `is ${now.onTheRoad}, but only ${there} ${there === 1 ? "truck is" : "trucks are"} there`);
}
