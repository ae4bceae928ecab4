/** How far a figure may be trusted, in full words; the same words stand in the findings and on the page. */
export type Mark =
  | "published"
  | "published, figure from memory"
  | "common practice, no source"
  | "assumption of this project"
  | "invented for the demo";

/** A figure that knows where it comes from. `range` is what the source measured or calls usual, in the same unit as `value`. */
export interface Sourced<T = number> {
  readonly value: T;
  readonly unit: string;
  readonly source: string;
  readonly mark: Mark;
  readonly range?: readonly [number, number];
  readonly note?: string;
}

/** A closed range of figures, low end first. */
export type Range = readonly [number, number];

/** True when a value lies outside the range its source covers, ends included in the range; a figure without a range has no outside. */
export function isOutside(value: number, range: Range | undefined): boolean {
  return range !== undefined && !(value >= range[0] && value <= range[1]);
}
