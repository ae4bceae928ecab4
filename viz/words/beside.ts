/** Texts of the sheet "Side by side". */
import { spoken } from "../english.ts";
import { listed } from "../words.ts";

const WORDS = {
  title: "Side by side",
  lead: "All on the same luck: the same loads are heavy, the same trips slow.",
  print: "Print this sheet",
  plan: "This plan",
  own: "(this plan)",
  asOpened: "This plan as opened",
  others: "Other plans",
  stored: "This plan in another storage",
  storedAs: (name: string) => `This plan, stored as in ${name}`,
  nothing: "Nothing is set beside it yet. Choose another plan; or change this one, and it is set beside itself as it was opened.",
  choose: (letter: string) => `Plan ${letter}`,
  add: "Set another beside it",
  remove: (name: string) => `Take ${name} away`,
  away: "Take away",
  again: "Ask again",
  days: (days: number) => (days === 1 ? "one day" : `${days} days`),
  table: "The figures, and the difference to A",
  measure: "Measure",
  keepsPace: "Packing keeps pace",
  of100: "days of 100",
  onTheDay: (keepsPace: boolean) => (keepsPace ? "yes" : "no"),
  cover: "Area to cover",
  same: "the same",
  otherMoney: "in different money",
  within: {
    relation: "inside the scatter of the published relation: clamps packed alike differ by as much",
    ledger: "inside the range of the loss ledger",
    luck: "inside the luck of the days rehearsed",
  },
  apart: {
    title: "What tells them apart",
    /** @param isOpen the loss ledger leaves open which it is */
    cheapest: (letter: string, cost: string, others: readonly string[], isOpen: boolean) =>
      `${isOpen ? "By the middle of what the loss ledger leaves open, dry" : "Dry"} matter fed costs least in ${letter}: ${cost}, against ${listed(others)}.`,
    otherMoney: "What a tonne fed costs is told in different money, and does not compare.",
    noCost: "Not every plan has a cost of dry matter fed.",
    alike: (cost: string) => `Dry matter fed costs the same in all: ${cost}.`,
    in: (figure: string, letter: string) => `${figure} in ${letter}`,
    unsure: "The days rehearsed are too alike to be sure of that.",
    betterAt: (letter: string, what: readonly string[]) => `${letter} is better at: ${what.join("; ")}.`,
    aheadAt: (letter: string, what: readonly string[]) => `${letter} at ${what.join("; ")}`,
    ledger: (ahead: readonly string[]) => `Ahead on the days rehearsed, but by less than the loss ledger leaves open: ${ahead.join("; ")}.`,
    scatter: (letter: string, other: string, by: string) => `The densities of ${letter} and ${other} differ by ${by}, and clamps packed alike by as much: on two real storages the order may be the other way round.`,
    left: (masses: readonly string[]) => `Left to feed are ${listed(masses)}.`,
    leftUnsure: "What is lost on the way is not known closely enough to tell these apart.",
    unpriced: (letters: readonly string[]) => `${letters.length === 1 ? "Plan" : "Plans"} ${listed(letters)}: no cost to build is given, so none is in the cost. Write it into the plan, with the life of the storage.`,
    pairs: (days: number) => (days === 1 ? "One day of each, held side by side." : `${days.toLocaleString("en")} days of each, held against the same day of A. The limits beside a difference hold on 95 of 100 such comparisons, for all plans together.`),
    notes: "To be read with it",
  },
  cost: {
    title: "What a tonne fed costs",
    harvest: "Harvest: machines, drivers, fuel",
    whole: "Dry matter fed",
    none: "none",
  },
  step: {
    title: "One day in step",
    lead: "The first of the days rehearsed, on which all plans have the same luck.",
    over: (end: string) => `Done at ${end}.`,
    head: ["Plan", "Chopper", "Trucks waiting in the field", "Trucks waiting at the storage", "On the apron", "Laid"],
  },
  scale: {
    title: "To one scale",
    lead: "What lies in each after that day, across where it is highest and lengthwise from the front to the back, all drawn with the same metre.",
    across: "across", along: "lengthwise", high: "high",
    times: (times: number) => (times === 1 ? "Height true to scale." : `Heights drawn ${times} times as high, in all of them.`),
    picture: (name: string, form: string, width: string, length: string, height: string) => `${name}, a ${form}: ${width} wide, ${length} long, ${height} high.`,
    forms: { bunker: "bunker", pile: "pile" },
    head: ["What", "Unit"],
    full: "full",
    daysUnit: "days",
    rows: {
      form: "Form", width: "Width", length: "Length", height: "Height", depth: "Mean depth as filled", filled: "Filled, fresh", cover: "Area to cover", stored: "Dry matter stored",
      lost: "Lost until it is fed", fed: "Left to feed", days: "Days of feed", advance: "The face moves on, a day", least: "Least advised, a day", capital: "Cost to build",
    },
  },
} as const;

export const words = spoken(WORDS);
