/** Where the figures of the clamp's day come from: the table of lifts, with the tips that fed it. */
import { clockOf } from "../clock.ts";
import { figure, percent } from "../figure.ts";
import type { MeasureName } from "../types.ts";
import { sinceWhen } from "../words.ts";
import { atStorage, simulated, type Derive, type View } from "./view.ts";

/** s after midnight at which the last lift was closed, mean over the days. */
const lastClosed = (view: View): number => view.over((day) => day.from) + view.mean("finishedAt") * 3600;

const finish = ({ scenario }: View): string => figure(scenario.packing.finish / 60, "min");

const freshStored = (view: View): number => view.over((day) => day.storages.reduce((sum, storage) => sum + storage.mass, 0)) / 1000;

const aprons = (view: View): Record<string, string> =>
  Object.fromEntries(view.used.map((s) => [atStorage(view, s, "room on the apron"), figure(view.scenario.storages[s]!.apron / 1000, "t")]));

/** Share of its time on the clamp that a machine really rolls, as a range over the crews in use. */
export function rollingShares({ scenario, used }: Pick<View, "scenario" | "used">): string {
  const shares = used.flatMap((s) => scenario.storages[s]!.tractors.map((tractor) => tractor.rolling));
  const [least, most] = [Math.min(...shares), Math.max(...shares)];
  return least === most ? percent(least) : `${percent(least)} to ${percent(most)}`;
}

export const fromLifts = {
  packingTimePerTonne: (view) => simulated(
    "packing time per tonne = minutes of true rolling by all tractors together / fresh mass laid; pushing and the time not rolled do not "
    + "count (table of lifts)", {
      "rolling by all tractors": figure(view.mean("packingTimePerTonne") * freshStored(view), "min"), "fresh mass laid": figure(freshStored(view), "t"),
      "share of its time on the clamp that a tractor rolls": rollingShares(view),
    }),
  fillTime: (view) => simulated(
    "fill time = from the start of the first tip to the last lift closed, the finish included (tables of trips and lifts)", {
      "first tip": clockOf(lastClosed(view) - view.mean("fillTime") * 3600), "last lift closed": clockOf(lastClosed(view)), finish: finish(view),
    }),
  finishedAt: (view) => {
    const from = view.over((day) => day.from);
    const since = sinceWhen(view.scenario, from);
    const begins = from === view.scenario.shift.start ? since : "taken up at";
    return simulated(`finished at = from ${since} to the last lift closed, the finish included (table of lifts)`, {
      [begins]: clockOf(from), "last lift closed": clockOf(lastClosed(view)), finish: finish(view),
    });
  },
  dryMatterStored: (view) => simulated(
    "dry matter stored = sum over the lifts of fresh mass x dry matter: what was laid, before any loss (table of lifts)", {
      "fresh mass laid": figure(freshStored(view), "t"), "dry matter": figure(view.mean("dryMatterStored") / freshStored(view), "1"),
    }),
  apronPeak: (view) => simulated(
    "apron peak = most forage lying on any one apron: up by a load when its tip starts, down by it when its spreading starts (tables of "
    + "trips and lifts)", aprons(view)),
  apronMean: (view) => simulated(
    "apron mean = forage lying on all aprons together, averaged over time from the first tip to the last spreading (tables of trips and "
    + "lifts)", aprons(view)),
} as const satisfies Partial<Record<MeasureName, Derive>>;
