/** Plain sentences that qualify the figures; metric, one thought each. Cautions for people are not here, they have their own list. */
import type { Scenario } from "../scenario/types.ts";
import type { DayFacts } from "./facts.ts";
import { crowding, observed, rolling, thumb } from "./notes/crew.ts";
import { chopLength, dryMatter, full, speed, uncut } from "./notes/crop.ts";
import { chance, layer, lifts, outside, pores, shoulders, uncredited } from "./notes/density.ts";
import type { Note } from "./notes/note.ts";
import type { Measure, MeasureName } from "./types.ts";

/** In the order a reader needs them: what the density is worth, what the day left undone, then the cross-checks. */
const NOTES: readonly Note[] = [chance, outside, lifts, uncredited, pores, full, uncut, dryMatter, speed, chopLength, layer, shoulders, crowding, rolling, observed, thumb];

/** Every note that applies. */
export function notesFor(scenario: Scenario, days: readonly DayFacts[], measures: Partial<Record<MeasureName, Measure>>): string[] {
  return NOTES.flatMap((note) => note(scenario, days, measures));
}
