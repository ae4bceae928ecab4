/** The figures of a day that a recorded one is held by. */
import type { DayOfLoads } from "./loads.ts";

/** What is held against what was predicted, with its unit; `finish` is the last weighing, `longest` the longest stretch of work without one. */
export const JUDGED = { tonnesPerHour: "t/h", cycle: "min", stay: "min", atStorage: "1", finish: "h", longest: "min", tonnes: "t", loads: "1", load: "t" } as const;
export type JudgedName = keyof typeof JUDGED;
export const JUDGED_NAMES = Object.keys(JUDGED) as JudgedName[];

/** One figure of a day; NaN where the day has none. */
export function judgedOf(name: JudgedName, day: DayOfLoads): number {
  switch (name) {
    case "tonnesPerHour": return day.tonnesPerHour ?? NaN;
    case "cycle": return day.cycle?.mean ?? NaN;
    case "stay": return day.stay?.mean ?? NaN;
    case "atStorage": return day.atStorage ?? NaN;
    case "finish": return day.last / 3600;
    case "longest": return day.gaps[0] ? day.gaps[0].worked / 60 : NaN;
    case "tonnes": return day.tonnes;
    case "loads": return day.loads;
    case "load": return day.load?.mean ?? NaN;
  }
}
