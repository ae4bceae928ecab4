/**
 * Sentences from the engine speak metric. For a reader of US units the quantities in them are turned, figure by figure, with as many
 * significant digits as the sentence had; everything else stays word for word.
 */
import { inEnglish } from "./english.ts";
import { printed, shownIn, type UnitSystem } from "./quantity.ts";
import { headlineIn } from "../sim/findings/words.ts";
import type { Verdict } from "../sim/findings/types.ts";
import type { Problem } from "../sim/scenario/types.ts";
import { pathOf } from "../sim/scenario/words.ts";
import { TURNED_UNITS, turned } from "../sim/scenario/turned.ts";
import { toSI } from "../sim/scenario/units.ts";

/** A figure and the unit behind it stay on one line. */
const FIGURE_AND_UNIT = /(\d) (?=(?:kg|t|ton|lb|km|mi|m|cm|in|ft|ha|acre|min|h|s|L|gal|kW|hp|kPa|psi|%)(?![\w]))/g;

/** As the page shows a sentence that speaks the reader's units already. */
const kept = (sentence: string): string => printed(inEnglish(sentence).replaceAll(FIGURE_AND_UNIT, "$1\u00a0").replaceAll(/\b(kg|lb) DM\b/g, "$1\u00a0DM"));

/** The sentence in the reader's units, with raised figures in the units. */
export const textIn = (system: UnitSystem, text: string): string => kept(system === "metric" ? text : turned(text));

/** The verdict in the reader's units, from its figures: the sentence is rounded to whole tonnes already, and a tractor is spoken of in pounds. */
export const verdictIn = (system: UnitSystem, verdict: Verdict): string => kept(headlineIn(verdict, system));

/** What is wrong, told at its very place: the way that leads there in a file is left out. */
export function wrongHere(system: UnitSystem, { pointer, detail }: Problem): string {
  const steps = pointer.split("/").slice(1).map((step) => (/^\d+$/.test(step) ? Number(step) : step.replaceAll("~1", "/").replaceAll("~0", "~")));
  const place = `${pathOf(steps)} `;
  return textIn(system, detail.startsWith(`${place}is `) ? `This ${detail.slice(place.length)}` : detail);
}

/** What a measure's unit is for the reader, and what its figure is to be multiplied by. A share of 1 is shown in per cent. */
export function measureIn(system: UnitSystem, unit: string): { readonly unit: string; readonly factor: number } {
  if (unit === "1" || unit === "1/h") return { unit: "", factor: 1 };
  const [per, rest] = /^per t\b(.*)$/.exec(unit) ? ["per ", unit.slice(5)] : ["", null];
  if (per !== "") return system === "us" ? { unit: `per ton${rest}`, factor: toSI(1, "ton", "mass") / 1000 } : { unit, factor: 1 };
  const known = TURNED_UNITS.find(([written]) => written === unit);
  if (system === "metric" || !known) return { unit: printed(unit), factor: 1 };
  return { unit: printed(known[3]), factor: shownIn(toSI(1, known[2], known[1]), known[1], "us") };
}
