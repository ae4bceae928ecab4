/** From rehearsed days to the document that `rehearse --json` prints and the server answers. Pure; the days come from the study. */
import { footprintOf, weightsFor } from "../forage/geometry/index.ts";
import { band, chanceOfTarget } from "../forage/scatter.ts";
import { hashOf } from "../scenario/hash.ts";
import type { AppliedDefault, Scenario } from "../scenario/types.ts";
import { ENGINE_VERSION } from "../version.ts";
import type { Day, MachineDay } from "../harvest/daylog.ts";
import { cautionsFor } from "./cautions.ts";
import { derivationsOf } from "./derivations.ts";
import { ledgerEnds, lossLines } from "./derivations/losses.ts";
import type { DayFacts, StorageFacts } from "./facts.ts";
import { feedOutOf } from "./feedout.ts";
import { meanOver } from "./figure.ts";
import { oneMoreTractor } from "./gains.ts";
import { handBounds, handCheck } from "./hand.ts";
import { addedSpans } from "./ledger.ts";
import { farmTotal } from "./money.ts";
import { notesFor } from "./notes.ts";
import { summarise } from "./summary.ts";
import { MEASURES, type Findings, type MachineFinding, type Measure, type MeasureName, type MoneyLine, type Span, type StorageFinding } from "./types.ts";
import { verdictFigures, verdictOf } from "./verdict.ts";
import { MEASURE_WORDS } from "./words.ts";

/** What was rehearsed: the days in order of their number, and the machines by name (the same on every day). */
interface RehearsedDays {
  readonly scenario: Scenario;
  readonly seed: number;
  readonly days: readonly DayFacts[];
  readonly machines: readonly MachineDay[];
  readonly defaults: readonly AppliedDefault[];
  /** the day that is shown, for what is estimated on one day */ readonly shown?: Day;
}

/** Sums the days up. */
export function findingsOf({ scenario, seed, days, machines, defaults, shown }: RehearsedDays): Findings {
  const measures = measuresOf(days);
  const bounds = handBounds(scenario, scenario.choppers.length > 1);
  return {
    scenario: { name: scenario.name, hash: hashOf(scenario) },
    engine: ENGINE_VERSION, seed, rehearsals: days.length,
    verdict: verdictOf(verdictFigures(scenario, days, measures.dryDensity ?? null)),
    measures,
    storages: scenario.storages.map((_, s) => storageFinding(scenario, s, days.map((day) => day.storages[s]!))).filter((storage) => storage !== null),
    machines: machines.map((machine, id) => machineFinding(machine, days.map((day) => day.machines[id]!))),
    handCheck: handCheck(scenario, bounds, measures.deliveryRate?.mean ?? 0),
    losses: lossLines(scenario, days),
    ledger: ledgerEnds(scenario, days),
    money: { ...moneyOf(scenario, days), ...(shown ? { oneMoreTractor: oneMoreTractor(scenario, shown) } : {}) },
    cautions: cautionsFor(scenario, days),
    sources: derivationsOf(scenario, days, measures),
    defaults,
    notes: notesFor(scenario, days, measures),
  };
}

/** Limits of a mean where the figure can be: nothing that is measured is less than none, and no share more than all. Whatever lies outside holds no true mean. */
function asFarAsCanBe(name: MeasureName, measure: Measure): Measure {
  const { mean, low, high } = measure;
  const isShare = MEASURE_WORDS[name].as?.dimension === "share";
  return { ...measure, low: Math.min(mean, Math.max(0, low)), high: isShare ? Math.max(mean, Math.min(1, high)) : high };
}

/** Every measure that each of the days gives. */
export function measuresOf(days: readonly DayFacts[]): Partial<Record<MeasureName, Measure>> {
  const measures: Partial<Record<MeasureName, Measure>> = {};
  for (const name of Object.keys(MEASURES) as MeasureName[]) {
    const measure = summarise(days.map((day) => day.measures[name]), MEASURES[name]);
    if (measure) measures[name] = asFarAsCanBe(name, measure);
  }
  return measures;
}

/** Null for a storage that stays empty. */
function storageFinding(scenario: Scenario, index: number, days: readonly StorageFacts[]): StorageFinding | null {
  const used = days.filter((day) => day.mass > 0);
  if (used.length === 0) return null;
  const density = summarise(used.map((day) => day.dryDensity), "kg/m3")!;
  const { kind } = scenario.crop;
  const place = scenario.storages[index]!;
  const volume = meanOver(used, (day) => day.volume);
  const poreSpace = meanOver(used, (day) => day.poreSpace);
  const fed = addedSpans(used.map((day) => day.fed), 1 / used.length);
  return {
    name: place.name,
    filledT: meanOver(used, (day) => day.mass) / 1000, dryT: meanOver(used, (day) => day.dryMass) / 1000,
    dryDensity: {
      mean: density.mean, ci: [density.low, density.high], band: band(density.mean, kind),
      chanceOfTarget: chanceOfTarget(density.mean, scenario.targets.dryDensity, kind),
    },
    wetDensity: meanOver(used, (day) => day.wetDensity),
    ...(Number.isFinite(poreSpace) ? { poreSpace } : {}),
    shareUnderTarget: meanOver(used, (day) => day.shareUnder),
    fillTime: meanOver(used, (day) => day.fillTime),
    full: used.filter((day) => day.full).length > used.length / 2,
    meanDepth: meanOver(used, (day) => day.depth),
    footprint: meanOver(used, (day) => footprintOf(place, day.volume)),
    coverArea: meanOver(used, (day) => day.cover.surface),
    cover: {
      film: meanOver(used, (day) => day.cover.film), hours: meanOver(used, (day) => day.cover.seconds) / 3600,
      weights: place.cover === "none" ? { tyres: 0, bags: 0 } : weightsFor(place, volume),
    },
    fedT: addedSpans([fed], 1 / 1000),
    ...(scenario.herd && fed.central > 0 ? { feedOut: feedOutOf(scenario.herd, place, volume, fed) } : {}),
  };
}

function machineFinding(machine: MachineDay, days: readonly DayFacts["machines"][number][]): MachineFinding {
  const states = new Set(days.flatMap((day) => Object.keys(day.seconds))) as Set<keyof DayFacts["machines"][number]["seconds"]>;
  return {
    name: machine.name, kind: machine.kind,
    hours: Object.fromEntries([...states].map((state) => [state, meanOver(days, (day) => day.seconds[state] ?? 0) / 3600])),
    loads: meanOver(days, (day) => day.loads), tonnes: meanOver(days, (day) => day.mass) / 1000, cost: meanOver(days, (day) => day.cost),
  };
}

/** What the day costs, line by line, and for a tonne. */
export function moneyOf(scenario: Scenario, days: readonly DayFacts[]): Findings["money"] {
  const lines = new Map<string, MoneyLine>();
  for (const day of days) {
    for (const line of day.costs) {
      const key = `${line.stage} ${line.paidBy} ${line.what}`;
      lines.set(key, { ...line, amount: (lines.get(key)?.amount ?? 0) + line.amount / days.length });
    }
  }
  const all = [...lines.values()];
  // Means of the days' own ratios, as the measures are.
  const perTonne = (of: (day: DayFacts) => number) => {
    const mean = meanOver(days, of);
    return Number.isFinite(mean) ? mean : null;
  };
  const perFed = (end: keyof Span) => perTonne((day) => farmTotal(day.costs) / (addedSpans(day.storages.map((storage) => storage.fed))[end] / 1000));
  const [low, central, high] = [perFed("high"), perFed("central"), perFed("low")];
  return {
    currency: scenario.money.currency, lines: all, total: farmTotal(all),
    perTonne: {
      delivered: perTonne((day) => day.measures.costPerTonne),
      stored: perTonne((day) => farmTotal(day.costs) / day.measures.dryMatterStored),
      fed: low === null || central === null || high === null ? null : { low, central, high },
    },
  };
}
