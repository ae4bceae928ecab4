/**
 * A day as JSON lines. The first line is a header; then one line a trip, a lift, an event, a machine, a crew change, and last the state
 * changes. Times are seconds after midnight rounded to a millisecond, masses are rounded to a gram, layers and shares are written whole;
 * a step that never came is null.
 */
import type { Scenario } from "../scenario/types.ts";
import type { Day, DayEvent, Lift, MachineDay, MachineState, StateLog, Trip } from "./daylog.ts";

/** The first line: the header, and what the day says of itself as a whole. */
type Head = LogHeader & Pick<Day, "chopperWaits" | "uncut" | "from" | "until" | "plannedDepth" | "steps" | "start">;

/** Raised when a line changes its meaning. */
export const LOG_SCHEMA = 1;

export interface LogHeader {
  readonly schema: number;
  readonly scenario: { readonly name: string; readonly hash: string };
  /** the checked scenario that was rehearsed, complete and in SI, so that a log can be replayed without anything else */ readonly plan: Scenario;
  readonly seed: number;
  readonly engine: string;
  /** which of the rehearsals this is: the one with the median finish */ readonly rehearsal: number;
}

/** Writes a day. The same day gives the same bytes. */
export function writeLog(header: LogHeader, day: Day): string {
  const { trips, lifts, machines, events, crew, states, ...rest } = day;
  // The scenario in the header is exact; only what the day came to is rounded.
  const written = [JSON.stringify({ kind: "header", ...header, ...(rounded(rest) as typeof rest) })];
  const write = (line: object) => written.push(JSON.stringify(rounded(line)));
  for (const machine of machines) write({ kind: "machine", machine });
  for (const trip of trips) write({ kind: "trip", ...trip });
  for (const lift of lifts) write({ kind: "lift", ...lift, rolled: Array.from(lift.rolled) });
  for (const change of crew) write({ kind: "crew", ...change });
  for (const event of events) write({ kind: "event", event });
  // Most lines are these, and nothing in them needs to be escaped.
  states?.time.forEach((time, i) => written.push(
    `{"kind":"state","time":${toMillisecond(time)},"machine":${states.machine[i]!},"state":"${states.state[i]!}","place":${states.place[i]!},"load":${states.load[i]!}}`,
  ));
  return `${written.join("\n")}\n`;
}

/** A thousandth of these would show in a density or a debt. */
const WHOLE: ReadonlySet<string> = new Set(["layer", "pays"]);

/** A copy with its numbers as they are written. `JSON.stringify` would do it by a replacer, and is slower with one. */
function rounded(value: unknown, key = ""): unknown {
  if (typeof value === "number") {
    if (Number.isInteger(value) || WHOLE.has(key)) return value;
    return Number.isFinite(value) ? toMillisecond(value) : null;
  }
  if (Array.isArray(value)) return value.map((each) => rounded(each));
  if (value === null || typeof value !== "object") return value;
  const copy: Record<string, unknown> = {};
  for (const name in value) copy[name] = rounded((value as Record<string, unknown>)[name], name);
  return copy;
}

const toMillisecond = (value: number): number => Math.round(value * 1000) / 1000;

function parsed(line: string): { kind?: string } & Record<string, any> {
  try {
    return JSON.parse(line) ?? {};
  } catch {
    throw new SyntaxError(`not a day log: a line that is no JSON, "${line.slice(0, 40)}"`);
  }
}

/**
 * Reads what `writeLog` wrote.
 * @throws SyntaxError in words when the text is not such a log
 */
export function readLog(text: string): { header: LogHeader; day: Day } {
  const trips: Trip[] = [];
  const lifts: Lift[] = [];
  const machines: MachineDay[] = [];
  const events: DayEvent[] = [];
  const crew: Day["crew"] = [];
  const states: StateLog = { time: [], machine: [], state: [], place: [], load: [] };
  let first: Head | null = null;
  for (const line of text.split("\n")) {
    if (line === "") continue;
    const { kind, ...row } = parsed(line);
    switch (kind) {
      case "header": first = row as unknown as Head; break;
      case "machine": machines.push(row.machine as MachineDay); break;
      case "trip": trips.push(Object.fromEntries(Object.entries(row).map(([key, value]) => [key, value ?? NaN])) as unknown as Trip); break;
      case "lift": lifts.push({ ...row, rolled: Float64Array.from(row.rolled as number[]) } as Lift); break;
      case "crew": crew.push(row as Day["crew"][number]); break;
      case "event": events.push(row.event as DayEvent); break;
      case "state":
        states.time.push(row.time as number);
        states.machine.push(row.machine as number);
        states.state.push(row.state as MachineState);
        states.place.push(row.place as number);
        states.load.push(row.load as number);
        break;
      default: throw new SyntaxError(`not a day log: a line of kind "${String(kind)}"`);
    }
  }
  if (first?.schema !== LOG_SCHEMA) throw new SyntaxError(`not a day log of schema ${LOG_SCHEMA}: its first line must be the header`);
  const { schema, scenario, plan, seed, engine, rehearsal, ...rest } = first;
  return { header: { schema, scenario, plan, seed, engine, rehearsal }, day: { ...rest, trips, lifts, machines, events, crew, states: states.time.length > 0 ? states : null } };
}
