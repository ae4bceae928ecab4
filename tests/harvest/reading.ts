/** Reading a day in a test: instants as seconds since shift start, and what a machine did, in order. */
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { Day, Lift, MachineDay, MachineState, Trip } from "../../sim/harvest/daylog.ts";
import type { Scenario } from "../../sim/scenario/types.ts";

type Step = Exclude<keyof Trip, "truck" | "chopper" | "field" | "storage" | "mass" | "dryMass">;

/** The day with its state changes. */
export const run = (scenario: Scenario, rehearsal = 0): Day => rehearseDay(scenario, { rehearsal, states: true });

/** The named steps of a trip, s since shift start. */
export function steps<S extends Step>(day: Day, trip: number, ...names: S[]): Record<S, number> {
  return Object.fromEntries(names.map((name) => [name, day.trips[trip]![name] - day.from])) as Record<S, number>;
}

/** One step of every trip, s since shift start. */
export const each = (day: Day, name: Step): number[] => day.trips.map((trip) => trip[name] - day.from);

/** One time of every lift, s since shift start. */
export const eachLift = (day: Day, name: "spreadFrom" | "opened" | "closed"): number[] => day.lifts.map((lift: Lift) => lift[name] - day.from);

export function machineNamed(day: Day, name: string): MachineDay & { readonly id: number } {
  const id = day.machines.findIndex((machine) => machine.name === name);
  if (id < 0) throw new RangeError(`no machine called ${name}`);
  return { ...day.machines[id]!, id };
}

/** What a machine did and from when, s since shift start. */
export function doings(day: Day, name: string): [number, MachineState][] {
  const { id } = machineNamed(day, name);
  const { time, machine, state } = day.states!;
  return time.flatMap((at, row): [number, MachineState][] => (machine[row] === id ? [[at - day.from, state[row]!]] : []));
}

export const sum = (values: Iterable<number>): number => {
  let total = 0;
  for (const value of values) total += value;
  return total;
};
