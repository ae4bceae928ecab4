/** Which units a file speaks, so that its reader is answered in the same. */
import type { UnitSystem } from "./units.ts";

const US_UNITS = /\d\s*"?(acre|ft|in|mi|lb|ton|mph|gal|hp|psi)\b/gu;
const METRIC_UNITS = /\d\s*"?(ha|mm|cm|m|km|kg|t|L|kW|kPa|m2|m3)\b/gu;

/** The system most quantities of a scenario's text are written in; metric when it is a draw. Time and money belong to both. */
export function unitSystemOf(text: string): UnitSystem {
  const count = (pattern: RegExp) => text.match(pattern)?.length ?? 0;
  return count(US_UNITS) > count(METRIC_UNITS) ? "us" : "metric";
}
