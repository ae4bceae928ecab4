/** What the day costs, and who pays it. Rates are the scenario's; where it gives none, they are invented for the demo and listed among the defaults. */
import { fuelUsed } from "./fuel.ts";
import type { Day } from "../harvest/daylog.ts";
import type { Scenario } from "../scenario/types.ts";

export interface CostLine {
  readonly what: string;
  readonly amount: number;
  readonly paidBy: "farm" | "contractor";
  readonly note: string;
}

/** Hours from shift start until the machine is done: a machine that stands is paid for too. */
const hoursOf = (machine: { readonly from: number; readonly until: number }) => (machine.until - machine.from) / 3600;

/** Cost of one machine for the day at its hourly rate, whoever pays it. */
export function machineCost(scenario: Scenario, day: Day, id: number): number {
  const machine = day.machines[id]!;
  const rate = machine.kind === "chopper" ? scenario.choppers[machine.index]!.costPerHour
    : machine.kind === "truck" ? scenario.trucks[machine.index]!.costPerHour
    : scenario.storages[machine.storage!]!.tractors[machine.index]!.costPerHour;
  return rate * hoursOf(machine);
}

/**
 * The lines of the day's account. A chopper paid by the hour costs the farm while it stands; one paid by the tonne or the hectare costs
 * the farm its price and leaves the standing to the contractor. What the contractor bears is shown and is not in the farm's total.
 */
export function costLines(scenario: Scenario, day: Day): CostLine[] {
  const lines: CostLine[] = [];
  const add = (what: string, amount: number, paidBy: CostLine["paidBy"], note: string) => {
    if (amount > 0) lines.push({ what, amount, paidBy, note });
  };
  const ofKind = (...kinds: string[]) => day.machines.map((machine, id) => ({ machine, id })).filter(({ machine }) => kinds.includes(machine.kind));

  for (const { machine, id } of ofKind("chopper")) {
    const chopper = scenario.choppers[machine.index]!;
    const own = machineCost(scenario, day, id);
    const standing = chopper.costPerHour * ((machine.seconds.waiting ?? 0) / 3600);
    if (chopper.paid === "by-hour") {
      add(machine.name, own, "farm", standing > 0 ? "by the hour; it is paid while it stands" : "by the hour");
    } else {
      const units = chopper.paid === "by-ton" ? machine.mass / 1000 : areaCut(scenario, day, machine.index) / 10_000;
      add(machine.name, chopper.price * units, "farm", chopper.paid === "by-ton" ? "by the tonne" : "by the hectare");
      add(`${machine.name}, its own cost`, own, "contractor", "by the hour; standing is the contractor's loss");
    }
  }
  const sum = (kinds: string[]) => ofKind(...kinds).reduce((total, { id }) => total + machineCost(scenario, day, id), 0);
  add("Trucks", sum(["truck"]), "farm", "by the hour, from shift start until each is home");
  add("Packing crew", sum(["blade", "roller"]), "farm", "by the hour, from shift start until the clamp is closed");
  const hours = day.machines.reduce((total, machine) => total + hoursOf(machine), 0);
  add("Drivers", hours * scenario.money.labourPerHour, "farm", "one for each machine, by the hour");
  add("Fuel", (fuelUsed(scenario, day) ?? 0) * scenario.money.fuelPerLitre, "farm", "by rated power and working hours");
  return lines;
}

/** The farm's cost of the day. */
export function farmTotal(lines: readonly CostLine[]): number {
  return lines.reduce((total, line) => total + (line.paidBy === "farm" ? line.amount : 0), 0);
}

/** m2 that a chopper has cut, fields counted in proportion to what it took off them. */
function areaCut(scenario: Scenario, day: Day, chopper: number): number {
  return scenario.fields.reduce((area, field, f) => {
    const cut = day.trips.reduce((mass, trip) => mass + (trip.field === f ? trip.mass : 0), 0);
    const mine = day.trips.reduce((mass, trip) => mass + (trip.field === f && trip.chopper === chopper ? trip.mass : 0), 0);
    const all = cut + day.uncut[f]!;
    return all > 0 ? area + field.area * (mine / all) : area;
  }, 0);
}
