/** From rehearsed days to the document that `rehearse --json` prints and the server answers. Pure; the days come from the study. */
import { band, chanceOfTarget } from "../forage/scatter.ts";
import { hashOf } from "../scenario/hash.ts";
import type { AppliedDefault, Scenario } from "../scenario/types.ts";
import { ENGINE_VERSION } from "../version.ts";
import type { MachineDay } from "../harvest/daylog.ts";
import { cautionsFor } from "./cautions.ts";
import { derivationsOf } from "./derivations.ts";
import type { DayFacts, StorageFacts } from "./facts.ts";
import { handBounds, handCheck } from "./hand.ts";
import { notesFor } from "./notes.ts";
import { summarise } from "./summary.ts";
import { MEASURES, type Findings, type MachineFinding, type Measure, type MeasureName, type StorageFinding } from "./types.ts";
import { verdictFigures, verdictOf } from "./verdict.ts";

/** What a study has: the days in order of their rehearsal number, and the machines by name (the same on every day). */
export interface Study {
  readonly scenario: Scenario;
  readonly seed: number;
  readonly days: readonly DayFacts[];
  readonly machines: readonly MachineDay[];
  readonly defaults: readonly AppliedDefault[];
}

/** Sums the days up. */
export function findingsOf({ scenario, seed, days, machines, defaults }: Study): Findings {
  const measures = measuresOf(days);
  const bounds = handBounds(scenario);
  return {
    scenario: { name: scenario.name, hash: hashOf(scenario) },
    engine: ENGINE_VERSION, seed, rehearsals: days.length,
    verdict: verdictOf(verdictFigures(scenario, days, measures.dryDensity ?? null)),
    measures,
    storages: scenario.storages.map((_, s) => storageFinding(scenario, s, days.map((day) => day.storages[s]!))).filter((storage) => storage !== null),
    machines: machines.map((machine, id) => machineFinding(machine, days.map((day) => day.machines[id]!))),
    handCheck: handCheck(scenario, bounds, measures.deliveryRate?.mean ?? 0),
    money: moneyOf(scenario, days),
    cautions: cautionsFor(scenario, days, measures),
    sources: derivationsOf(scenario, days, measures),
    defaults,
    notes: notesFor(scenario, days, measures),
  };
}

/** Every measure that each of the days gives. */
export function measuresOf(days: readonly DayFacts[]): Partial<Record<MeasureName, Measure>> {
  const measures: Partial<Record<MeasureName, Measure>> = {};
  for (const name of Object.keys(MEASURES) as MeasureName[]) {
    const measure = summarise(days.map((day) => day.measures[name]), MEASURES[name]);
    if (measure) measures[name] = measure;
  }
  return measures;
}

const meanOf = <T>(items: readonly T[], of: (item: T) => number) => items.reduce((sum, item) => sum + of(item), 0) / items.length;

/** Null for a storage that stays empty. */
function storageFinding(scenario: Scenario, index: number, days: readonly StorageFacts[]): StorageFinding | null {
  const used = days.filter((day) => day.mass > 0);
  if (used.length === 0) return null;
  const density = summarise(used.map((day) => day.dryDensity), "kg/m3")!;
  const { kind } = scenario.crop;
  return {
    name: scenario.storages[index]!.name,
    filledT: meanOf(used, (day) => day.mass) / 1000, dryT: meanOf(used, (day) => day.dryMass) / 1000,
    dryDensity: {
      mean: density.mean, ci: [density.low, density.high], band: band(density.mean, kind),
      chanceOfTarget: chanceOfTarget(density.mean, scenario.targets.dryDensity, kind),
    },
    wetDensity: meanOf(used, (day) => day.wetDensity),
    poreSpace: meanOf(used, (day) => day.poreSpace),
    shareUnderTarget: meanOf(used, (day) => day.shareUnder),
    fillTime: meanOf(used, (day) => day.fillTime),
    full: used.filter((day) => day.full).length > used.length / 2,
    meanDepth: meanOf(used, (day) => day.depth),
  };
}

function machineFinding(machine: MachineDay, days: readonly DayFacts["machines"][number][]): MachineFinding {
  const states = new Set(days.flatMap((day) => Object.keys(day.seconds))) as Set<keyof DayFacts["machines"][number]["seconds"]>;
  return {
    name: machine.name, kind: machine.kind,
    hours: Object.fromEntries([...states].map((state) => [state, meanOf(days, (day) => day.seconds[state] ?? 0) / 3600])),
    loads: meanOf(days, (day) => day.loads), tonnes: meanOf(days, (day) => day.mass) / 1000, cost: meanOf(days, (day) => day.cost),
  };
}

function moneyOf(scenario: Scenario, days: readonly DayFacts[]): Findings["money"] {
  const lines = new Map<string, { what: string; amount: number; paidBy: "farm" | "contractor"; note: string }>();
  for (const day of days) {
    for (const line of day.costs) {
      const sum = lines.get(line.what) ?? { ...line, amount: 0 };
      lines.set(line.what, { ...line, amount: sum.amount + line.amount / days.length });
    }
  }
  const all = [...lines.values()];
  return { currency: scenario.money.currency, lines: all, total: all.reduce((sum, line) => sum + (line.paidBy === "farm" ? line.amount : 0), 0) };
}
