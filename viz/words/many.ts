import { formatNumber } from "../../sim/scenario/units.ts";

/** How many of something, in words: `1 truck`, `1,200 trucks`. */
export const many = (count: number, one: string, more = `${one}s`): string => `${formatNumber(count, 0)} ${count === 1 ? one : more}`;
