/** The measures in the reader's words and units: read by the terminal and by the page, so that both say the same. */
import { displayUnit, formatNumber, formatQuantity, inDisplayUnit, type DimensionName, type UnitSystem } from "../scenario/units.ts";
import type { MachineState } from "../harvest/daylog.ts";
import type { BehindRule, Scenario } from "../scenario/types.ts";
import type { LossCause, MeasureName, Station, Verdict } from "./types.ts";
import { headline, METRIC, type Phrasing } from "./headline.ts";

interface Wording {
  readonly label: string;
  /** how it turns into the reader's units: the dimension, and the SI value of one unit of the measure; null for a plain count */
  readonly as: { readonly dimension: DimensionName; readonly si: number } | null;
  readonly digits: number;
}

const tonnes = { dimension: "mass", si: 1000 } as const;
const rate = { dimension: "flow", si: 1000 / 3600 } as const;
const density = { dimension: "density", si: 1 } as const;
const hours = { dimension: "hours", si: 3600 } as const;
const minutes = { dimension: "time", si: 60 } as const;
const share = { dimension: "share", si: 1 } as const;

export const MEASURE_WORDS: Readonly<Record<MeasureName, Wording>> = {
  delivered: { label: "Delivered", as: tonnes, digits: 0 },
  deliveryRate: { label: "Delivery rate", as: rate, digits: 1 },
  loads: { label: "Loads", as: null, digits: 0 },
  loadsPerHour: { label: "Loads an hour", as: null, digits: 1 },
  packingRateAtTarget: { label: "Pace the crew packs at target", as: rate, digits: 1 },
  packingTimePerTonne: { label: "Packing time", as: { dimension: "packingTime", si: 0.06 }, digits: 2 },
  dryDensity: { label: "Dry matter density", as: density, digits: 0 },
  wetDensity: { label: "Fresh density", as: density, digits: 0 },
  poreSpace: { label: "Pore space", as: share, digits: 0 },
  shareUnderTarget: { label: "Share under target", as: share, digits: 0 },
  fillTime: { label: "Fill time", as: hours, digits: 1 },
  finishedAt: { label: "Finished, after start", as: hours, digits: 1 },
  chopperWaiting: { label: "Chopper waiting", as: share, digits: 0 },
  chopperCutting: { label: "Chopper cutting", as: share, digits: 0 },
  chopperWaitingOnStorage: { label: "Chopper waiting on the storage", as: share, digits: 0 },
  truckWaiting: { label: "A truck's wait to tip", as: minutes, digits: 1 },
  truckCycle: { label: "A truck's round", as: minutes, digits: 1 },
  apronPeak: { label: "Apron at its fullest", as: tonnes, digits: 0 },
  apronMean: { label: "Apron, mean", as: tonnes, digits: 0 },
  packingIdle: { label: "Crew without debt", as: share, digits: 0 },
  debtPeak: { label: "Packing debt, highest", as: minutes, digits: 0 },
  dryMatterStored: { label: "Dry matter stored", as: tonnes, digits: 0 },
  dryMatterFed: { label: "Dry matter fed", as: tonnes, digits: 0 },
  costPerTonne: { label: "Cost, fresh, delivered", as: { dimension: "perTonne", si: 1 }, digits: 2 },
  costPerTonneFed: { label: "Cost, dry matter fed", as: { dimension: "perTonne", si: 1 }, digits: 2 },
  fuel: { label: "Fuel", as: { dimension: "fluid", si: 0.001 }, digits: 0 },
};

/** The measures as they are grouped for reading, in the order of the day. */
export const MEASURE_GROUPS: readonly (readonly [string, readonly MeasureName[]])[] = [
  ["Pace", ["deliveryRate", "packingRateAtTarget", "loadsPerHour", "delivered", "loads"]],
  ["Waiting", ["chopperCutting", "chopperWaiting", "chopperWaitingOnStorage", "truckWaiting", "truckCycle"]],
  ["Packing", ["packingTimePerTonne", "apronPeak", "apronMean", "debtPeak", "packingIdle"]],
  ["Clamp", ["dryDensity", "shareUnderTarget", "wetDensity", "poreSpace", "fillTime", "finishedAt", "dryMatterStored", "dryMatterFed"]],
  ["Money and fuel", ["costPerTonne", "costPerTonneFed", "fuel"]],
];

export const STATION_WORDS: Readonly<Record<Station, string>> = {
  cutting: "cutting", hauling: "hauling", weighing: "weighing", tipping: "tipping", spreading: "spreading", packing: "packing to target", storage: "room in storage",
};

/** What the crew does when packing falls behind, by rule; as a sentence, and in a list of what a plan is made of. */
export const BEHIND_WORDS: Readonly<Record<BehindRule, string>> = {
  hold: "Hold the trucks until the lift is packed",
  bury: "Keep the trucks moving and bury it",
  "hold-then-bury": "Hold until the apron is full, then bury",
  ease: "Ease the chopper to the crew's pace",
};
export const BEHIND_SHORT: Readonly<Record<BehindRule, string>> = {
  hold: "held until packed", bury: "buried when behind", "hold-then-bury": "held until the apron is full", ease: "the chopper eased",
};

/** What a machine does. */
export const STATE_WORDS: Readonly<Record<MachineState, string>> = {
  cutting: "cutting", turning: "turning", changeover: "changing trucks", waiting: "waiting", moving: "moving field", broken: "broken down", break: "on a break",
  "in-line": "waiting in the field", filling: "being filled", "loaded-road": "driving loaded", lane: "waiting for the lane", "scale-line": "waiting to be weighed", weighing: "being weighed",
  "place-line": "waiting to tip", "room-wait": "waiting for room", tipping: "tipping", "empty-road": "driving empty",
  pushing: "pushing", rolling: "rolling", standing: "standing",
};

/** The lines of the loss ledger. */
export const LOSS_WORDS: Readonly<Record<LossCause, string>> = {
  effluent: "Effluent", fermentation: "Fermentation", density: "Loose packing", topLayer: "Top layer", delay: "Delay before sealing", face: "Open face",
};

/** A value of a measure as a bare number in the reader's unit. */
export function measureNumber(name: MeasureName, value: number, system: UnitSystem): string {
  const { as, digits } = MEASURE_WORDS[name];
  if (!as) return formatNumber(value, digits);
  // A pound in the cubic foot is 16 kg/m3: without a digit after the point plans would look alike.
  return formatNumber(inDisplayUnit(value * as.si, as.dimension, system), system === "us" && as.dimension === "density" ? 1 : digits);
}

/** The reader's unit of a measure; empty for a count. */
export function measureUnit(name: MeasureName, system: UnitSystem): string {
  const { as } = MEASURE_WORDS[name];
  return as ? displayUnit(as.dimension, system) : "";
}

/** A machine's mass in kg: nobody weighs a tractor to the pound, and one of 14 t is not one of 14.0 t. */
export function machineMass(kg: number, system: UnitSystem): string {
  if (system === "metric") return formatQuantity(kg, "machineMass", system).replace(".0 ", " ");
  return `${formatNumber(Math.round(inDisplayUnit(kg, "machineMass", system) / 100) * 100, 0)} ${displayUnit("machineMass", system)}`;
}

/** How a day's figures count that was taken up in the middle: from then. `from` is s after midnight. */
export const sinceWhen = ({ shift }: Pick<Scenario, "shift">, from: number): string => (from === shift.start ? "shift start" : "when the day was taken up");

/** How figures are written in the verdict for readers of US units. */
export const US: Phrasing = {
  density: (v) => `${formatNumber(inDisplayUnit(v, "density", "us"), 1)} lb DM/ft3`,
  rate: (v) => `${formatNumber(inDisplayUnit(v, "flow", "us"), 0)} ton/h`,
  machineMass: (v) => machineMass(v, "us"),
  crop: (v) => formatQuantity(v, "mass", "us", v >= 20_000 ? 0 : 1),
};

/** The verdict in the reader's units. */
export const headlineIn = ({ figures }: Pick<Verdict, "figures">, system: UnitSystem): string => headline(figures, system === "us" ? US : METRIC);
