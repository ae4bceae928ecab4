/** Where the figures of machine time come from: the state totals, every second of every machine in exactly one state. */
import { cyclesSeen, fieldEfficiency } from "../../forage/capacity.ts";
import { fuelByMass, fuelPerPower, fuelPerTonneChopped } from "../../forage/fuel.ts";
import type { MachineState } from "../../harvest/daylog.ts";
import type { DayFacts } from "../facts.ts";
import { figure, percent } from "../figure.ts";
import { litresOf } from "../fuel.ts";
import type { Derivation, MeasureName } from "../types.ts";
import { simulated, type Derive, type View } from "./view.ts";

/** A chopper's states in the field; no other machine has any of these. */
const IN_FIELD = ["cutting", "turning", "changeover", "waiting"] as const satisfies readonly MachineState[];

const hours = (view: View, state: MachineState): number => view.over((day) => day.machines.reduce((sum, machine) => sum + (machine.seconds[state] ?? 0), 0)) / 3600;

const fieldTime = (view: View): Derivation["inputs"] => Object.fromEntries(IN_FIELD.map((state) => [state, figure(hours(view, state), "h")]));

const WHOLE = "(cutting + turning + changeover + waiting), all choppers together; moves, breaks and breakdowns left out (state totals)";

const waited = (view: View, cause: keyof DayFacts["waits"]): string => figure(view.over((day) => day.waits[cause]) / 3600, "h");

/** What a chopper usually keeps of its time in the field; there the efficiency goes in, here the share comes out. */
const USUAL_CUTTING = `${fieldEfficiency.range!.map((share) => percent(share)).join(" to ")}, ${percent(fieldEfficiency.value)} as a rule (${fieldEfficiency.source}; ${fieldEfficiency.mark})`;

const SEEN_CUTTING = `${percent(cyclesSeen.chopping.value)}, ${cyclesSeen.chopping.note} (${cyclesSeen.chopping.source}; ${cyclesSeen.chopping.mark})`;

/** The choppers' part of the fuel by rated power, and by what they cut; they come first among the machines. */
function choppersBothWays({ scenario, over }: View): string {
  const byPower = over((day) => scenario.choppers.reduce((sum, { power }, i) => sum + litresOf(power ?? NaN, day.machines[i]!.seconds), 0));
  const byMass = over((day) => scenario.choppers.reduce((sum, _, i) => sum + fuelByMass(day.machines[i]!.mass), 0));
  const { value, unit, note, source, mark } = fuelPerTonneChopped;
  return `${figure(byPower, "L")}; at ${note} ${value} ${unit} they would burn ${figure(byMass, "L")} (${source}; ${mark})`;
}

export const fromStates = {
  chopperWaiting: (view) => simulated(`chopper waiting = waiting / ${WHOLE}`, fieldTime(view)),
  chopperCutting: (view) => simulated(`chopper cutting = cutting / ${WHOLE}`, { ...fieldTime(view), "usual field efficiency of a forage harvester": USUAL_CUTTING, "share of a chopper's cycle that was chopping": SEEN_CUTTING }),
  chopperWaitingOnStorage: (view) => simulated(
    "chopper waiting on the storage = (waits for weighing + tipping + spreading + packing) / time in the field, that is cutting, turning, "
    + "changeover and waiting; a waiting second is charged to the storage while one of its trucks stands there queued (state totals)", {
      weighing: waited(view, "weighing"), tipping: waited(view, "tipping"), spreading: waited(view, "spreading"), packing: waited(view, "packing"),
      "time in the field": figure(IN_FIELD.reduce((sum, state) => sum + hours(view, state), 0), "h"),
    }),
  fuel: (view) => ({
    formula: "fuel = burn x sum over the machines of rated power x working time; standing, waiting and breaks left out (state totals)",
    inputs: {
      burn: figure(fuelPerPower.value, fuelPerPower.unit), "rated power x working time, all machines": figure(view.mean("fuel") / fuelPerPower.value, "kWh"),
      "of it, the choppers": choppersBothWays(view),
    },
    source: fuelPerPower.source, mark: fuelPerPower.mark, range: null, outside: false,
  }),
} as const satisfies Partial<Record<MeasureName, Derive>>;
