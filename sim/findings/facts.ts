/** One rehearsed day in figures: a flat record, every measure a short expression over the two tables and the machines' state totals. */
import { densestDry, poreSpace } from "../forage/porespace.ts";
import type { Day, MachineDay, MachineState, Trip, WaitCause } from "../harvest/daylog.ts";
import type { Scenario } from "../scenario/types.ts";
import { coverOf, type Cover } from "./cover.ts";
import { packingDebt, readDebt } from "./debt.ts";
import { fuelUsed } from "./fuel.ts";
import { packingRateAtTarget } from "./hand.ts";
import { AT_TARGET_SHARE, LOST_TO_STORAGE } from "./headline.ts";
import { addedSpans, fedOf, lossesOf, lostOf, type LossAmounts } from "./ledger.ts";
import { farmTotal, harvestLines, lostLine, machineCost, storingLines } from "./money.ts";
import { pausedBetween } from "./pauses.ts";
import { storedIn, type Stored } from "./stored.ts";
import type { MeasureName, MoneyLine, Span } from "./types.ts";

/** One storage at the end of the day. Ratios are NaN while nothing lies in it. */
export interface StorageFacts {
  /** fresh kg */ readonly mass: number;
  /** kg */ readonly dryMass: number;
  /** m3 */ readonly volume: number;
  /** m, mean */ readonly depth: number;
  /** kg DM/m3 */ readonly dryDensity: number;
  /** kg/m3 */ readonly wetDensity: number;
  /** share of the volume; NaN also where the relation promises more than there is room for */ readonly poreSpace: number;
  /** share of the fresh mass in lifts under target */ readonly shareUnder: number;
  /** h */ readonly fillTime: number;
  readonly full: boolean;
  /** m3 above what it holds */ readonly over: number;
  /** tractors without credit by the relation, by index in the crew */ readonly uncredited: readonly number[];
  readonly cover: Cover;
  /** kg of dry matter by line of the loss ledger */ readonly losses: LossAmounts;
  /** kg of dry matter */ readonly fed: Span;
  /** s after midnight, or null */ readonly behindFrom: number | null;
}

export interface DayFacts {
  /** s after midnight at which the day started */ readonly from: number;
  /** NaN where the day gives no such figure */ readonly measures: Readonly<Record<MeasureName, number>>;
  readonly storages: readonly StorageFacts[];
  /** in the order of the day's machines, choppers and trucks first; mass in kg, cost at the hourly rate whoever pays */
  readonly machines: readonly { readonly seconds: Partial<Record<MachineState, number>>; readonly loads: number; readonly mass: number; readonly cost: number }[];
  /** s that choppers stood, by what they waited for */ readonly waits: Readonly<Record<WaitCause, number>>;
  readonly costs: readonly MoneyLine[];
  /** kg of dry matter cut */ readonly cut: number;
  readonly keepsPace: boolean;
  /** s after midnight, or null */ readonly behindFrom: number | null;
  /** fresh kg left standing, and how much of it because every storage was full */ readonly uncut: number;
  readonly uncutForRoom: boolean;
}

const mean = (values: readonly number[]) => (values.length > 0 ? values.reduce((a, b) => a + b, 0) / values.length : NaN);
const sumOf = <T>(items: readonly T[], of: (item: T) => number) => items.reduce((total, item) => total + of(item), 0);

/** Reads one day. */
export function factsOf(scenario: Scenario, day: Day): DayFacts {
  const { breaks } = scenario.shift;
  /** working seconds between two instants */
  const worked = (from: number, to: number) => to - from - pausedBetween(breaks, from, to);
  const tipped = day.trips.filter((trip) => !Number.isNaN(trip.tipped)).sort((a, b) => a.tipFrom - b.tipFrom);
  const firstTip = tipped[0]?.tipFrom ?? day.from;
  const lastTip = tipped.at(-1)?.tipFrom ?? NaN;
  const mass = sumOf(tipped, (trip) => trip.mass);

  const stored = scenario.storages.map((_, s) => storedIn(day, scenario, s));
  const debts = stored.map(({ lifts }, s) =>
    readDebt(packingDebt(day, scenario, s), scenario, s, day.plannedDepth[s]!, lifts.at(-1)?.closed ?? day.from));
  const storages = stored.map((s, i) => storageFacts(scenario, day, s, i, tipped, debts[i]!.behindFrom));
  const all = { mass: sumOf(stored, (s) => s.mass), dry: sumOf(stored, (s) => s.dryMass), volume: sumOf(stored, (s) => s.volume) };
  const dryMatter = all.dry / all.mass;

  const choppers = day.machines.filter((machine) => machine.kind === "chopper");
  const inField = sumOf(choppers, (c) => during(c, "cutting", "turning", "changeover", "waiting"));
  const waits = day.chopperWaits.reduce((total, row) => ({
    hauling: total.hauling + row.hauling, weighing: total.weighing + row.weighing, tipping: total.tipping + row.tipping,
    spreading: total.spreading + row.spreading, packing: total.packing + row.packing,
  }), { hauling: 0, weighing: 0, tipping: 0, spreading: 0, packing: 0 });
  const onStorage = (waits.weighing + waits.tipping + waits.spreading + waits.packing) / inField;
  // A round that was begun before the day started is none to go by.
  const rounds = day.trips.filter((trip) => !Number.isNaN(trip.back) && trip.filled > day.from);
  const closed = Math.max(...day.lifts.map((lift) => lift.closed), day.from);
  const apron = apronOf(day, scenario.storages.length);
  const fed = addedSpans(storages.map((storage) => storage.fed));
  const costs = [
    ...harvestLines(scenario, day),
    ...storingLines(scenario, storages.map(({ mass, cover }) => (mass > 0 ? cover : null))),
    ...lostLine(scenario, (all.dry - fed.central) / 1000),
  ];
  const shareUnder = sumOf(stored, (s) => s.massUnder) / all.mass;
  const behind = debts.map((debt) => debt.behindFrom).filter((at) => at !== null);

  const measures: Record<MeasureName, number> = {
    delivered: mass / 1000,
    deliveryRate: ((mass - (tipped[0]?.mass ?? 0)) / (lastTip - firstTip)) * 3.6,
    loads: tipped.length,
    loadsPerHour: ((tipped.length - 1) / (lastTip - firstTip)) * 3600,
    packingRateAtTarget: sumOf(scenario.storages.map((_, s) => s).filter((s) => stored[s]!.lifts.length > 0 || scenario.storages.length === 1), (s) => packingRateAtTarget(scenario, s)) * 3.6,
    packingTimePerTonne: sumOf(day.lifts, (lift) => lift.rolled.reduce((seconds, each) => seconds + each, 0)) / 60 / (all.mass / 1000),
    dryDensity: all.dry / all.volume,
    wetDensity: all.mass / all.volume,
    poreSpace: poresOf(all.dry / all.volume, dryMatter),
    shareUnderTarget: shareUnder,
    fillTime: (closed - firstTip) / 3600,
    finishedAt: (closed - day.from) / 3600,
    chopperWaiting: sumOf(choppers, (c) => during(c, "waiting")) / inField,
    chopperCutting: sumOf(choppers, (c) => during(c, "cutting")) / inField,
    chopperWaitingOnStorage: onStorage,
    truckWaiting: mean(tipped.map((t) => (worked(t.atScale, t.weighFrom) + worked(t.atStorage, t.placed) + worked(t.placed, t.tipFrom)) / 60)),
    truckCycle: mean(rounds.map((t) => worked(t.arrived, t.back) / 60)),
    apronPeak: apron.peak / 1000,
    apronMean: apron.mean / 1000,
    packingIdle: sumOf(debts, (debt) => debt.idle) / sumOf(debts, (debt) => debt.onSite),
    debtPeak: Math.max(...debts.map((debt) => debt.peak)) / 60,
    dryMatterStored: all.dry / 1000,
    dryMatterFed: fed.central / 1000,
    costPerTonne: farmTotal(costs, "harvest") / (mass / 1000),
    costPerTonneFed: farmTotal(costs) / (fed.central / 1000),
    fuel: fuelUsed(scenario, day) ?? NaN,
  };
  return {
    from: day.from, measures, storages, waits, costs,
    cut: sumOf(day.trips, (trip) => trip.dryMass) + sumOf(day.lifts, (lift) => (lift.trip < 0 ? lift.dryMass : 0)),
    machines: day.machines.map((machine, id) => ({ seconds: machine.seconds, loads: machine.loads, mass: machine.mass, cost: machineCost(scenario, day, id) })),
    keepsPace: behind.length === 0 && onStorage < LOST_TO_STORAGE && shareUnder <= 1 - AT_TARGET_SHARE,
    behindFrom: behind.length > 0 ? Math.min(...behind) : null,
    uncut: sumOf(day.uncut, (kg) => kg),
    uncutForRoom: day.events.some((event) => event.kind === "storage-full" && event.turnedTo === null) && day.uncut.some((kg) => kg > 0),
  };
}

function storageFacts(scenario: Scenario, day: Day, stored: Stored, index: number, tipped: readonly Trip[], behindFrom: number | null): StorageFacts {
  const dryDensity = stored.dryMass / stored.volume;
  // A day that was taken up may have nothing more to tip here.
  const firstTip = tipped.find((trip) => trip.storage === index)?.tipFrom ?? day.from;
  const place = scenario.storages[index]!;
  const cover = coverOf(scenario, place, stored.volume);
  const losses = lossesOf(scenario, place.cover, { ...stored, surface: cover.surface });
  return {
    mass: stored.mass, dryMass: stored.dryMass, volume: stored.volume, depth: stored.depth, dryDensity,
    wetDensity: stored.mass / stored.volume,
    poreSpace: poresOf(dryDensity, stored.dryMass / stored.mass),
    shareUnder: stored.massUnder / stored.mass,
    fillTime: ((stored.lifts.at(-1)?.closed ?? NaN) - firstTip) / 3600,
    full: day.events.some((event) => event.kind === "storage-full" && event.storage === index),
    over: stored.over, uncredited: stored.uncredited, behindFrom,
    cover, losses, fed: fedOf(stored.dryMass, lostOf(scenario, losses)),
  };
}

const during = (machine: MachineDay, ...states: MachineState[]) => sumOf(states, (state) => machine.seconds[state] ?? 0);

/** Pore space, or NaN where the relation promises more dry matter than there is room for: far outside its range. */
const poresOf = (dry: number, dryMatter: number) => (dry < densestDry(dryMatter) ? poreSpace(dry, dry / dryMatter, dryMatter) : NaN);

/** kg lying on the aprons between tip and spreading: the highest on any one, and the mean of all together from the first tip to the last spreading. */
function apronOf(day: Day, storages: number): { peak: number; mean: number } {
  let peak = 0;
  let area = 0;
  let from = Infinity;
  let to = -Infinity;
  for (let s = 0; s < storages; s++) {
    const moves: [number, number][] = [];
    for (const trip of day.trips) if (trip.storage === s && !Number.isNaN(trip.tipFrom)) moves.push([trip.tipFrom, trip.mass]);
    for (const lift of day.lifts) {
      if (lift.storage !== s) continue;
      if (lift.trip < 0) moves.push([day.from, lift.mass]);
      moves.push([lift.spreadFrom, -lift.mass]);
    }
    // What is taken off at an instant makes room for what is tipped at that instant.
    moves.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
    let level = 0;
    for (const [time, change] of moves) {
      level += change;
      peak = Math.max(peak, level);
      area -= change * time;
      from = Math.min(from, time);
      to = Math.max(to, time);
    }
  }
  return { peak, mean: area / (to - from) };
}
