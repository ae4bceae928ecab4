/** What the day and the storing cost, and who pays it. Rates are the scenario's; where it gives none, they are invented for the demo and listed among the defaults. */
import { filmOverlap, sheetWidth } from "../forage/geometry/index.ts";
import type { Day, MachineDay, Trip } from "../harvest/daylog.ts";
import type { Scenario } from "../scenario/types.ts";
import { formatQuantity } from "../scenario/units.ts";
import { coverCrewCost, filmCost, type Cover } from "./cover.ts";
import { metres } from "./figure.ts";
import { fuelOf, fuelUsed } from "./fuel.ts";
import type { MoneyLine } from "./types.ts";
import { sinceWhen } from "./words.ts";

/** How the film is reckoned that is paid for. */
const FILM = `with what holds it down; in sheets of ${metres(sheetWidth.value)} (${sheetWidth.mark}), ${metres(filmOverlap.value)} over each joint and all round the edge (${filmOverlap.mark})`;

/** Hours from when the day begins until the machine is done: a machine that stands is paid for too. */
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
 * the farm its price and leaves the standing to the contractor, who also pays its driver and its fuel. What the contractor bears is shown
 * and is not in the farm's total.
 */
export function harvestLines(scenario: Scenario, day: Day): MoneyLine[] {
  const lines: MoneyLine[] = [];
  const add = (what: string, amount: number, paidBy: MoneyLine["paidBy"], note: string) => {
    if (amount > 0) lines.push({ what, amount, paidBy, note, stage: "harvest", inTotal: paidBy === "farm" });
  };
  const { labourPerHour, fuelPerLitre } = scenario.money;
  const since = sinceWhen(scenario, day.from);
  // A fuel bill that leaves machines out would mislead: none is written unless the power of all is known.
  const fuelCost = (machines: readonly MachineDay[]) =>
    (fuelUsed(scenario, day) === null ? 0 : machines.reduce((litres, machine) => litres + fuelOf(scenario, machine)!, 0) * fuelPerLitre);
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
      add(`${machine.name}, its driver`, hoursOf(machine) * labourPerHour, "contractor", "by the hour");
      add(`${machine.name}, its fuel`, fuelCost([machine]), "contractor", "by rated power and working hours");
    }
  }
  const sum = (kinds: string[]) => ofKind(...kinds).reduce((total, { id }) => total + machineCost(scenario, day, id), 0);
  add("Trucks", sum(["truck"]), "farm", `by the hour, from ${since} until each is home`);
  add("Packing crew", sum(["blade", "roller"]), "farm", `by the hour, from ${since} until the clamp is closed`);
  const farms = day.machines.filter((machine) => machine.kind !== "chopper" || scenario.choppers[machine.index]!.paid === "by-hour");
  add("Drivers", farms.reduce((total, machine) => total + hoursOf(machine), 0) * labourPerHour, "farm", "one for each machine, by the hour");
  add("Fuel", fuelCost(farms), "farm", "by rated power and working hours");
  return lines;
}

/** What storing costs the farm: film, cover crew, and one year's share of what was built. @param covers by storage, null where nothing lies */
export function storingLines(scenario: Scenario, covers: readonly (Cover | null)[]): MoneyLine[] {
  const lines: MoneyLine[] = [];
  const add = (what: string, amount: number, note: string) => {
    if (amount > 0) lines.push({ what, amount, paidBy: "farm", note, stage: "storing", inTotal: true });
  };
  const used = scenario.storages.flatMap((storage, s) => (covers[s] ? [{ storage, cover: covers[s] }] : []));
  const sum = (of: (each: (typeof used)[number]) => number) => used.reduce((total, each) => total + of(each), 0);
  const { people, pace } = scenario.covering;
  add("Film", sum(({ storage, cover }) => filmCost(scenario, storage, cover)), FILM);
  add("Cover crew", sum(({ cover }) => coverCrewCost(scenario, cover)), `${people} people besides the drivers, ${formatQuantity(pace, "coverPace", "metric")} together`);
  add("Concrete and pad", sum(({ storage }) => storage.capitalCost / storage.life), "one year of its life, filled once a year, no interest");
  return lines;
}

/** What the lost dry matter (t) would have been worth as feed. It is nobody's bill: it stands beside the total, not in it. */
export function lostLine({ money }: Scenario, lostT: number): MoneyLine[] {
  if (!(lostT > 0)) return [];
  return [{
    what: "Dry matter lost", amount: lostT * money.feedValuePerTonne, paidBy: "farm", stage: "lost", inTotal: false,
    note: "worth that much as feed; no bill and not in the total, and the farm bears it however the work is paid",
  }];
}

/** What the farm spends, on one stage or on all. */
export function farmTotal(lines: readonly MoneyLine[], stage?: MoneyLine["stage"]): number {
  return lines.reduce((total, line) => total + (line.inTotal && (stage ?? line.stage) === line.stage ? line.amount : 0), 0);
}

/** m2 that a chopper has cut since the day began, fields counted in proportion to what it took off them: what was cut before it was taken up is paid already. */
function areaCut(scenario: Scenario, { trips, uncut, start, from }: Day, chopper: number): number {
  const cut = start ? trips.filter((trip) => trip.filled > from) : trips;
  return scenario.fields.reduce((area, field, f) => {
    const massOf = (mine: (trip: Trip) => boolean) => cut.reduce((mass, trip) => mass + (trip.field === f && mine(trip) ? trip.mass : 0), 0);
    const stood = massOf(() => true) + uncut[f]!;
    if (stood === 0) return area;
    const { taken, left } = start?.fields[f] ?? { taken: 0, left: null };
    return area + field.area * (left ?? stood / (stood + taken)) * (massOf((trip) => trip.chopper === chopper) / stood);
  }, 0);
}
