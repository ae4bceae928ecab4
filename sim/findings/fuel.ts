/** Fuel of the day, from the rated power of the machines whose power is known. */
import { fuelByPower } from "../forage/fuel.ts";
import type { Day, MachineDay, MachineState } from "../harvest/daylog.ts";
import type { Scenario } from "../scenario/types.ts";

/** States in which the engine works; standing, waiting and breaks are left out. */
const WORKING: ReadonlySet<MachineState> = new Set<MachineState>([
  "cutting", "turning", "changeover", "moving", "filling", "loaded-road", "lane", "tipping", "empty-road", "pushing", "rolling",
]);

/** Litres for the day; null unless the power of every machine is known. */
export function fuelUsed(scenario: Scenario, day: Day): number | null {
  let litres = 0;
  for (const machine of day.machines) {
    const own = fuelOf(scenario, machine);
    if (own === null) return null;
    litres += own;
  }
  return litres;
}

/** Litres that one machine burnt; null when its power is not known. */
export function fuelOf(scenario: Scenario, machine: MachineDay): number | null {
  const power = machine.kind === "chopper" ? scenario.choppers[machine.index]!.power
    : machine.kind === "truck" ? scenario.trucks[machine.index]!.power
    : scenario.storages[machine.storage!]!.tractors[machine.index]!.power;
  return power === null ? null : litresOf(power, machine.seconds);
}

/** Litres at a rated power (kW), from the s of each state. */
export function litresOf(power: number, seconds: MachineDay["seconds"]): number {
  return fuelByPower(power, Object.entries(seconds).reduce((sum, [state, s]) => sum + (WORKING.has(state as MachineState) ? s! : 0), 0));
}
