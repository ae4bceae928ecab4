/** Whole days: what one costs, beside the floor loop for as many steps, and how the cost grows with the loads. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { linearRegression } from "simple-statistics";
import { readScenario } from "../../sim/scenario/read.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { buildHouse } from "../server/built.ts";
import { bestTimes } from "./case.ts";
import type { Case, Figure } from "./case.ts";
import { loopOnFloor } from "./floor-models.ts";
import { loopDraws } from "./models.ts";
import { LOOP } from "./paths.ts";

export const DAY_CASES: readonly Case[] = [
  { name: "day: the contractor's, one rehearsal after another", run: contractorsDay },
  { name: "day: four choppers, forty trucks, thirty days", run: month },
  { name: "day: how its cost grows with the loads", run: growth },
];

/** The engine as it is shipped: the loader that runs these files from source names every function anew, which costs a day twice its time. */
async function engine() {
  const house = buildHouse("tests/bench/engine.ts");
  try {
    return (await import(house.url("engine.js").href)) as typeof import("./engine.ts");
  } finally {
    house.remove();
  }
}

/** Days timed together, so that one piece of work is long against the clock's own step. */
const TOGETHER = 200;
const ROUNDS = 25;

function example(id: string): Scenario {
  const read = readScenario(readFileSync(fileURLToPath(new URL(`../../scenarios/${id}.yaml`, import.meta.url)), "utf8"));
  if ("problems" in read) throw new Error(`${id} is unsound`);
  return read.scenario;
}

async function contractorsDay(): Promise<readonly Figure[]> {
  const { rehearseDay, factsOf } = await engine();
  const scenario = example("contractor-corn-day-living");
  const draws = loopDraws();
  let rehearsal = 0;
  const kept = rehearseDay(scenario);
  const best = bestTimes({
    days: () => { for (let i = 0; i < TOGETHER; i += 1) rehearseDay(scenario, { rehearsal: rehearsal++ }); },
    facts: () => { for (let i = 0; i < TOGETHER; i += 1) factsOf(scenario, kept); },
    floor: () => { loopOnFloor(draws, LOOP.trucks, LOOP.cycles); },
  }, ROUNDS);
  const floorStep = best.floor / loopOnFloor(draws, LOOP.trucks, LOOP.cycles).events;
  const day = best.days / TOGETHER;
  return [
    { name: "loads", value: kept.trips.length, unit: "" },
    { name: "steps", value: kept.steps, unit: "" },
    { name: "one day", value: day, unit: "ms", bar: 0.4 },
    { name: "its measures", value: best.facts / TOGETHER, unit: "ms" },
    { name: "one step", value: (1000 * day) / kept.steps, unit: "us" },
    { name: "day / floor", value: day / (kept.steps * floorStep), unit: "for as many steps" },
  ];
}

/** The two-chopper example grown: four choppers, forty trucks, thirty days of shifts without a night between them. */
async function month(): Promise<readonly Figure[]> {
  const { rehearseDay } = await engine();
  const scenario = grown(example("two-choppers-one-clamp"), 4, 40, 30);
  const day = rehearseDay(scenario);
  const best = bestTimes({ month: () => { rehearseDay(scenario); } }, 5);
  return [
    { name: "loads", value: day.trips.length, unit: "" },
    { name: "steps", value: day.steps, unit: "" },
    { name: "all of it", value: best.month, unit: "ms", bar: 500 },
  ];
}

/** Exponent of the time in the number of loads, from the slope of the two in logarithms: up to a month of one chopper, then as many choppers as it takes, each with its own trucks and clamp. */
async function growth(): Promise<readonly Figure[]> {
  const { rehearseDay } = await engine();
  const base = example("contractor-corn-day-living");
  const points = [100, 1_000, 10_000, 100_000].map((loads): [loads: number, ms: number] => {
    const choppers = Math.ceil(loads / A_MONTH);
    const scenario = side(base, choppers, loads / LOADS);
    const { trips } = rehearseDay(scenario);
    return [trips.length, bestTimes({ run: () => { rehearseDay(scenario); } }, loads > 50_000 ? 3 : 10).run];
  });
  const { m } = linearRegression(points.map(([loads, ms]) => [Math.log(loads), Math.log(ms)]));
  return [
    ...points.map(([loads, ms]): Figure => ({ name: `${loads} loads`, value: ms, unit: "ms" })),
    { name: "exponent", value: m, unit: "", bar: 1.1 },
  ];
}

/** Loads of the contractor's day, and of as many such days as fit into the longest that is rehearsed. */
const LOADS = 85;
const A_MONTH = 3_400;

/** So many of the plan's choppers side by side, each with its own trucks, field and clamp, for so many times the plan's crop in all. */
function side(scenario: Scenario, choppers: number, times: number): Scenario {
  const { start } = scenario.shift;
  const each = Array.from({ length: choppers }, (_, i) => i);
  const share = times / choppers;
  return {
    ...scenario,
    choppers: each.map((i) => ({ ...scenario.choppers[0]!, name: `Chopper ${i + 1}` })),
    trucks: each.map((i) => ({ ...scenario.trucks[0]!, kind: `Tipper ${i + 1}`, chopper: i })),
    fields: each.map((i) => ({ ...scenario.fields[0]!, name: `Field ${i + 1}`, chopper: i, storages: [i], area: scenario.fields[0]!.area * share })),
    storages: each.map((i) => ({ ...scenario.storages[0]!, name: `Clamp ${i + 1}`, length: scenario.storages[0]!.length * share * 2 })),
    weighing: null,
    shift: { start, end: start + 29 * 86_400, breaks: [] },
  };
}

/** The plan with so many choppers and pooled trucks, and a shift of so many days without a night between them. */
function grown(scenario: Scenario, choppers: number, trucks: number, days: number): Scenario {
  const { start, end } = scenario.shift;
  const times = (days * choppers) / scenario.choppers.length;
  return {
    ...scenario,
    choppers: Array.from({ length: choppers }, (_, i) => ({ ...scenario.choppers[i % scenario.choppers.length]!, name: `Chopper ${i + 1}` })),
    trucks: [{ ...scenario.trucks[0]!, chopper: null, count: trucks }],
    fields: Array.from({ length: choppers }, (_, i) => {
      const field = scenario.fields[i % scenario.fields.length]!;
      return { ...field, name: `Field ${i + 1}`, chopper: null, area: (field.area * scenario.fields.length * times) / choppers };
    }),
    storages: scenario.storages.map((storage) => ({ ...storage, length: storage.length * times * 2, meanDepth: storage.meanDepth ?? 2.4 })),
    shift: { start, end: start + days * (end - start), breaks: [] },
  };
}
