/** The kernel's front door: what model code takes from it. */
export { Calendar } from "./calendar.ts";
export type { Interval } from "./calendar.ts";
export { Alarm, hold, until } from "./hold.ts";
export { RANK } from "./ladder.ts";
export { Level } from "./level.ts";
export { Interrupt } from "./process.ts";
export type { Process, Wait, Work } from "./process.ts";
export { Streams } from "./random.ts";
export { Resource } from "./resource.ts";
export { cvOf, factorOf } from "./shapes.ts";
export type { Shape } from "./shapes.ts";
export { Signal } from "./signal.ts";
export { Simulation } from "./simulation.ts";
export type { LogSink } from "./simulation.ts";
export { Tally, TimeWeighted } from "./statistics.ts";
export { Store } from "./store.ts";
