/** How much the activities of a day vary, as a plan says it: by one figure, or by a distribution of a kind. */
import { ACTIVITIES, type Activity } from "../../sim/scenario/types.ts";
import { TYPICAL } from "../../sim/scenario/typical.ts";
import { at, type Document, type Json } from "../document.ts";

export const SPREADS = ["none", "lognormal", "gamma", "weibull", "normal", "uniform", "exponential", "erlang", "triangular", "fixed"] as const;
export type SpreadKind = (typeof SPREADS)[number];

const typical = (activity: Activity): string => `${Number((TYPICAL[activity] * 100).toFixed(6))} %`;

/** What `typical` means, activity by activity. */
export const typicalByActivity = (): Document => Object.fromEntries(ACTIVITIES.map((activity) => [activity, typical(activity)]));

/** The kind of what a plan says of one activity; a bare figure is the variation of a lognormal. */
export function kindOfSpread(said: Json | undefined): SpreadKind {
  if (said === undefined || said === "none") return "none";
  const named = at(said, ["shape"]);
  return SPREADS.find((kind) => kind === named) ?? "lognormal";
}

/** What a plan says of an activity when another kind is chosen: as much variation as there was, or as is typical. */
export function spreadOf(kind: SpreadKind, activity: Activity, before: Json | undefined): Json {
  const cv = (typeof before === "object" ? at(before, ["cv"]) : before === "none" ? undefined : before) ?? typical(activity);
  switch (kind) {
    case "none": return "none";
    case "lognormal": return cv;
    case "fixed": case "exponential": return { shape: kind };
    case "erlang": return { shape: kind, stages: 4 };
    case "triangular": return { shape: kind, low: 0.7, mode: 1, high: 1.3 };
    default: return { shape: kind, cv };
  }
}

/** The keys beneath an activity that its kind takes; empty where the activity itself is the figure. */
export function parametersOf(said: Json | undefined): readonly string[] {
  if (typeof said !== "object" || said === null) return [];
  return ["cv", "stages", "low", "mode", "high"].filter((key) => at(said, [key]) !== undefined);
}
