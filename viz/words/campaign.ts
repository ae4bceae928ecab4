/** The words of the sheet for several days. */
import { spoken } from "../english.ts";

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

const WORDS = {
  date: (day: number, month: number) => `${day} ${MONTHS[month - 1]}`,
  title: "When to start, so that all of it is in while the crop is fit?",
  lead: "Fields in order, days lost to rain, the crop drying while it waits: the whole campaign is rehearsed again and again, and each start that could be is tried.",
  rainDays: "Or rain on these days", rainDaysLike: "2026-09-16, 2026-09-17",
  then: "Then on to", add: "Another farm", remove: (name: string) => `Leave out ${name}`, away: "Leave out", choose: (place: number) => `Farm ${place}`, fleet: "The first plan's choppers and trucks go round; each farm has its own packing crew.",
  farmTrouble: (name: string, why: string) => `${name} could not be had: ${why}`,
  starts: (date: string) => `Started on ${date}`,
  campaigns: (count: number) => (count === 1 ? "One campaign, no luck in it." : `${count} campaigns rehearsed.`),
  finish: (median: string, early: string, late: string) => (early === late ? `All is in on ${median}.` : `All is in on ${median}; on 8 campaigns of 10 between ${early} and ${late}.`),
  notIn: "Not everything comes in.",
  chance: (all: string, inside: string, rain: string) => `Everything comes in on ${all} of campaigns, and on ${inside} the harvest ends inside the window. ${rain} days are lost to rain on average.`,
  sides: (inside: string, wet: string, dry: string) => `Of the dry matter ${inside} is cut inside the window, ${wet} too wet and ${dry} too dry.`,
  cost: (all: string, currency: string, each: string, unit: string) => `The work of all days costs ${all} ${currency}, ${each} ${currency}/${unit} of dry matter.`,
  costBetween: (low: string, high: string) => `On 8 campaigns of 10 it is between ${low} and ${high}.`,
  calendar: {
    title: "Day by day", shown: "The campaign with the median finish; the last line spans the finish of 8 campaigns of 10, its dot is the median.", one: "The one campaign there is.",
    dryMatter: "Dry matter as cut, %", window: "shaded: the window", delivered: (unit: string) => `Cut, ${unit}`, filled: (name: string) => `${name}, filled`,
    rain: "rain", cut: (name: string, share: string) => `${name} ${share} %`,
    spread: (early: string, late: string) => `All in: ${early} to ${late}`, allIn: (when: string) => `All in: ${when}`,
    head: (mass: string, density: string, currency: string | null) => ["Day", "Farm", "Fields", "Loads", `Fresh, ${mass}`, "Dry matter, %", `Density, ${density}`, "Packed at", currency === null ? "Cost" : `Cost, ${currency}`, "Storages"],
    field: (name: string, dryMatter: string, side: string) => `${name} at ${dryMatter} %${side === "inside" ? "" : `, ${side}`}`,
    storage: (name: string, share: string) => `${name} ${share} full`,
    lost: "lost to rain",
    day: (date: string, said: string) => `${date}: ${said}`,
    summary: (days: number, lost: number, said: string) => `${days} days, ${lost} of them lost to rain. ${said}`,
  },
  tried: {
    title: "Starts that were tried", what: "How much of the dry matter is cut inside the window from each start, and on how many campaigns the last of it still is.",
    inside: "inside the window", wet: "too wet", dry: "too dry", ends: "ends inside", best: "most inside", latest: "latest", planned: "as planned",
    head: ["Start", "Inside, %", "Too wet, %", "Too dry, %", "Ends inside, % of campaigns", "All in, % of campaigns"], cost: (currency: string, unit: string) => `Work, ${currency}/${unit} of dry matter`,
    take: (date: string) => `Start on ${date}`,
    summary: (parts: readonly string[]) => `Share of the dry matter cut inside the window by start: ${parts.join("; ")}.`,
    part: (starts: string, inside: string) => `${starts} ${inside}`,
  },
  stored: {
    title: "What lies where in the end",
    head: (mass: string, density: string, fluid: string) => ["Storage", "Filled", `Fresh, ${mass}`, `Dry matter, ${mass}`, "Dry matter, %", "Window, %", `Density, ${density}`, "8 of 10 like it", "Pore space", `Effluent, ${fluid}`],
    dates: (from: string, to: string) => (from === to ? from : `${from} to ${to}`),
    range: (low: string, high: string) => `${low}–${high}`,
    at: (name: string, farm: string) => `${name} at ${farm}`,
    beyond: "beyond the relation",
  },
  notes: "To know", assumed: "Taken as",
} as const;

export const campaignWords = spoken(WORDS);
