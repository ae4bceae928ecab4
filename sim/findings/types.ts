/** What a rehearsal says: the document that `rehearse --json` prints and the server answers. A field whose work has not landed is absent, never zero. */
import type { AppliedDefault } from "../scenario/types.ts";

/** One measured figure over the rehearsals: 95 % confidence limits of the mean (luck that more rehearsals average out) and the 10th to 90th percentile between days. */
export interface Measure {
  readonly mean: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
  readonly p10: number;
  readonly p90: number;
  readonly unit: string;
}

export const MEASURES = {
  delivered: "t", deliveryRate: "t/h", loads: "1", loadsPerHour: "1/h",
  packingRateAtTarget: "t/h", packingTimePerTonne: "min/t",
  dryDensity: "kg/m3", wetDensity: "kg/m3", poreSpace: "1", shareUnderTarget: "1",
  fillTime: "h", finishedAt: "h",
  chopperWaiting: "1", chopperCutting: "1", chopperWaitingOnStorage: "1",
  truckWaiting: "min", truckCycle: "min",
  apronPeak: "t", apronMean: "t", packingIdle: "1", debtPeak: "min",
  dryMatterStored: "t", dryMatterFed: "t", costPerTonne: "per t", costPerTonneFed: "per t DM", fuel: "L",
} as const;
export type MeasureName = keyof typeof MEASURES;

export const STATIONS = ["cutting", "hauling", "weighing", "tipping", "spreading", "packing", "storage"] as const;
export type Station = (typeof STATIONS)[number];

export interface Verdict {
  /** the chance of keeping pace is at least 0.9 */ readonly keepsPace: boolean;
  readonly chance: number;
  /** one or two sentences */ readonly headline: string;
  /** wall clock `HH:MM`: median over the rehearsals that fall behind */ readonly behindFrom: string | null;
  /** t/h at which this crew would keep up */ readonly paceKept: number;
  readonly bottleneck: Station;
}

export interface StorageFinding {
  readonly name: string;
  readonly filledT: number;
  readonly dryT: number;
  /** `ci`: the luck of the day; `band`: the published relation's own scatter, 80 % between storages */
  readonly dryDensity: { readonly mean: number; readonly ci: readonly [number, number]; readonly band: readonly [number, number]; readonly chanceOfTarget: number };
  readonly wetDensity: number;
  readonly poreSpace: number;
  readonly shareUnderTarget: number;
  /** h */ readonly fillTime: number;
  readonly full: boolean;
  /** m */ readonly meanDepth: number;
  /** m2 */ readonly coverArea?: number;
}

export interface MachineFinding {
  readonly name: string;
  readonly kind: string;
  /** hours by state, means over the rehearsals */ readonly hours: Readonly<Record<string, number>>;
  readonly loads: number;
  readonly tonnes: number;
  readonly cost: number;
}

export interface HandCheck {
  readonly station: Station;
  /** upper bound by hand: min(N / T, 1 / s) for the station */ readonly boundTPerH: number;
  readonly simulatedTPerH: number;
  readonly gapInWords: string;
}

export interface Caution { readonly id: string; readonly text: string; readonly where: string; readonly source: string }

/** Where one figure comes from. */
export interface Derivation {
  /** in words and symbols a reader can redo by hand */ readonly formula: string;
  /** what went in, name -> figure with its unit */ readonly inputs: Readonly<Record<string, string>>;
  readonly source: string;
  readonly mark: string;
  /** range in which the source measured, or null */ readonly range: string | null;
  readonly outside: boolean;
}

export interface Findings {
  readonly scenario: { readonly name: string; readonly hash: string };
  readonly engine: string;
  readonly seed: number;
  readonly rehearsals: number;
  readonly verdict: Verdict;
  readonly measures: Readonly<Partial<Record<MeasureName, Measure>>>;
  readonly storages: readonly StorageFinding[];
  readonly machines: readonly MachineFinding[];
  readonly handCheck: readonly HandCheck[];
  /** one line of the loss ledger each; absent until that shelf has landed */ readonly losses?: readonly unknown[];
  readonly money: {
    readonly currency: string;
    /** what, amount, who pays it, the words behind it */ readonly lines: readonly { readonly what: string; readonly amount: number; readonly paidBy: "farm" | "contractor"; readonly note: string }[];
    readonly total: number;
  };
  readonly cautions: readonly Caution[];
  readonly sources: Readonly<Partial<Record<MeasureName, Derivation>>>;
  readonly defaults: readonly AppliedDefault[];
  /** plain sentences that qualify the figures, e.g. a tractor the relation gives no credit */ readonly notes: readonly string[];
}
