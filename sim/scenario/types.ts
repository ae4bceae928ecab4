/**
 * A checked scenario: complete, every default filled in, every quantity in strict SI (kg, m, s, kg/m3; shares as decimals).
 * Money is the one exception, kept per hour, per tonne or per hectare as people quote it, and says so in its name.
 * `readScenario` and `checkScenario` are the only makers of these objects; everything downstream may trust them.
 */
import type { Shape } from "../kernel/shapes.ts";

export const CROP_KINDS = ["corn", "grass", "alfalfa", "sorghum", "small-grain"] as const;
export type CropKind = (typeof CROP_KINDS)[number];

/** What the crew does when packing falls behind. */
export const BEHIND_RULES = ["hold", "bury", "hold-then-bury", "ease"] as const;
export type BehindRule = (typeof BEHIND_RULES)[number];

/**
 * What limits how many tractors roll the wedge at once: its width; its width, and one tractor only as long as the first wedge is being
 * built; or nothing, every tractor counts in full. See forage/geometry/room.
 */
export const WEDGE_ROOMS = ["by-width", "first-wedge-too", "off"] as const;
export type WedgeRoom = (typeof WEDGE_ROOMS)[number];

/** How the chopper's work is paid. */
export const PAID_BY = ["by-hour", "by-ton", "by-area"] as const;
export type PaidBy = (typeof PAID_BY)[number];

/** Lines of the loss ledger that carry a figure, each with a switch of its own. */
export const LOSS_SWITCHES = ["effluent", "fermentation", "density", "topLayer", "face"] as const;
export type LossSwitch = (typeof LOSS_SWITCHES)[number];

/** Activities whose duration or size varies from one time to the next. */
export const ACTIVITIES = ["cutting", "load", "loaded", "empty", "weighing", "tip", "spread", "yield"] as const;
export type Activity = (typeof ACTIVITIES)[number];

/** Relative variation: each draw is a factor with mean 1 on the nominal duration, mass or yield. `null` = none at all. */
export type Variation = Readonly<Record<Activity, Shape | null>>;

/** Working seconds between breakdowns and seconds to repair, both means; exponential unless the scenario has no variation. */
export interface Breakdowns { readonly between: number; readonly repair: number }

export interface Crop {
  readonly kind: CropKind;
  /** share of fresh mass */ readonly dryMatter: number;
  /** m */ readonly chopLength: number;
  /** kg fresh per m3, as it lies in the truck */ readonly looseDensity: number;
}

export interface Field {
  readonly name: string;
  /** m2 */ readonly area: number;
  /** kg fresh per m2, as harvested */ readonly yield: number;
  /** m, one way by road to the storage */ readonly distance: number;
  /** m */ readonly rowLength: number;
  readonly dryMatter: number;
  /** index into `storages`, first choice first; later ones take over when the earlier are full */ readonly storages: readonly number[];
  /** index of the only chopper that may cut it, or null for any */ readonly chopper: number | null;
  readonly owner: string | null;
  /** first rounds: for this many seconds of cutting the pace is this share of the usual */
  readonly opening: { readonly time: number; readonly pace: number } | null;
}

export interface Chopper {
  readonly name: string;
  /** m */ readonly width: number;
  /** m/s */ readonly speed: number;
  /** kg/s */ readonly throughput: number;
  /** s */ readonly turnTime: number;
  /** s */ readonly changeover: number;
  /** s from one field to the next */ readonly move: number;
  readonly costPerHour: number;
  readonly paid: PaidBy;
  /** per tonne or per hectare, as `paid` says; 0 when paid by the hour */ readonly price: number;
  readonly breakdowns: Breakdowns | null;
  /** kW */ readonly power: number | null;
}

/** One kind of truck, `count` of them alike. */
export interface TruckKind {
  readonly kind: string;
  readonly count: number;
  /** kg fresh; already the lesser of the mass limit and volume x loose density */ readonly load: number;
  /** m3, or null when only mass limits */ readonly volume: number | null;
  /** m/s */ readonly loadedSpeed: number;
  /** m/s */ readonly emptySpeed: number;
  /** s */ readonly tip: number;
  /** index of the chopper it is tied to, or null when pooled */ readonly chopper: number | null;
  /** a tied truck that may cross over to another chopper */ readonly lends: boolean;
  readonly costPerHour: number;
  readonly breakdowns: Breakdowns | null;
  /** kW */ readonly power: number | null;
}

/** A single-lane stretch at the storage end of the road, inside the field's distance. */
export interface Lane {
  /** m */ readonly length: number;
  /** m/s */ readonly speed: number;
  /** s lost each time the direction changes */ readonly meeting: number;
}

export interface Tractor {
  readonly name: string;
  /** kg as it works, ballast included */ readonly mass: number;
  /** kg/s at a 15 cm layer; null for a tractor that only packs */ readonly spreads: number | null;
  /** share of its time on the clamp that it really rolls */ readonly rolling: number;
  /** kg, maker's limit, or null */ readonly maxMass: number | null;
  /** m, rolled width */ readonly width: number;
  /** m, width of the blade, or null when not known */ readonly blade?: number | null;
  /** more like it could be hired */ readonly hireable?: boolean;
  /** kW */ readonly power: number | null;
  readonly costPerHour: number;
  readonly breakdowns: Breakdowns | null;
}

export interface Storage {
  readonly name: string;
  readonly form: "bunker" | "pile";
  /** m, at the base */ readonly width: number;
  /** m, at the base */ readonly length: number;
  /** m: wall height of a bunker, planned height of a pile */ readonly height: number;
  /** run per rise of the working wedge, 3 = 1:3 */ readonly wedge: number;
  /** pile: run per rise of sides and ends; 0 for a bunker */ readonly sideSlope: number;
  /** m, pile only: width of the level top */ readonly topWidth: number | null;
  /** m, given by the user, or null: then it follows from shape and mass */ readonly meanDepth: number | null;
  /** kg that fit in front, not yet spread */ readonly apron: number;
  readonly tippingPlaces: number;
  /** trucks tip on the pile itself */ readonly tipsOnPile: boolean;
  readonly tractors: readonly Tractor[];
  readonly cover: "plain" | "barrier" | "none";
  /** m */ readonly unloaderReach: number | null;
  /** kPa, or null when not known */ readonly wallRating: number | null;
  /** whole investment, in the scenario's currency */ readonly capitalCost: number;
  /** years */ readonly life: number;
}

/** Which plans a search for the cheapest crew goes through; null where the scenario's own stays as it is. */
export interface Search {
  readonly trucks: { /** index into `trucks` */ readonly kind: number; readonly from: number; readonly to: number } | null;
  /** packing tractors beside the blades, in place of the scenario's own that do not spread */
  readonly tractors: {
    /** index into `storages` */ readonly storage: number;
    readonly from: number;
    readonly to: number;
    /** what could be had, `count` of each */ readonly list: readonly { readonly tractor: Tractor; readonly count: number }[];
  } | null;
  /** m */ readonly layers: readonly number[] | null;
  readonly rules: readonly BehindRule[] | null;
  /** shares of the choppers' pace */ readonly pace: readonly number[] | null;
  readonly targets: {
    /** s after midnight, or null for the end of the shift */ readonly finishBy: number | null;
    /** share of its field time that the chopper may stand, or null */ readonly waiting: number | null;
    /** chance that the published relation must give the target, or null */ readonly relation: number | null;
  };
}

/** Several days one after another. Days are numbers of the calendar, see dates.ts. */
export interface Campaign {
  readonly starts: number;
  /** day on which the scenario's dry matter was true */ readonly measured: number;
  /** share of fresh mass a second; null for the handbook's rate of the crop */ readonly drying: number | null;
  /** chance that a day is lost, or the days that are */ readonly rain: number | readonly number[];
  /** s after midnight before which nothing is cut, or null */ readonly dew: number | null;
  /** days of the calendar that it may take */ readonly days: number;
}

export interface Scenario {
  readonly name: string;
  readonly crop: Crop;
  readonly fields: readonly Field[];
  readonly choppers: readonly Chopper[];
  readonly trucks: readonly TruckKind[];
  readonly lane: Lane | null;
  readonly weighing: { /** s */ readonly time: number; readonly lanes: number } | null;
  readonly storages: readonly Storage[];
  readonly packing: {
    /** m, loose layer as spread */ readonly layer: number;
    /** false: the relation always sees a 15 cm layer, see the layer caveat in forage/packing */ readonly layerTerm: boolean;
    /** how much of the crew finds room on the wedge */ readonly wedgeRoom: WedgeRoom;
    readonly whenBehind: BehindRule;
    /** s of rolling after the last lift */ readonly finish: number;
  };
  readonly targets: { /** kg DM/m3 */ readonly dryDensity: number; readonly poreSpace: number };
  readonly shift: {
    /** s after midnight */ readonly start: number;
    /** s after midnight */ readonly end: number;
    readonly breaks: readonly { /** s after midnight */ readonly at: number; /** s */ readonly for: number }[];
  };
  readonly variation: Variation;
  readonly herd: {
    readonly head: number;
    /** kg DM per head and day */ readonly intake: number;
    readonly season: "winter" | "summer";
  } | null;
  readonly money: {
    readonly currency: string;
    /** per person and hour */ readonly labourPerHour: number;
    /** per litre */ readonly fuelPerLitre: number;
    /** per tonne of dry matter */ readonly feedValuePerTonne: number;
  };
  /** film and the crew that lays it */
  readonly covering: {
    /** per m2 of film, by kind */ readonly filmPerArea: Readonly<Record<"plain" | "barrier", number>>;
    readonly people: number;
    /** m2/s that they cover together */ readonly pace: number;
  };
  /** false: that line of the loss ledger is shown and not counted */ readonly losses: Readonly<Record<LossSwitch, boolean>>;
  /** absent where the file says nothing of it */ readonly search?: Search;
  /** absent where the file says nothing of it */ readonly campaign?: Campaign;
  readonly seed: number;
}

/** One default that was filled in because the file was silent. */
export interface AppliedDefault {
  /** where it applies, in the file's own words, e.g. `choppers[0].changeover` */ readonly path: string;
  /** as a person would write it, e.g. `20 s` */ readonly value: string;
  /** `published`, `common practice, no source`, `assumption of this project`, `invented for the demo` ... */ readonly mark: string;
}

/** What is wrong with a scenario file, where, and what would be right. */
export interface Problem {
  /** JSON pointer into the document, e.g. `/fields/0/area` */ readonly pointer: string;
  /** one sentence */ readonly detail: string;
  /** 1-based, when the text was YAML or JSON and the place is known */ readonly line?: number;
  readonly column?: number;
}
