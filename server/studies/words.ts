/** Which errors of a study are words for whoever asked. */
import { EndlessDay } from "../../sim/harvest/day.ts";

/** A sentence for the user, or null for a fault of the program's own. */
export const wordsOf = (error: unknown): string | null => (error instanceof RangeError || error instanceof EndlessDay ? error.message : null);
