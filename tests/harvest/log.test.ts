/** A day written as JSON lines and read back. */
import { execFile } from "node:child_process";
import { promisify } from "node:util";
import { describe, expect, it } from "vitest";
import { storedIn } from "../../sim/findings/stored.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { Day } from "../../sim/harvest/daylog.ts";
import { readLog, writeLog, LOG_SCHEMA, type LogHeader } from "../../sim/harvest/log.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { blade, bunker, plan, roller, varying } from "./plan.ts";

const header = (scenario: Scenario): LogHeader => ({
  schema: LOG_SCHEMA, scenario: { name: scenario.name, hash: "none" }, plan: scenario, seed: scenario.seed, engine: "test", rehearsal: 0,
});
/** A day with something of everything: luck, breaks, breakdowns, a layer that is no whole number of millimetres. */
const eventful = plan({
  packing: { layer: 0.1524, whenBehind: "hold-then-bury" }, shift: { breaks: [{ at: 12 * 3600, for: 1800 }] },
  variation: varying({ cutting: 0.1, load: 0.037, loaded: 0.15, empty: 0.15, weighing: 0.3, tip: 0.4, spread: 0.2, yield: 0.1 }),
  storages: [bunker({ tractors: [blade(), roller(16_000, { rolling: 0.8, breakdowns: { between: 5000, repair: 1000 } })] })],
});
const days: [string, Scenario][] = [["the worked day", plan()], ["an eventful day", eventful]];

describe("A day log", () => {
  it.each(days)("of %s gives the day back, times to half a millisecond and masses to half a gram", (_, scenario) => {
    const day = rehearseDay(scenario, { states: true });
    const back = readLog(writeLog(header(scenario), day));
    expect(back.header).toEqual(header(scenario));
    expectClose(back.day, day, "day");
  });

  it("keeps shares and layers whole, so that every density can be reckoned from it again", () => {
    const day = rehearseDay(eventful);
    const { day: back } = readLog(writeLog(header(eventful), day));
    expect(new Set(back.lifts.map((lift) => lift.layer))).toEqual(new Set(day.lifts.map((lift) => lift.layer)));
    expect(back.crew.map((change) => change.pays)).toEqual(day.crew.map((change) => change.pays));
    // Times to half a millisecond in minutes of rolling move a density by less than a millionth.
    expect(storedIn(back, eventful, 0).volume / storedIn(day, eventful, 0).volume).toBeCloseTo(1, 5);
  });

  it("without state changes is read back without them", () => {
    expect(readLog(writeLog(header(plan()), rehearseDay(plan()))).day.states).toBeNull();
  });

  it("writes a step that never came as null and reads it as no number", () => {
    const text = writeLog(header(plan()), rehearseDay(plan()));
    expect(text).toContain('"back":null');
    expect(readLog(text).day.trips.filter((trip) => Number.isNaN(trip.back)).length).toBeGreaterThan(0);
  });

  it("written again after reading has the same bytes", () => {
    const text = writeLog(header(eventful), rehearseDay(eventful, { states: true }));
    const { header: head, day } = readLog(text);
    expect(writeLog(head, day)).toBe(text);
  });

  it.each([
    ["nothing", ""], ["another program's text", "hello\n"], ["a JSON document", '{"kind":"letter"}\n'], ["a bare null", "null\n"], ["a bare number", "7\n"],
    ["a later schema", '{"kind":"header","schema":99}\n'], ["a day without its header", '{"kind":"trip"}\n'],
  ])("refuses %s in words", (_, text) => {
    expect(() => readLog(text)).toThrow(SyntaxError);
    expect(() => readLog(text)).toThrow(/not a day log/);
  });
});

describe("The same scenario, seed and rehearsal", () => {
  it.each(days)("give the same bytes twice: %s", (_, scenario) => {
    const once = () => writeLog(header(scenario), rehearseDay(scenario, { states: true }));
    expect(once()).toBe(once());
  });

  it("give the same bytes in another process", async () => {
    const script = `
      import { rehearseDay } from ${JSON.stringify(new URL("../../sim/harvest/day.ts", import.meta.url).href)};
      import { writeLog } from ${JSON.stringify(new URL("../../sim/harvest/log.ts", import.meta.url).href)};
      const header = JSON.parse(process.env.LOG_HEADER);
      process.stdout.write(writeLog(header, rehearseDay(header.plan, { states: true })));`;
    const { stdout } = await promisify(execFile)(process.execPath, ["--import", "tsx", "--input-type=module", "--eval", script], {
      env: { ...process.env, LOG_HEADER: JSON.stringify(header(eventful)) }, maxBuffer: 1e8,
    });
    expect(stdout).toBe(writeLog(header(eventful), rehearseDay(eventful, { states: true })));
  });

  it("with another seed or rehearsal give another day", () => {
    const finish = (options: object) => rehearseDay(eventful, options).until;
    expect(new Set([finish({}), finish({ seed: 2 }), finish({ rehearsal: 1 }), finish({ rehearsal: 2 })]).size).toBe(4);
    expect(finish({ seed: eventful.seed, rehearsal: 0 })).toBe(finish({}));
  });
});

/** Equal but for rounding to a thousandth, everywhere. */
function expectClose(actual: unknown, expected: unknown, where: string): void {
  if (typeof expected === "number") {
    if (Number.isNaN(expected)) expect(actual, where).toBeNaN();
    else expect(Math.abs((actual as number) - expected), where).toBeLessThanOrEqual(0.0005 + 1e-9);
  } else if (expected === null || typeof expected !== "object") expect(actual, where).toBe(expected);
  else {
    expect(Object.keys(actual as Day).sort(), where).toEqual(Object.keys(expected).sort());
    for (const [key, value] of Object.entries(expected)) expectClose((actual as Record<string, unknown>)[key], value, `${where}.${key}`);
  }
}
