/**
 * What one more packing tractor would cost a day, beside the dry matter it would save: a first estimate from the relation on a day as it
 * went, at the same delivery, lift for lift and at the same depth. It is not a rehearsal: under a rule that holds the trucks the tractor
 * would give time rather than density, and the study of fixes rehearses that.
 */
import { fuelByPower } from "../forage/fuel.ts";
import { lossSaved } from "../forage/losses.ts";
import { capacityOf, shareThatCounts } from "../forage/geometry/index.ts";
import { dryDensityOf, heaviestFirst, packingEffort } from "../forage/packing.ts";
import type { Day } from "../harvest/daylog.ts";
import { layerSeen, roomOn } from "../harvest/pace.ts";
import type { Scenario } from "../scenario/types.ts";
import { coverOf } from "./cover.ts";
import { counted, meanOver, percent, sumOfMoney, tonnes } from "./figure.ts";
import { addedSpans, lossesOf } from "./ledger.ts";
import { storedIn } from "./stored.ts";
import type { OneMoreTractor } from "./types.ts";

/** The estimate for each storage that got anything on this day. */
export function oneMoreTractor(scenario: Scenario, day: Day): OneMoreTractor[] {
  return scenario.storages.flatMap((_, s) => (day.lifts.some((lift) => lift.storage === s) ? [atStorage(scenario, day, s)] : []));
}

/** t of dry matter under which nothing is said to be saved: it would be told as 0 t. */
const LEAST_SAVED = 0.05;

const movedBy = (before: number, after: number, name: string): string => {
  const [from, to] = [counted(before), counted(after)];
  return from === to ? `leave ${name} at ${from} kg DM/m3` : `bring ${name} from ${from} to ${to} kg DM/m3`;
};

function atStorage(scenario: Scenario, day: Day, s: number): OneMoreTractor {
  const storage = scenario.storages[s]!;
  const { tractors } = storage;
  const mass = meanOver(tractors, (tractor) => tractor.mass);
  const rolling = meanOver(tractors, (tractor) => tractor.rolling);
  const count = tractors.length;
  const blades = tractors.filter((tractor) => tractor.spreads !== null).length;
  const whole = capacityOf(storage);
  const room = roomOn(scenario, storage, whole, whole);
  const stored = storedIn(day, scenario, s);

  const masses = [...tractors.map((tractor) => tractor.mass), mass];
  const order = heaviestFirst(masses);
  let rolledMore = 0;
  const densities = stored.lifts.map((lift) => {
    // Time that each worked on the lift; blades only while nobody pushed. Those for whom the wedge has no room take turns, and with one more they do so sooner.
    const worked = tractors.map((tractor, i) => lift.rolled[i]! / tractor.rolling);
    const between = Math.max(...worked.filter((_, i) => tractors[i]!.spreads !== null));
    const more = (seconds: number) => {
      const all = Math.min(seconds, between);
      return (all * shareThatCounts(count + 1, room)) / shareThatCounts(count, room) + ((seconds - all) * shareThatCounts(count + 1 - blades, room)) / shareThatCounts(count - blades, room);
    };
    const further = more(Math.max(...worked)) * rolling;
    rolledMore += further;
    const effort = packingEffort(masses, [...worked.map((seconds, i) => more(seconds) * tractors[i]!.rolling), further], order);
    return dryDensityOf(effort, lift.mass, lift.dryMass / lift.mass, layerSeen(scenario, lift.layer), stored.depth);
  });

  const volume = stored.lifts.reduce((sum, lift, i) => sum + lift.dryMass / densities[i]!, 0);
  const { surface } = coverOf(scenario, storage, stored.volume);
  const lostAt = (each: readonly number[]) => lossesOf(scenario, storage.cover, { ...stored, surface, densities: each }).density.central;
  const saved = Math.max(0, lostAt(stored.densities) - lostAt(densities)) / 1000;
  const savedT = { low: (lossSaved(stored.dryMass / stored.volume, stored.dryMass / volume).byGrassTrial * stored.dryMass) / 1000, central: saved, high: saved };

  const { labourPerHour, fuelPerLitre, feedValuePerTonne, currency } = scenario.money;
  const crew = day.machines.filter((machine) => machine.storage === s);
  const hours = meanOver(crew, (machine) => machine.until - machine.from) / 3600;
  const powers = tractors.map((tractor) => tractor.power).filter((power) => power !== null);
  const fuel = powers.length === tractors.length ? fuelByPower(meanOver(powers, (power) => power), rolledMore) * fuelPerLitre : 0;
  const cost = hours * (meanOver(tractors, (tractor) => tractor.costPerHour) + labourPerHour) + fuel;

  const dryDensity = stored.dryMass / volume;
  const savedValue = addedSpans([savedT], feedValuePerTonne);
  return {
    storage: storage.name, mass, cost, dryDensity, savedT, savedValue,
    inWords: [
      `One more tractor like the crew's mean one (${tonnes(mass)}, rolling ${percent(rolling)}) would cost ${sumOfMoney(cost, currency)} a day `
      + `with its driver${fuel > 0 ? " and fuel" : ""}.`,
      `At the same delivery it would ${movedBy(stored.dryMass / stored.volume, dryDensity, storage.name)} by the relation, `
      + (saved < LEAST_SAVED ? "and save no dry matter to speak of."
        : `and save up to ${tonnes(saved * 1000)} of dry matter worth ${sumOfMoney(savedValue.high, currency)} by Ruppel's slope, nothing by the trial that found no difference.`),
      "A first estimate on the day shown, not rehearsed: a crew that holds the trucks would gain time instead.",
    ].join(" "),
  };
}
