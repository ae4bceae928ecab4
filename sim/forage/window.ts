/** When a crop is fit for the clamp: dry matter, chop length, and how long until it is there. */
import type { Range, Sourced } from "./sourced.ts";
import { INCH } from "./us.ts";

const SAXE = "Saxe 2007, updated 2016, Managing forage in bunker silos, University of Wisconsin Extension";

/** Dry matter window of a crop stored in a bunker, share of fresh mass. */
export const dryMatterWindow = {
  corn: {
    value: [0.3, 0.35], unit: "1", source: `${SAXE}: 65-70 % moisture`, mark: "published",
    note: "The same page calls 60-70 % the preferred range for corn.",
  },
  haycrop: { value: [0.35, 0.4], unit: "1", source: `${SAXE}: 60-65 % moisture`, mark: "published" },
} as const satisfies Record<string, Sourced<Range>>;

/** Set length of cut for most crops. */
export const chopLengthWindow: Sourced<Range> = {
  value: [0.5 * INCH, 0.75 * INCH], unit: "m", source: "1/2 to 3/4 in, for most crops", mark: "common practice, no source",
  note: `For alfalfa, and for corn without a kernel processor, 3/8 in is printed (${SAXE}).`,
};

/** Loss of moisture of standing corn once the milk line moves, percentage points a day; the range is of county means. */
export const dryDown: Sourced = { value: 0.5, unit: "% units a day", source: "Lauer, Wisconsin Crop Manager", mark: "published", range: [0.24, 0.97] };

export type WindowSide = "too wet" | "inside" | "too dry";

/** A pile has no window of its own in print: it is judged by the bunker's (assumption of this project). Crops other than corn and sorghum are judged as haycrop. */
export function dryMatterWindowOf(crop: string): Sourced<Range> {
  return crop === "corn" || crop === "sorghum" ? dryMatterWindow.corn : dryMatterWindow.haycrop;
}

/** On which side of the window a dry matter share lies, ends included in the window. */
export function windowSide(dryMatter: number, crop: string): WindowSide {
  const [low, high] = dryMatterWindowOf(crop).value;
  return dryMatter < low ? "too wet" : dryMatter > high ? "too dry" : "inside";
}

/** Days until standing corn dries from one moisture to a lower one, both shares of fresh mass; 0 when it is there already. Rate in percentage points a day, above 0. */
export function daysToReach(fromMoisture: number, toMoisture: number, rate = dryDown.value): number {
  if (!(rate > 0)) throw new RangeError(`The crop must dry for a day to be named: the rate is ${rate} percentage points a day, it must be above 0.`);
  return Math.max(0, (100 * (fromMoisture - toMoisture)) / rate);
}
