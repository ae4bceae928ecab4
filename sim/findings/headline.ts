/** The verdict said: one or two honest sentences out of its figures, in whatever units. */
import { capital } from "../scenario/words.ts";
import { clockOf } from "./clock.ts";
import { counted, percent, tonnes } from "./figure.ts";
import type { Station } from "./types.ts";

/** Chance of keeping pace from which a plan is said to keep pace (assumption of this project). */
export const SURE_ENOUGH = 0.9;
/** Share of field time that a chopper must stand before its waiting is what limits the day (assumption of this project). */
export const STANDS = 0.05;

/** What the choppers stand for when it is not a clamp. */
export const FOR_TRUCKS = "for trucks";

/** Shares of the chopper's field time that it may lose to the storage, and of the mass that must be at target, for a day to keep pace (assumptions of this project). */
export const LOST_TO_STORAGE = 0.05;
export const AT_TARGET_SHARE = 0.9;

/** How figures are written in a sentence. The page and the terminal bring their own for US units; the findings speak metric. */
export interface Phrasing {
  readonly density: (kgPerM3: number) => string;
  readonly rate: (kgPerS: number) => string;
  /** of tractors */ readonly machineMass: (kg: number) => string;
  readonly crop: (kg: number) => string;
}
export const METRIC: Phrasing = {
  density: (v) => `${counted(v)} kg DM/m3`,
  rate: (v) => `${counted(v * 3.6)} t/h`,
  machineMass: (v) => `${counted(v / 1000)} t`,
  crop: tonnes,
};

/** Everything a verdict needs, and all of it in figures: so that the page can say it again in other units. */
export interface VerdictFigures {
  readonly chance: number;
  /** s after midnight: median of the days that fall behind */ readonly behindFrom: number | null;
  /** share of the days that fall behind */ readonly behindOn: number;
  /** kg/s */ readonly paceKept: number;
  /** kg/s */ readonly offered: number;
  /** kg */ readonly short: number | null;
  /** whether the wedges have room for what is short */ readonly room: boolean;
  /** of several storages that some field leads to first, the one whose crew is behind first */ readonly weakest: string | null;
  /** kg DM/m3; null, as what follows, where a day does not give it */ readonly density: number | null;
  readonly target: number;
  /** share of the mass in lifts under the target */ readonly under: number | null;
  readonly bottleneck: Station;
  /** share of its field time that the chopper stands */ readonly standing: number | null;
  /** the same, for a storage */ readonly standingForStorage: number | null;
  readonly standingCause: string;
  readonly whoPays: "farm" | "contractor";
  /** kg left standing, mean over the days */ readonly uncut: number;
  readonly choppers: number;
  /** mean over the days; 0 on a day taken up when all was in already */ readonly loads: number;
  readonly days: number;
}

/** Days of a hundred: all and none only where it was so on every one. */
const ofHundred = (share: number): number => (share === 0 || share === 1 ? 100 * share : Math.min(99, Math.max(1, Math.round(100 * share))));

/** kg of packing tractor under which nothing is short: nobody hires less than half a tonne (assumption of this project). */
const LEAST_SHORT = 500;

/** The verdict in words: what is so, when, what you get, and what would be enough. */
export function headline(figures: VerdictFigures, say: Phrasing = METRIC): string {
  const { chance, behindFrom, behindOn, density, target } = figures;
  const [standing, forStorage, under] = [figures.standing ?? 0, figures.standingForStorage ?? 0, figures.under ?? 0];
  const stands = standing >= STANDS;
  const often = figures.days > 1 ? "On average " : "";
  const uncut = figures.uncut > 500 ? ` ${often}${say.crop(figures.uncut)} of crop ${often ? "is" : "are"} left standing when the day ends.` : "";
  const ends = density !== null ? `the clamp ends at ${say.density(density)}, target ${say.density(target)}` : `${figures.loads > 0 ? "on some days " : ""}nothing lies in the clamp`;
  if (figures.loads === 0) return `Nothing more comes in: ${ends}.${uncut}`;
  const share = `${Math.round(standing * 100)} %`;
  const chopper = figures.choppers > 1 ? "the choppers stand" : "the chopper stands";
  if (chance >= SURE_ENOUGH) {
    const sure = figures.days > 1 ? ` on ${ofHundred(chance)} of 100 days` : "";
    const wait = stands ? `; ${chopper} ${share} of the time ${figures.standingCause}` : "";
    return `Packing keeps pace${sure}${wait}. ${capital(ends)}.${uncut}`;
  }
  // Most of the days that fail may fail for something else than a crew that is behind.
  const isBehind = behindFrom !== null && behindOn >= (1 - chance) / 2;
  const loose = !isBehind && under > 1 - AT_TARGET_SHARE ? `, ${percent(under)} of it in lifts under that` : "";
  const split = !isBehind && figures.standingCause === FOR_TRUCKS && forStorage >= LOST_TO_STORAGE;
  const stand = stands ? `, and ${chopper} ${share} of the time${split ? `, ${percent(forStorage)} for the clamp` : ` ${figures.standingCause}`}, at the ${figures.whoPays}'s cost` : "";
  const opening = isBehind ? `Packing falls behind at ${clockOf(behindFrom)}${behindOn < 1 ? ` on ${ofHundred(behindOn)} of 100 days` : ""}`
    : figures.days > 1 ? `The plan keeps pace on ${chance === 0 ? "no day" : `only ${ofHundred(chance)} of 100 days`}` : "The day does not keep pace";
  return `${opening}: ${ends}${loose}${stand}. ${capital(enough(figures, isBehind, say))}.${uncut}`;
}

/** What the crew keeps pace at, and what would be enough. */
function enough({ short, room, weakest, paceKept: kept, offered }: VerdictFigures, isBehind: boolean, say: Phrasing): string {
  if (short === null) return `the blades cannot spread ${say.rate(offered)}`;
  const isShort = short >= LEAST_SHORT;
  const [they, are, wedge] = weakest !== null ? ["these crews keep", "they are", "wedges have"] : ["this crew keeps", "it is", "wedge has"];
  const lacks = isShort ? `; at ${say.rate(offered)} ${are} short of ${say.machineMass(short)} of packing tractor${room ? "" : `, more than the ${wedge} room for`}`
    : room ? "" : `; for ${say.rate(offered)} the wedge is too narrow`;
  const first = weakest === null ? "" : `, beyond which the one at ${weakest} falls behind`;
  return isBehind || lacks !== "" || weakest !== null ? `${they} pace at ${say.rate(kept)}${first}${lacks}` : `this crew packs ${say.rate(kept)} at target`;
}
