/** Days made by hand for tests of the findings: only what a measure reads is filled in, the rest is as of a day on which nothing happened. */
import type { CrewChange, Day, Lift, MachineDay, Trip } from "../../sim/harvest/daylog.ts";
import { SEVEN } from "../harvest/plan.ts";

/** A trip whose every step is at `tipFrom`, but for those given. Times are s since shift start. */
export function trip(over: Partial<Trip> & { tipFrom: number }): Trip {
  const { tipFrom } = over;
  const made = {
    truck: 0, chopper: 0, field: 0, storage: 0, mass: 16_000, arrived: tipFrom, alongside: tipFrom, fillFrom: tipFrom, filled: tipFrom, atLane: tipFrom,
    inLane: tipFrom, atScale: tipFrom, weighFrom: tipFrom, weighed: tipFrom, atStorage: tipFrom, placed: tipFrom, tipped: tipFrom, back: NaN, ...over,
  };
  const dry = over.dryMass ?? made.mass * 0.34;
  const later = Object.fromEntries(Object.entries(made).map(([key, value]) => [key, isTime(key) ? value + SEVEN : value]));
  return { ...(later as unknown as Trip), dryMass: dry };
}

const NOT_TIMES = new Set(["truck", "chopper", "field", "storage", "mass", "dryMass"]);
const isTime = (key: string) => !NOT_TIMES.has(key);

/** A lift of 16 t at 34 %, 15 cm; times s since shift start. */
export function lift(over: Partial<Omit<Lift, "rolled">> & { rolled: readonly number[] }): Lift {
  const { spreadFrom = 0, opened = 0, closed = 0, rolled, mass = 16_000, ...rest } = over;
  return {
    storage: 0, trip: 0, mass, dryMass: mass * 0.34, layer: 0.15, ...rest,
    spreadFrom: spreadFrom + SEVEN, opened: opened + SEVEN, closed: closed + SEVEN, rolled: Float64Array.from(rolled),
  };
}

export const machine = (over: Partial<MachineDay> & Pick<MachineDay, "kind">): MachineDay =>
  ({ name: over.kind, index: 0, storage: over.kind === "blade" || over.kind === "roller" ? 0 : null, from: SEVEN, until: SEVEN, seconds: {}, loads: 0, mass: 0, ...over });

/** `until` and the crew's changes are s since shift start. */
export function madeDay({ until = 0, crew = [], ...over }: Partial<Omit<Day, "crew">> & { crew?: readonly CrewChange[] } = {}): Day {
  return {
    trips: [], lifts: [], machines: [], chopperWaits: [{ hauling: 0, weighing: 0, tipping: 0, spreading: 0, packing: 0 }], events: [], uncut: [0],
    plannedDepth: [2.6], states: null, steps: 0, ...over, from: SEVEN, until: SEVEN + until, crew: crew.map((change) => ({ ...change, at: change.at + SEVEN })),
  };
}
