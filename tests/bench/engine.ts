/** What a day costs is measured on this part of the house, built by itself. */
export { rehearseDay } from "../../sim/harvest/day.ts";
export { factsOf } from "../../sim/findings/facts.ts";
