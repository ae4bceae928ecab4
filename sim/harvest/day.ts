/** One harvest day, from the first row, or the state it is taken up in, to the sealed storage: a pure function of scenario, start, seed and rehearsal number. */
import { Calendar, hold, Simulation, Streams, type Work } from "../kernel/index.ts";
import type { Breakdowns, Scenario } from "../scenario/types.ts";
import { bladeDay } from "./blade.ts";
import { chopperDay, type Chopper } from "./chopper.ts";
import type { Day, StateLog } from "./daylog.ts";
import { comingOf, fateOf } from "./fate.ts";
import { Luck } from "./luck.ts";
import { MORNING, type DayStart } from "./start.ts";
import type { Machine, Stoppage } from "./machine.ts";
import { truckDay } from "./truck.ts";
import { Yard } from "./yard.ts";

/** Longest day that is rehearsed, s after shift start: a crew that has not closed the clamp by then never will. */
export const LONGEST_DAY = 30 * 86_400;

/** A sound scenario whose crew never gets done; the message is for the one who wrote it. */
export class EndlessDay extends RangeError {}

/** Which day of many: `seed` names the study, `rehearsal` counts from 0; `states` keeps the list of state changes. */
export interface DayOptions {
  readonly seed?: number;
  readonly rehearsal?: number;
  readonly states?: boolean;
  /** where it starts from; the morning when left out */ readonly start?: DayStart;
}

/**
 * Rehearses one day.
 * @throws EndlessDay, in the user's words, when the day does not end within `LONGEST_DAY`; RangeError when more loads are on the road than trucks
 */
export function rehearseDay(scenario: Scenario, options: DayOptions = {}): Day {
  const { shift, variation } = scenario;
  const start = options.start ?? MORNING;
  const sim = new Simulation({ start: start.at ?? shift.start });
  const breaks = new Calendar(shift.breaks.map((pause) => ({ from: pause.at, to: pause.at + pause.for })));
  const states: StateLog | null = options.states ? { time: [], machine: [], state: [], place: [], load: [] } : null;
  const luck = new Luck(variation, new Streams(options.seed ?? scenario.seed, options.rehearsal ?? 0));
  const yard = new Yard({ sim, breaks, states }, scenario, luck, start);

  for (const truck of yard.trucks) {
    truck.machine.process = sim.spawn(truckDay(truck, yard), { name: truck.machine.name });
    watch(truck.machine, yard, truck.kind.breakdowns);
  }
  for (const chopper of yard.choppers) {
    chopper.machine.process = sim.spawn(chopperDay(chopper, yard), { name: chopper.machine.name });
    watch(chopper.machine, yard, chopper.plan.breakdowns);
    sim.spawn(shiftBell(chopper, yard), { name: "shift bell" });
  }
  for (const clamp of yard.clamps) {
    sim.spawn(bladeDay(clamp, yard), { name: `${clamp.storage.name}: blades` });
    clamp.storage.tractors.forEach((tractor, i) => {
      const machine = clamp.crew.machines[i]!;
      const set = (present: boolean) => {
        clamp.crew.setPresent(i, present);
        clamp.urge.fire();
      };
      if (machine.isAway && !machine.isHome) sim.spawn(comingOf(machine, () => set(true)));
      if (!tractor.breakdowns) return;
      sim.spawn(fateOf(machine, yard, tractor.breakdowns, () => set(false), () => set(true)));
    });
  }

  sim.run(shift.start + LONGEST_DAY);
  if (yard.machines.some((machine) => !machine.isHome)) {
    throw new EndlessDay(
      `The day of "${scenario.name}" does not end: after ${LONGEST_DAY / 86_400} days the clamp is still not closed. `
      + "More packing tractors, a lower target density or another rule when behind would let it end.");
  }
  return yard.record();
}

function watch(machine: Machine, yard: Yard, breakdowns: Breakdowns | null): void {
  if (!breakdowns) return;
  const stop = (until: number) => yard.clock.sim.interrupt(machine.process!, { kind: "breakdown", until } satisfies Stoppage);
  yard.clock.sim.spawn(fateOf(machine, yard, breakdowns, stop, () => {}), { name: `${machine.name}: breakdowns` });
}

/** Rings at the end of the shift. A chopper that is being stopped by something else at that very instant hears it right after. */
function* shiftBell(chopper: Chopper, yard: Yard): Work {
  const { sim } = yard.clock;
  yield hold(yard.scenario.shift.end - sim.now);
  while (chopper.machine.process!.alive && !sim.interrupt(chopper.machine.process!, { kind: "shift-end" } satisfies Stoppage)) yield hold(0);
}
