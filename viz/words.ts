/** Every text of the page, in one place, so that a translation can follow. Sentences from the engine come with the findings; see `sentences.ts`. */
import { BEHIND_SHORT, BEHIND_WORDS, STATE_WORDS as STATES } from "../sim/findings/words.ts";
import type { Step } from "../sim/harvest/moment.ts";
import type { BehindRule } from "../sim/scenario/types.ts";
import type { Control, What } from "./controls.ts";
import { spoken } from "./english.ts";
import { many } from "./words/many.ts";

const WORDS = {
  name: "Clampside",
  question: "Does packing keep up?",
  missing: (id: string, shown: string) => `There is no plan "${id}" here. Shown in its place: ${shown}. A plan that is kept on another machine comes here as a file, or by an address that holds it whole.`,
  waitingForFirst: "The day is being rehearsed.",
  example: "Example",
  sheetsTitle: "Sheets",
  sheets: { day: "The day", change: "What to change", beside: "Side by side", noon: "Rest of the day", campaign: "Several days", tickets: "Weigh tickets", lessons: "Lessons", crew: "Day sheet" },
  fetching: "This sheet is being fetched.",
  again: "Ask again",
  view: "View",
  viewAll: "View: units, words, paper",
  englishTitle: "Words",
  englishes: { general: "General", us: "US", uk: "UK, Ireland" },
  paperTitle: "Paper",
  papers: { light: "Light", dark: "Dark", sun: "Sun" },
  unitSystem: "Units",
  systems: { metric: "Metric", us: "US" },
  toPlan: "Change the plan",
  answerNow: "The answer now",
  asking: "Rehearsing",
  nowHome: "gone home",

  plan: {
    choppers: (count: number, pace: string) => `${many(count, "chopper")} at ${pace}`,
    trucks: (count: number, road: string) => `${many(count, "truck")} over ${road}`,
    tractors: (masses: readonly string[]) => `${masses.length === 1 ? "1 tractor" : `${masses.length} tractors`} of ${listed(masses)}`,
    layer: (layer: string, rule: BehindRule) => `${layer} layers, ${RULE_SHORT[rule]}`,
  },

  strip: {
    title: "The day, from the field to the clamp",
    heads: { field: "Field", road: "Road", apron: "Apron", clamp: "Clamp" },
    whichDay: (rehearsals: number) => (rehearsals === 1 ? "The one day rehearsed" : `One day of ${rehearsals}: the one with the median finish`),
    fromZero: "0 min",
    cut: (done: string, whole: string) => `${done} of ${whole} cut`,
    road: (length: string, loaded: string) => `${length}, ${loaded} loaded`,
    apron: (now: string) => `${now} lying`,
    pushed: (mass: string) => `${mass} being pushed`,
    apronFull: (full: string) => `full: ${full}`,
    /** @param since null: only just */
    waiting: (count: number, since: string | null) => `${count} ${count === 1 ? "waits" : "wait"}${since === null ? "" : `, ${count === 1 ? "" : "the first "}${since}`}`,
    clamp: (laid: string, lifts: number) => `${laid} in ${many(lifts, "lift")}`,
    scale: (length: string, times: number) => (times === 1 ? `${length} long, true to scale` : `${length} long, height times ${times}`),
    wall: (height: string) => `wall ${height}`,
    planned: (height: string) => `planned ${height}`,
    weighing: "scale",
    under: (share: string) => `Hatched: under target, ${share} so far`,
    noneUnder: "No lift under target so far",
    summary: (clock: string, parts: readonly string[]) => `The harvest at ${clock}. ${parts.join(" ")}`,
    onRoad: (loaded: number, empty: number) => `${many(loaded, "loaded truck")} and ${empty} empty on the road.`,
    inLine: (field: number, storage: number) => `${many(field, "truck")} waiting in the field, ${storage} at the storage.`,
    storage: (name: string, apron: string, laid: string, lifts: number) => `${name}: ${apron} on the apron, ${laid} laid in ${many(lifts, "lift")}.`,
  },

  legend: { title: (unit: string) => `Density of a lift, ${unit} of dry matter`, target: (target: string) => `target ${target}` },

  replay: {
    title: "Replay",
    play: "Play",
    pause: "Pause",
    back: "Step back",
    forward: "Step on",
    scrub: "Time of day",
    speed: "Speed",
    speeds: { 60: "1 min a second", 300: "5 min a second", 900: "15 min a second", 1800: "30 min a second" } as Readonly<Record<number, string>>,
    telling: "Back to the telling moment",
  },

  curves: {
    tipped: "tipped",
    packed: "laid and packed",
    summary: (tipped: string, widest: string, when: string) => `Two rising curves: tonnes tipped and tonnes laid, both up to ${tipped}. The gap between them, the apron, is widest at ${when} with ${widest}.`,
  },
  debt: {
    title: "Packing debt",
    what: "Minutes of work the whole packing crew owes to what has been tipped. Where the line is back at zero, packing has caught up.",
    oneLoad: (minutes: string) => `one load: ${minutes}`,
    behind: (clock: string) => `on this day behind from ${clock}`,
    summary: (peak: string, when: string, behind: string | null) => `Packing debt over the day. It is highest at ${when} with ${peak}.${behind === null ? " It never stays above one load for half an hour." : ` Packing is behind from ${behind}.`}`,
    head: ["Time", "Owed, min"],
  },
  breakHere: "break",

  density: {
    title: "How sure is the density?",
    luck: "luck of the day, 95 % limits of the mean",
    scatter: "scatter between clamps packed alike, 8 of 10",
    target: (value: string) => `target ${value}`,
    summary: (name: string, mean: string, luck: string, scatter: string, target: string) => `${name}: mean density ${mean}; by the luck of the day ${luck}; by the scatter of the published relation ${scatter}; target ${target}.`,
    chance: (percent: string) => `The chance that a clamp packed like this reaches the target is ${percent}.`,
    head: ["Storage", "Mean", "Luck of the day", "Scatter of the relation", "Target", "Chance of target"],
  },

  controls: {
    title: "Change the plan",
    groups: { field: "In the field", road: "On the road", clamp: "On the clamp" } as Readonly<Record<Control["group"], string>>,
    reset: "Back to the example",
    unread: "not readable",
    noCrew: (typed: string, most: number) => `This is ${typed}: a whole number from 1 to ${most} would do. The answer is for the crew as it was.`,
    inWords: (label: string) => `${label}, exact`,
  },

  /** by figure, as it is asked for */
  short: {
    finishedAt: "Packed and closed", chopperWaiting: "Chopper waiting", dryMatterFed: "Dry matter fed", costPerTonne: "Cost, fresh, delivered",
    mostDays: (range: string) => `most days ${range}`,
    ledger: (range: string) => `${range} by the ledger`,
  } as const,

  figures: {
    title: "The figures",
    head: { figure: "Figure", mean: "Mean", unit: "Unit", most: "Most days", limits: "Mean, 95 % sure" },
    range: (low: string, high: string) => `${low} to ${high}`,
    formula: "Formula",
    inputs: "What went in",
    source: "Source",
    mark: "Mark",
    measured: "Range of the source",
    outside: "Outside the range in which its source measured.",
    outsideShort: "outside its source's range",
    noDerivation: "No derivation was sent with this figure.",
    sureOf: (low: string, high: string) => `Mean of the days, 95 % sure: ${low} to ${high}.`,
    note: "Most days: from the 10th to the 90th of 100 days.",
    noteOne: "One day without chance: no spread between days.",
    open: "Open a figure to see where it comes from.",
    onPaper: (days: number, engine: string, seed: number, plan: string) => `Rehearsed on ${days === 1 ? "1 day" : `${days} days`}, engine ${engine}, luck ${seed}, plan ${plan}. On the page each figure opens to show where it comes from.`,
  },
  machines: {
    hours: (hours: string) => `${hours} h`,
  },
  handCheck: {
    title: "Checked by hand",
    what: "The most that each station could pass if nobody ever waited for anybody, beside what the rehearsal passed. The gap is bunching.",
    head: { station: "Station", bound: "By hand", simulated: "Rehearsed", gap: "Gap" },
  },
  cautions: { title: "Before anybody starts" },
  notes: { title: "Notes to the figures" },
  defaults: {
    title: "What the file did not say",
    what: "These were filled in. Say otherwise in the plan and it goes.",
    all: (count: number) => (count === 1 ? "The one that was filled in" : `All ${count} that were filled in`),
    head: { path: "Where", value: "Taken", mark: "Mark" },
  },
  money: { title: "Money", head: { what: "What", amount: "Amount", paidBy: "Paid by" }, total: "Total", beside: "Beside the total, not in it", payers: { farm: "farm", contractor: "contractor", nobody: "nobody; the farm bears it" } },
  perTonne: { title: "What a tonne comes to", head: { range: "Over the range of the ledger" }, delivered: "Fresh, delivered (harvest only)", stored: "Dry matter stored", fed: "Dry matter fed" },

  ledger: {
    title: "From cut to fed",
    cut: "Dry matter cut",
    stored: "Dry matter stored",
    fed: "Dry matter left to feed",
    ranged: (central: string, unit: string, low: string, high: string) => `${central} ${unit} (${low} to ${high})`,
    noFigure: "no figure",
    counted: "counted",
    notCounted: "not counted",
    sources: "How each line is reckoned",
    summary: (stored: string, fed: string) => `A ledger that falls line by line, from ${stored} of dry matter stored to what is left to feed: ${fed}.`,
    head: { line: "Line", central: "Central figure", range: "Range", share: "Share of stored", counted: "Counted", mark: "Mark", measured: "Range of the source" },
  },
  side: { same: "the same" },
  feedOut: {
    title: "Feeding out",
    head: { storage: "Storage", advance: "Face, a day", least: "Least advised", days: "Days of feed", open: "Open after" },
    slow: "slower than advised",
    kept: "fast enough",
    openAfter: (soonest: number, better: number) => `${soonest} days, better ${better}`,
  },

  table: { same: "The same as a table", lifts: "Lift by lift", now: "Who does what now" },
  liftHead: ["Lift", "Laid", "Load", "Layer", "Rolled", "Density", "Target"],
  underTarget: "under target",
  atTarget: "reached",
  nowHead: ["Machine", "Does", "Since", "Load"],

  trouble: {
    unreachable: "The server does not answer. The page asks again at the next change.",
    tooFast: "The server asks for a pause. Wait a moment, then change something.",
    unsound: "This plan cannot be rehearsed as it stands.",
    still: "The answer above is for the last plan that could.",
    noExamples: "The server has no worked example to open with.",
    unreadable: "The answer could not be read.",
  },
} as const;

export const words = spoken(WORDS);

/** With a capital, as the first word of a row. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "a", "a and b", "a, b and c". */
export function listed(items: readonly string[]): string {
  return items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}

export const RULES = spoken(BEHIND_WORDS);

const RULE_SHORT = spoken(BEHIND_SHORT);

export const CONTROL_LABELS: Readonly<Record<What, (name: string | null) => string>> = spoken({
  pace: (name) => (name === null ? "Chopper pace" : `${name}, pace`),
  trucks: (name) => (name === null ? "Trucks" : `Trucks, ${name}`),
  road: () => "Road, one way",
  tips: (name) => (name === null ? "Tipping places" : `Tipping places, ${name}`),
  tractors: () => "Packing tractors",
  tractor: (name) => (name === null ? "Its mass" : `${name}, mass`),
  crew: (name) => (name === null ? "Packing tractors" : `Packing tractors, ${name}`),
  mass: (name) => (name === null ? "Its mass" : `${name}, mass`),
  layer: () => "Layer, loose",
  rule: () => "When packing falls behind",
});

export const STATE_WORDS = spoken(STATES);

export const STEP_WORDS: Readonly<Record<Step, string>> = spoken({ ...STATES, "lane-line": "waiting for the lane", lane: "in the lane", parked: "parked" });
