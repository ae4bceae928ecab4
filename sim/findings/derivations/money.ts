/** Where the figures of money come from: the account of the day, and what is left to feed. */
import { figure } from "../figure.ts";
import type { MeasureName } from "../types.ts";
import type { Derive, View } from "./view.ts";

const RATES = {
  source: "this rehearsal's hours, tonnes and litres at the scenario's rates; rates that the file leaves out are listed among the defaults",
  mark: "simulated; default rates are invented for the demo", range: null, outside: false,
} as const;

/** What the farm pays, line by line, mean over the days. */
function farmLines(view: View): Record<string, string> {
  const names = new Set(view.days.flatMap((day) => day.costs.filter((line) => line.paidBy === "farm").map((line) => line.what)));
  const paid = (what: string) => view.over((day) => day.costs.reduce((sum, line) => sum + (line.paidBy === "farm" && line.what === what ? line.amount : 0), 0));
  return Object.fromEntries([...names].map((what) => [what, figure(paid(what), view.scenario.money.currency)]));
}

export const fromMoney = {
  costPerTonne: (view) => ({
    formula: "cost per tonne = sum of what the farm pays for the day / fresh mass delivered; what a contractor bears is left out",
    inputs: { ...farmLines(view), delivered: figure(view.mean("delivered"), "t") }, ...RATES,
  }),
  dryMatterFed: (view) => ({
    formula: "dry matter fed = dry matter stored - what is lost by each line of the loss ledger; every line has its own source and range there",
    inputs: {
      "dry matter stored": figure(view.mean("dryMatterStored"), "t"), "lost by all lines": figure(view.mean("dryMatterStored") - view.mean("dryMatterFed"), "t"),
    },
    source: "the loss ledger, where every line names its own", mark: "as each line of the loss ledger says", range: null, outside: false,
  }),
  costPerTonneFed: (view) => ({
    formula: "cost per tonne fed = whole cost / dry matter fed",
    inputs: {
      "whole cost": figure(view.mean("costPerTonneFed") * view.mean("dryMatterFed"), view.scenario.money.currency), "dry matter fed": figure(view.mean("dryMatterFed"), "t"),
    }, ...RATES,
  }),
} as const satisfies Partial<Record<MeasureName, Derive>>;
