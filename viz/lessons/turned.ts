/** The plans of a lesson with its sliders turned. Pure. */
import type { Document } from "../document.ts";
import { read, shownIn } from "../quantity.ts";
import type { Knob, Lesson } from "./lesson.ts";

/** What a room may have turned, slider id -> what a document would say, or the plain number. */
export type Turned = Readonly<Record<string, string>>;

export function withTurned({ knobs }: Lesson, plans: readonly Document[], values: Turned): readonly Document[] {
  return plans.map((document, i) => knobs.reduce((plan, { id, turns, write }) => {
    const value = values[id];
    return value !== undefined && (turns === "all" || i === plans.length - 1) ? write(plan, value) : plan;
  }, document));
}

/** Of what an address says was turned, that to which the lesson's sliders can be turned: a room has nothing else to turn the rest back with. */
export function turnable({ knobs }: Lesson, values: Turned): Turned {
  return Object.fromEntries(knobs.flatMap((knob) => {
    const value = values[knob.id];
    return value !== undefined && isInReach(knob, value) ? [[knob.id, value]] : [];
  }));
}

/** Share of a figure by which turning it into other units may move it. */
const TURNING = 1e-6;

function isInReach({ dimension, range }: Knob, value: string): boolean {
  if (dimension === null) return Number.isInteger(Number(value)) && Number(value) >= range.metric[0] && Number(value) <= range.metric[1];
  const si = read(value, dimension);
  return si !== null && (["metric", "us"] as const).some((system) => {
    const [least, most] = range[system];
    const shown = shownIn(si, dimension, system);
    return shown >= least * (1 - TURNING) && shown <= most * (1 + TURNING);
  });
}
