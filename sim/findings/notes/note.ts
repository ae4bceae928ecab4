/** A note qualifies figures: none, one or several plain sentences, metric. */
import type { Scenario } from "../../scenario/types.ts";
import type { DayFacts } from "../facts.ts";
import type { Measure, MeasureName } from "../types.ts";

export type Note = (scenario: Scenario, days: readonly DayFacts[], measures: Partial<Record<MeasureName, Measure>>) => string[];
