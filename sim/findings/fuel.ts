/** Fuel of the day, from the rated power of the machines whose power is known. */
import { fuelByPower } from "../forage/fuel.ts";
import type { Day, MachineState } from "../harvest/daylog.ts";
import type { Scenario } from "../scenario/types.ts";

/** States in which the engine works; standing, waiting and breaks are left out. */
const WORKING: ReadonlySet<MachineState> = new Set<MachineState>([
  "cutting", "turning", "changeover", "moving", "filling", "loaded-road", "lane", "tipping", "empty-road", "pushing", "rolling",
]);

/** Litres for the day; null unless the power of every machine is known. */
export function fuelUsed(scenario: Scenario, day: Day): number | null {
  let litres = 0;
  for (const machine of day.machines) {
    const power = machine.kind === "chopper" ? scenario.choppers[machine.index]!.power
      : machine.kind === "truck" ? scenario.trucks[machine.index]!.power
      : scenario.storages[machine.storage!]!.tractors[machine.index]!.power;
    if (power === null) return null;
    const hours = Object.entries(machine.seconds).reduce((sum, [state, s]) => sum + (WORKING.has(state as MachineState) ? s! : 0), 0) / 3600;
    litres += fuelByPower(power, hours * 3600);
  }
  return litres;
}
