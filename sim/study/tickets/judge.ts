/** Was the model right? A recorded day beside many rehearsed ones, read by the same rules: where it lies inside what they show, and where not. */
import { clockOf } from "../../findings/clock.ts";
import { summarise } from "../../findings/summary.ts";
import { EndlessDay } from "../../harvest/day.ts";
import type { Scenario } from "../../scenario/types.ts";
import { formatNumber } from "../../scenario/units.ts";
import { isDeterministic, usualRehearsals } from "../rehearsal.ts";
import type { Batch, Days, Study } from "../work.ts";
import { explain, explanations, type Explained } from "./explain.ts";
import { JUDGED, JUDGED_NAMES, judgedOf, type JudgedName } from "./judged.ts";
import { gapsOf, measureDay, type DayOfLoads, type Weighing } from "./loads.ts";

export interface Judged {
  readonly recorded: number;
  readonly predicted: number;
  /** between which 8 of 10 rehearsed days lie */ readonly low: number;
  readonly high: number;
  readonly unit: string;
  /** null where the rehearsed days do not differ */ readonly inside: boolean | null;
  readonly inWords: string;
}

/** A stretch without a load that the rehearsed days do not show. */
export interface Stoppage {
  /** s after midnight */ readonly from: number;
  readonly to: number;
  /** s without the breaks of the shift */ readonly worked: number;
  /** rehearsed days with a stretch as long */ readonly onDays: number;
  readonly inWords: string;
}

/** One hour of the clock, tonnes weighed in it. */
export interface Hour { /** s after midnight */ readonly from: number; readonly recorded: number; readonly predicted: number; readonly low: number; readonly high: number }

export interface Judgement {
  readonly rehearsals: number;
  readonly figures: Readonly<Partial<Record<JudgedName, Judged>>>;
  /** null with too few rehearsals to tell */ readonly stoppages: readonly Stoppage[] | null;
  /** share of days as rehearsed on which some stretch would be told so */ readonly falseAlarms: number | null;
  readonly hours: readonly Hour[];
  /** the best first; empty where nothing is off */ readonly explained: readonly Explained[];
  readonly inWords: readonly string[];
}

/** A stretch is told when at most this share of the rehearsed days has one as long; fewer rehearsals than these cannot tell. Assumptions of this project. */
const SELDOM = 0.01;
const FEWEST_TO_TELL = 50;
/** Share of the predicted figure beyond which a recorded one is off where the rehearsed days do not differ. Assumption of this project. */
const OFF = 0.05;
/** Days each input is tried on at the most. Assumption of this project. */
const MOST_TRIED = 30;

const WORDS: Readonly<Record<JudgedName, string>> = {
  tonnesPerHour: "Delivered by the hour", cycle: "The round of a truck", stay: "The time at the storage", atStorage: "Trucks at the storage at a time", finish: "The last load", longest: "The longest stretch without a load", tonnes: "Delivered in all", loads: "Loads", load: "A load",
};

/** Digits after the point that deserve to be shown, where they are not one. */
const DIGITS: Readonly<Partial<Record<JudgedName, number>>> = { loads: 0, atStorage: 2, load: 2 };

export interface JudgeOptions { readonly rehearsals?: number; readonly seed?: number }

/** Holds one recorded day, in the order of weighing, against rehearsed days. @throws EndlessDay, RangeError for no weighings */
export function* judge(scenario: Scenario, recorded: readonly Weighing[], options: JudgeOptions = {}): Study<Judgement> {
  if (recorded.length < 2) throw new RangeError("A day of fewer than two tickets cannot be held against the model.");
  const rehearsals = options.rehearsals ?? usualRehearsals(scenario);
  const seed = options.seed ?? scenario.seed;
  const tries = Math.min(rehearsals, MOST_TRIED);
  const batch = (plan: number, each: Scenario, to: number): Batch => ({ plan, scenario: each, seed, from: 0, to, weighings: true });
  const pauses = scenario.shift.breaks;
  const [base] = yield { batches: [batch(0, scenario, rehearsals)], expected: rehearsals };
  const lists = listsOf(base!);
  const days = lists.map((list) => measureDay(list, pauses));
  const real = measureDay(recorded, pauses);

  const figures = figuresOf(real, days);
  const told = rehearsals < FEWEST_TO_TELL ? null : stoppagesOf(recorded, lists, scenario);
  const isOff = Object.values(figures).some(({ inside, recorded: is, predicted }) => inside === false || (inside === null && Math.abs(is - predicted) > OFF * Math.abs(predicted))) || (told ?? []).length > 0;
  let explained: Explained[] = [];
  if (isOff) {
    const tried = explanations(scenario, recorded, real, days, told ?? []);
    const plans = tried.flatMap(({ scenario: changed }) => (changed ? [changed] : []));
    const answers = plans.length === 0 ? [] : yield { batches: plans.map((each, i) => batch(i + 1, each, tries)), expected: rehearsals + plans.length * tries };
    let next = 0;
    const known = tried.map((one) => ({ ...one, days: one.scenario ? daysOf(answers[next++]!, pauses) : null }));
    explained = explain(known, real, days, pauses);
  }
  return {
    rehearsals, figures, stoppages: told, falseAlarms: told && (Math.floor(SELDOM * rehearsals) + 1) / (rehearsals + 1), hours: hoursOf(recorded, lists), explained,
    inWords: [...verdict(figures, told, !isDeterministic(scenario)), ...(isOff ? [explanationInWords(explained)] : [])],
  };
}

function listsOf(days: Days): (readonly Weighing[])[] {
  if ("endless" in days) throw new EndlessDay(days.endless);
  const lists = days.flatMap(({ weighings }) => (weighings && weighings.length >= 2 ? [weighings] : []));
  if (lists.length === 0) throw new RangeError("On no rehearsed day are there two loads to weigh; there is nothing to hold the tickets against.");
  return lists;
}

/** A plan whose crew never gets done, or that brings nothing, explains nothing. */
const daysOf = (days: Days, pauses: Scenario["shift"]["breaks"]): DayOfLoads[] | null =>
  ("endless" in days || days.some(({ weighings }) => !weighings || weighings.length < 2) ? null : days.map(({ weighings }) => measureDay(weighings!, pauses)));

function figuresOf(real: DayOfLoads, days: readonly DayOfLoads[]): Partial<Record<JudgedName, Judged>> {
  const figures: Partial<Record<JudgedName, Judged>> = {};
  for (const name of JUDGED_NAMES) {
    const recorded = judgedOf(name, real);
    const predicted = summarise(days.map((day) => judgedOf(name, day)).filter(Number.isFinite), JUDGED[name]);
    if (!Number.isFinite(recorded) || predicted === null) continue;
    const { mean, p10: low, p90: high, unit } = predicted;
    const inside = low === high ? null : recorded >= low && recorded <= high;
    const say = (value: number) => (name === "finish" ? clockOf(value * 3600) : `${formatNumber(value, DIGITS[name] ?? 1)}${unit === "1" ? "" : ` ${unit}`}`);
    const place = inside === null ? `and ${days.length === 1 ? "the rehearsed day has" : "8 of 10 rehearsed days have"} ${say(mean)}` : inside ? `inside what 8 of 10 rehearsed days show, ${say(low)} to ${say(high)}`
      : `${recorded < low ? (name === "finish" ? "earlier" : "less") : (name === "finish" ? "later" : "more")} than 8 of 10 rehearsed days show, ${say(low)} to ${say(high)}`;
    figures[name] = { recorded, predicted: mean, low, high, unit, inside, inWords: `${WORDS[name]}: ${say(recorded)}, ${place}.` };
  }
  return figures;
}

/** Stretches longer than the longest of nearly all rehearsed days, in the order of the day. */
export function stoppagesOf(recorded: readonly Weighing[], lists: readonly (readonly Weighing[])[], { shift }: Pick<Scenario, "shift">): Stoppage[] {
  const longest = lists.map((list) => Math.max(...gapsOf(list, shift.breaks).map(({ worked }) => worked)));
  return gapsOf(recorded, shift.breaks).flatMap((gap) => {
    const onDays = longest.filter((worked) => worked >= gap.worked).length;
    if (onDays > SELDOM * lists.length) return [];
    return [{ ...gap, onDays, inWords: `Between ${clockOf(gap.from)} and ${clockOf(gap.to)} nothing was weighed; ${onDays === 0 ? "none" : onDays} of ${lists.length} rehearsed days ${onDays > 1 ? "have" : "has"} a stretch that long.` }];
  });
}

function hoursOf(recorded: readonly Weighing[], lists: readonly (readonly Weighing[])[]): Hour[] {
  const hourOf = ({ at }: Weighing) => Math.floor(at / 3600);
  const all = [recorded, ...lists].flatMap((list) => [hourOf(list[0]!), hourOf(list.at(-1)!)]);
  const [first, last] = [Math.min(...all), Math.max(...all)];
  const tonnes = (list: readonly Weighing[]) => {
    const sums = new Array<number>(last - first + 1).fill(0);
    for (const weighing of list) sums[hourOf(weighing) - first]! += weighing.mass / 1000;
    return sums;
  };
  const real = tonnes(recorded);
  const rehearsed = lists.map(tonnes);
  return real.map((recordedT, i) => {
    const { mean, p10, p90 } = summarise(rehearsed.map((day) => day[i]!), "t")!;
    return { from: (first + i) * 3600, recorded: recordedT, predicted: mean, low: p10, high: p90 };
  });
}

function verdict(figures: Partial<Record<JudgedName, Judged>>, stoppages: readonly Stoppage[] | null, lucky: boolean): string[] {
  const all = Object.values(figures);
  const off = all.filter(({ inside }) => inside === false);
  const without = all.filter(({ inside }) => inside === null);
  return [
    off.length > 0 ? `The recorded day is off in ${off.length} of ${all.length} figures; of a day as rehearsed, two in ten of them would be, and they hang together.`
      : without.length === all.length ? (lucky ? "One rehearsed day does not show how far a day may be off by luck." : "The scenario has no luck in it: how far a day may be off by luck is not known.") : "The recorded day lies inside what the rehearsed days show.",
    ...off.map(({ inWords }) => inWords),
    ...(stoppages === null ? [`With fewer than ${FEWEST_TO_TELL} rehearsed days no stretch can be called unusual.`] : stoppages.map(({ inWords }) => inWords)),
  ];
}

/** An explanation takes away this share of the difference at the least. Assumption of this project. */
const EXPLAINS = 0.5;
/** Explanations that leave the day within luck, or as near as one figure's luck, cannot be told apart. Assumption of this project. */
const ALIKE = 1;
const SHOWN = 2;

function explanationInWords(explained: readonly Explained[]): string {
  const [best] = explained;
  if (!best) return "All figures together, it is no further off than the luck of a day would put it.";
  if (best.closes < EXPLAINS) {
    return `No one input that was tried explains it${best.closes > 0.1 ? `: the nearest, ${best.what}, takes away ${share(best)} of the difference` : ""}. Several may be wrong at once, or something happened that the scenario does not know.`;
  }
  const near = explained.filter(({ left }) => left <= Math.max(0, best.left) + ALIKE);
  // A stop was seen; what would only do as well was not.
  const seen = near.find(({ input }) => input === "stop");
  const said = seen ?? best;
  const others = seen ? [] : near.slice(1, 1 + SHOWN).map(({ what }) => what);
  return `Best explained by ${said.what}: it takes away ${share(said)} of the difference${others.length > 0 ? `; ${others.join(" or ")} would do nearly as well, and the tickets cannot tell them apart` : ""}.`;
}

const share = ({ closes }: Explained) => `${Math.round(100 * closes)} %`;
