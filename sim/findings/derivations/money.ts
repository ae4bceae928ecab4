/** Where the figures of money come from: the account of the day, and what is left to feed. */
import { LOSS_SWITCHES } from "../../scenario/types.ts";
import { figure } from "../figure.ts";
import { addedUp } from "../ledger.ts";
import type { MeasureName, MoneyLine } from "../types.ts";
import { LOSS_WORDS } from "../words.ts";
import type { Derive, View } from "./view.ts";

const RATES = {
  source: "this rehearsal's hours, tonnes and litres at the scenario's rates; rates that the file leaves out are listed among the defaults",
  mark: "simulated; default rates are invented for the demo", range: null, outside: false,
} as const;

/** What the farm spends on these stages, line by line, mean over the days. */
function farmLines(view: View, stages: readonly MoneyLine["stage"][]): Record<string, string> {
  const counts = (line: MoneyLine) => line.inTotal && stages.includes(line.stage);
  const names = new Set(view.days.flatMap((day) => day.costs.filter(counts).map((line) => line.what)));
  const paid = (what: string) => view.over((day) => day.costs.reduce((sum, line) => sum + (counts(line) && line.what === what ? line.amount : 0), 0));
  return Object.fromEntries([...names].map((what) => [what, figure(paid(what), view.scenario.money.currency)]));
}

/** What each line of the loss ledger takes, central figures, t; a line that is off says so. */
function lossFigures({ scenario, days }: View): Record<string, string> {
  const lost = addedUp(days.flatMap((day) => day.storages.map((storage) => storage.losses)), 1 / days.length / 1000);
  return Object.fromEntries(LOSS_SWITCHES.map((cause) =>
    [LOSS_WORDS[cause].toLowerCase(), scenario.losses[cause] ? figure(lost[cause].central, "t") : "off, not counted"]));
}

export const fromMoney = {
  costPerTonne: (view) => ({
    formula: "cost per tonne = sum of what the farm pays for the day / fresh mass delivered; what a contractor bears, cover and concrete are left out",
    inputs: { ...farmLines(view, ["harvest"]), delivered: figure(view.mean("delivered"), "t") }, ...RATES,
  }),
  dryMatterFed: (view) => ({
    formula: "dry matter fed = dry matter stored - what is lost by each line of the loss ledger, central figures; every line has its own "
      + "source and range there",
    inputs: {
      "dry matter stored": figure(view.mean("dryMatterStored"), "t"), "lost by all lines": figure(view.mean("dryMatterStored") - view.mean("dryMatterFed"), "t"),
      ...lossFigures(view),
    },
    source: "the loss ledger, where every line names its own", mark: "as each line of the loss ledger says", range: null, outside: false,
  }),
  costPerTonneFed: (view) => ({
    formula: "cost per tonne fed = whole cost / dry matter fed; whole cost = what the farm pays for the day, the cover and one year of what "
      + "was built; growing the crop and the value of what is lost are not in it",
    inputs: {
      "whole cost": figure(view.mean("costPerTonneFed") * view.mean("dryMatterFed"), view.scenario.money.currency), "dry matter fed": figure(view.mean("dryMatterFed"), "t"),
      ...farmLines(view, ["harvest", "storing"]),
    }, ...RATES,
  }),
} as const satisfies Partial<Record<MeasureName, Derive>>;
