/** Breakdowns, for machines whose scenario gives them: so many working hours between, so many to repair. */
import { hold, until, type Work } from "../kernel/index.ts";
import type { Breakdowns } from "../scenario/types.ts";
import type { Machine } from "./machine.ts";
import type { Yard } from "./yard.ts";

/** A machine that was away when the day started comes. */
export function* comingOf(machine: Machine, come: () => void): Work {
  yield until(machine.awayUntil);
  come();
}

/** Runs beside a machine's day and stops it now and then. `fail` is told until when; `mend` when it runs again. */
export function* fateOf(machine: Machine, yard: Yard, { between, repair }: Breakdowns, fail: (until: number) => void, mend: () => void): Work {
  const { sim, breaks } = yard.clock;
  // Two storages may each have a tractor of this name.
  const draw = yard.luck.fate(`${machine.kind}/${machine.storage ?? ""}/${machine.name}`);
  // One that comes later does not break down before.
  if (machine.awayUntil === Infinity) return;
  if (machine.isAway) yield until(machine.awayUntil);
  for (;;) {
    yield hold(breaks.finish(sim.now, between * draw()) - sim.now);
    if (machine.isHome) return;
    const mended = breaks.finish(sim.now, repair * draw());
    machine.brokenUntil = mended;
    yard.tell({ kind: "breakdown", at: sim.now, machine: machine.id, until: mended });
    fail(mended);
    yield until(mended);
    mend();
  }
}
