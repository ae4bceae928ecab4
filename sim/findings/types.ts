/** What a rehearsal says: the document that `rehearse --json` prints and the server answers. What a day does not give is absent, never zero. */
import type { AppliedDefault, LossSwitch } from "../scenario/types.ts";
import type { StopRules } from "./stoprules.ts";
import type { VerdictFigures } from "./headline.ts";

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
  /** what the headline is made of, to be said in other units */ readonly figures: VerdictFigures;
}

export interface StorageFinding {
  readonly name: string;
  readonly filledT: number;
  readonly dryT: number;
  /** `ci`: the luck of the day; `band`: the published relation's own scatter, 80 % between storages */
  readonly dryDensity: { readonly mean: number; readonly ci: readonly [number, number]; readonly band: readonly [number, number]; readonly chanceOfTarget: number };
  readonly wetDensity: number;
  /** absent where the relation promises more than there is room for, on any of the days */ readonly poreSpace?: number;
  readonly shareUnderTarget: number;
  /** h */ readonly fillTime: number;
  readonly full: boolean;
  /** m */ readonly meanDepth: number;
  /** m2 of floor that it lies on, slopes included */ readonly footprint: number;
  /** m2 of surface under the sky; what cover and crew it takes, see `cover` */ readonly coverArea: number;
  readonly cover: CoverFinding;
  /** t of dry matter left to feed, over the range of the loss ledger */ readonly fedT: Span;
  /** absent without a herd */ readonly feedOut?: FeedOut;
}

/** A figure over the range that its sources leave open. It is model uncertainty: the luck of the day is not in it. */
export interface Span { readonly low: number; readonly central: number; readonly high: number }

export interface CoverFinding {
  /** m2, overlaps of sheets and edges included; 0 when nothing is laid */ readonly film: number;
  /** either so many tyres or so many bags hold it down */ readonly weights: { readonly tyres: number; readonly bags: number };
  /** h of the cover crew from the last lift closed to the seal */ readonly hours: number;
}

/** How a herd empties a storage. */
export interface FeedOut {
  /** m2, the whole cross-section as it stands */ readonly face: number;
  /** m a day that one open face moves on */ readonly advance: number;
  /** m a day advised at the least for the season */ readonly minimum: number;
  /** open faces that stay fresh: 0 when even one moves on too slowly, never told as more than 2 */ readonly faces: 0 | 1 | 2;
  readonly daysOfFeed: Span;
  /** days to stay closed at the least, and better */ readonly openAfter: readonly [number, number];
  /** m, the widest at this height that keeps one face fresh; null when none does */ readonly freshWidth: number | null;
  readonly inWords: string;
  readonly source: string;
  readonly mark: string;
}

/** Causes of loss in the order of the ledger; `delay` has evidence and no rate, so it carries no figure. */
export const LOSS_CAUSES = ["effluent", "fermentation", "density", "topLayer", "delay", "face"] as const satisfies readonly (LossSwitch | "delay")[];
export type LossCause = (typeof LOSS_CAUSES)[number];

/** One line of the loss ledger, mean over the rehearsals. */
export interface LossLine {
  readonly cause: LossCause;
  /** t of dry matter; null where no verified rate exists */ readonly dryT: Span | null;
  /** share of the dry matter stored, central */ readonly share: number | null;
  readonly mark: string;
  readonly source: string;
  /** in which the source measured, or null */ readonly range: string | null;
  readonly outside: boolean;
  readonly note: string;
  /** false: shown and not counted */ readonly on: boolean;
}

/**
 * The two ends of the ledger. `fedT.central` = `storedT` - the central figures of the lines that are on; `low` takes every line at its high
 * end at once, `high` every line at its low end.
 */
export interface LedgerEnds {
  readonly cutT: number;
  readonly storedT: number;
  readonly fedT: Span;
  readonly inWords: string;
}

export interface MoneyLine {
  readonly what: string;
  readonly amount: number;
  readonly paidBy: "farm" | "contractor";
  /** the words behind it */ readonly note: string;
  /** `harvest`: the day's work; `storing`: cover and concrete; `lost`: what the lost dry matter would have been worth */
  readonly stage: "harvest" | "storing" | "lost";
  /** only what the farm spends is */ readonly inTotal: boolean;
}

/** What one more packing tractor would cost a day, beside the dry matter it would save: a first estimate on the day shown, not a rehearsal. */
export interface OneMoreTractor {
  readonly storage: string;
  /** kg, like the crew's mean */ readonly mass: number;
  readonly cost: number;
  /** kg DM/m3 with it, at the same delivery and depth */ readonly dryDensity: number;
  /** t of dry matter */ readonly savedT: Span;
  readonly savedValue: Span;
  readonly inWords: string;
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

/** The rest of a day that was taken up in the middle. Times are wall clock `HH:MM`. */
export interface RestOfDay {
  readonly from: string;
  /** everything closed: the 10th, 50th and 90th of 100 days */ readonly closedAt: { readonly early: string; readonly median: string; readonly late: string };
  /** what still finishes; means over the rehearsals */
  readonly fields: readonly {
    readonly name: string;
    /** t standing when it was taken up, and when the day ends */ readonly standingT: number;
    readonly leftT: number;
    /** share of the days on which it gets bare */ readonly doneOn: number;
    /** median of those days */ readonly doneAt: string | null;
  }[];
  /** what the crew can see, by storage */ readonly stopRules: readonly StopRules[];
  /** `at`: null when there is no need to stop before the shift ends */
  readonly stopCutting: { readonly at: string | null; readonly certainty: number; readonly inWords: string };
  /** who can go home and from when, in the order in which they may go; `lastTip` is the median of when it would have tipped its last load */
  readonly trucks: readonly { readonly name: string; readonly from: string; readonly lastTip: string | null; /** to its last load, or nearly */ readonly needed: boolean; readonly inWords: string }[];
  /** what was assumed where the state is silent */ readonly assumptions: readonly string[];
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
  /** the loss ledger, in the order of `LOSS_CAUSES` */ readonly losses: readonly LossLine[];
  readonly ledger: LedgerEnds;
  readonly money: {
    readonly currency: string;
    readonly lines: readonly MoneyLine[];
    /** what the farm spends: harvest and storing */ readonly total: number;
    /** per t fresh delivered (harvest only), per t of dry matter stored and fed (harvest and storing); null where nothing is left to divide by */
    readonly perTonne: { readonly delivered: number | null; readonly stored: number | null; readonly fed: Span | null };
    /** by storage that got anything; absent where no one day is shown */ readonly oneMoreTractor?: readonly OneMoreTractor[];
  };
  readonly cautions: readonly Caution[];
  readonly sources: Readonly<Partial<Record<MeasureName, Derivation>>>;
  readonly defaults: readonly AppliedDefault[];
  /** plain sentences that qualify the figures, e.g. a tractor the relation gives no credit */ readonly notes: readonly string[];
  /** only of a day that was taken up in the middle */ readonly rest?: RestOfDay;
}
