/** Opening and feeding: how much face a herd needs, and how fast it must move on. Dry matter a day / (density x advance) = face. */
import type { Sourced } from "./sourced.ts";

export type Season = "winter" | "summer";

/** Least advance of the face, m a day. */
export const leastAdvance = {
  winter: {
    value: 0.15, unit: "m a day", source: "Ontario ministry of agriculture, Bunker silo management: at least 15 cm a day", mark: "published",
    note: "Less is also printed: British Columbia's ministry asks for 3 in a day in cool weather and 4 in warm.",
  },
  summer: { value: 0.23, unit: "m a day", source: "extension advice: 23-30 cm a day in summer", mark: "published", range: [0.23, 0.3] },
} as const satisfies Record<Season, Sourced>;

/** Days to leave a storage closed before it is opened. */
export const daysClosed: Sourced = {
  value: 21, unit: "days", source: "extension advice: three to four weeks at least", mark: "published", range: [21, 28],
  note: "Longer for starch to become digestible.",
};

/** Volume taken a day, m3, from dry matter fed a day (kg) and density (kg DM/m3). */
export function volumePerDay(dryPerDay: number, density: number): number {
  return dryPerDay / density;
}

/** Face, m2, that this feeding moves on by `advance` (m a day). A larger face moves on too slowly. */
export function faceFor(dryPerDay: number, density: number, advance: number): number {
  return volumePerDay(dryPerDay, density) / advance;
}

/** Advance, m a day, of a face of this area (m2). */
export function advanceOf(dryPerDay: number, density: number, face: number): number {
  return volumePerDay(dryPerDay, density) / face;
}

/** The largest face, m2, this feeding keeps fresh in a season. */
export function largestFace(dryPerDay: number, density: number, season: Season): number {
  return faceFor(dryPerDay, density, leastAdvance[season].value);
}
