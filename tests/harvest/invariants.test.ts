/** What is true of every day, whatever the scenario. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { STATES, type Day, type Trip } from "../../sim/harvest/daylog.ts";
import { momentAt } from "../../sim/harvest/moment.ts";
import { replayOf } from "../../sim/harvest/replay.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { anyDay, PATIENCE, RUNS, type Without } from "./generated.ts";
import { run, sum } from "./reading.ts";

const SLACK = 1e-6;
/** Thousands of these a run: cheaper than an assertion that keeps its words ready. */
function must(holds: boolean, words: string): void {
  if (!holds) throw new Error(words);
}
const near = (a: number, b: number, slack: number) => Math.abs(a - b) <= slack;
const STEPS = ["arrived", "alongside", "fillFrom", "filled", "atLane", "inLane", "atScale", "weighFrom", "weighed", "atStorage", "placed", "tipFrom", "tipped"] as const;

const always = (without: Without, holds: (scenario: Scenario, day: Day) => void) =>
  fc.assert(fc.property(anyDay(without), (scenario) => holds(scenario, run(scenario))), RUNS);

/** At most so many of the stays overlap at any instant; one that ends as another begins does not overlap it. */
function mostAtOnce(stays: readonly (readonly [number, number])[]): number {
  const changes = stays.flatMap(([from, to]) => (to > from ? [[from, 1], [to, -1]] as const : [])).sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  let now = 0;
  let most = 0;
  for (const [, change] of changes) most = Math.max(most, (now += change));
  return most;
}

describe("On any day", () => {
  it("all that was cut is on trucks, on the apron, being spread or in lifts, at any instant", () => {
    always({}, (scenario, day) => {
      const replay = replayOf(day, scenario.shift.breaks);
      for (let k = 0; k <= 40; k++) {
        const moment = momentAt(replay, day.from + ((day.until - day.from) * k) / 40);
        const cut = sum(moment.cut);
        const onTrucks = sum(moment.trucks.map((truck) => truck.mass));
        const atStorages = sum(moment.storages.map((storage) => storage.apron + storage.beingSpread + storage.laid));
        must(near(cut, onTrucks + atStorages, SLACK * (1 + cut)), `cut ${cut}, on trucks ${onTrucks}, at storages ${atStorages} at ${moment.time}`);
        for (const s of moment.storages) must(Math.min(s.apron, s.beingSpread, s.laid) > -SLACK * (1 + cut), `less than nothing at ${moment.time}`);
      }
    });
  }, PATIENCE);

  it("the crop of the fields is cut or left standing, and each load becomes one lift of its mass", () => {
    always({ yieldLuck: true }, (scenario, day) => {
      scenario.fields.forEach((field, f) => {
        const cut = sum(day.trips.filter((trip) => trip.field === f).map((trip) => trip.mass));
        expect(cut + day.uncut[f]!).toBeCloseTo(field.area * field.yield, 3);
        expect(day.uncut[f]).toBeGreaterThanOrEqual(0);
      });
      expect(day.lifts.map((lift) => lift.trip).sort((a, b) => a - b)).toEqual(day.trips.map((_, i) => i));
      for (const lift of day.lifts) {
        const trip = day.trips[lift.trip]!;
        must(lift.storage === trip.storage && lift.mass === trip.mass && lift.dryMass === trip.dryMass && trip.mass > 0, `trip ${lift.trip}`);
        must(near(trip.dryMass, trip.mass * scenario.fields[trip.field]!.dryMatter, SLACK), `dry matter of trip ${lift.trip}`);
      }
    });
  }, PATIENCE);

  it("what machines have cut, hauled and pushed is what was tipped", () => {
    always({}, (scenario, day) => {
      const all = sum(day.trips.map((trip) => trip.mass));
      for (const kind of ["chopper", "truck", "blade"] as const) {
        const machines = day.machines.filter((machine) => machine.kind === kind);
        expect(sum(machines.map((machine) => machine.mass))).toBeCloseTo(all, 3);
        if (kind !== "blade") expect(sum(machines.map((machine) => machine.loads))).toBe(day.trips.length);
      }
      expect(scenario.storages.length).toBe(day.plannedDepth.length);
    });
  }, PATIENCE);

  it("the times of a trip and of a lift are in order, and nobody is in two places", () => {
    always({}, (_, day) => {
      const byTruck = new Map<number, Trip[]>();
      for (const trip of day.trips) {
        for (let i = 1; i < STEPS.length; i++) must(trip[STEPS[i]!] >= trip[STEPS[i - 1]!], `${STEPS[i]} before ${STEPS[i - 1]}`);
        must(Number.isNaN(trip.back) || trip.back >= trip.tipped, "back before tipped");
        const earlier = byTruck.get(trip.truck)?.at(-1);
        must(!earlier || trip.arrived >= earlier.back, "on two trips at once");
        byTruck.set(trip.truck, [...(byTruck.get(trip.truck) ?? []), trip]);
      }
      for (const lift of day.lifts) {
        must(lift.spreadFrom >= day.trips[lift.trip]!.tipped && lift.opened > lift.spreadFrom && lift.closed >= lift.opened, "a lift out of order");
        for (const seconds of lift.rolled) must(seconds >= 0 && seconds <= lift.closed - lift.opened + SLACK, `${seconds} s of rolling`);
      }
    });
  }, PATIENCE);

  it("no place holds more than fits: spout, scale, tipping places, apron, one load being spread, one lift open", () => {
    always({}, (scenario, day) => {
      scenario.choppers.forEach((_, c) => expect(mostAtOnce(day.trips.filter((t) => t.chopper === c).map((t) => [t.alongside, t.filled]))).toBeLessThanOrEqual(1));
      if (scenario.weighing) expect(mostAtOnce(day.trips.map((t) => [t.weighFrom, t.weighed]))).toBeLessThanOrEqual(scenario.weighing.lanes);
      scenario.storages.forEach((storage, s) => {
        const trips = day.trips.filter((trip) => trip.storage === s);
        const lifts = day.lifts.filter((lift) => lift.storage === s);
        expect(mostAtOnce(trips.map((t) => [t.placed, t.tipped]))).toBeLessThanOrEqual(storage.tippingPlaces);
        expect(mostAtOnce(lifts.map((lift) => [lift.spreadFrom, lift.opened]))).toBeLessThanOrEqual(1);
        lifts.slice(1).forEach((lift, i) => expect(lifts[i]!.closed).toBe(lift.opened));
        for (const { tipFrom } of trips) {
          const there = trips.filter((t) => t.tipFrom <= tipFrom).map((t) => t.mass);
          const level = sum(there) - sum(lifts.filter((lift) => lift.spreadFrom <= tipFrom).map((lift) => lift.mass));
          // A load larger than the apron lies there alone.
          expect(level).toBeLessThanOrEqual(Math.max(storage.apron, Math.max(...there)) * (1 + SLACK));
        }
      });
    });
  }, PATIENCE);

  it("every machine's states are those of its kind and add up to its attendance, breaks included", () => {
    always({}, (_, day) => {
      for (const machine of day.machines) {
        const states = Object.keys(machine.seconds);
        must(states.every((state) => (STATES[machine.kind] as readonly string[]).includes(state)), states.join());
        must(Object.values(machine.seconds).every((seconds) => seconds >= 0), "negative time");
        must(near(sum(Object.values(machine.seconds)), machine.until - machine.from, 1e-4), `${machine.name}: ${JSON.stringify(machine.seconds)}`);
      }
    });
  }, PATIENCE);

  it("the list of state changes never goes back in time and tells the same story as the totals", () => {
    always({ breaks: true }, (_, day) => {
      const { time, machine, state } = day.states!;
      for (let row = 1; row < time.length; row++) must(time[row]! >= time[row - 1]!, `back in time at row ${row}`);
      day.machines.forEach(({ seconds, until }, id) => {
        const rows = time.flatMap((_, row) => (machine[row] === id ? [row] : []));
        const told: Record<string, number> = {};
        rows.forEach((row, i) => { told[state[row]!] = (told[state[row]!] ?? 0) + (rows[i + 1] === undefined ? until : time[rows[i + 1]!]!) - time[row]!; });
        for (const name of new Set([...Object.keys(told), ...Object.keys(seconds)])) {
          must(near(told[name] ?? 0, seconds[name as keyof typeof seconds] ?? 0, 1e-4), `${name}: ${told[name]} against ${seconds[name as keyof typeof seconds]}`);
        }
      });
    });
  }, PATIENCE);

  it("what the choppers waited is charged, all of it and no more, and no cause is negative", () => {
    always({}, (_, day) => {
      day.chopperWaits.forEach((waits, c) => {
        const chopper = day.machines.find((machine) => machine.kind === "chopper" && machine.index === c)!;
        expect(Math.min(...Object.values(waits))).toBeGreaterThanOrEqual(0);
        expect(sum(Object.values(waits))).toBeCloseTo(chopper.seconds.waiting ?? 0, 4);
      });
    });
  }, PATIENCE);

  it("every break is booked to everybody who is there, and nobody works in it", () => {
    always({}, (scenario, day) => {
      for (const machine of day.machines) {
        const booked = sum(scenario.shift.breaks.map((pause) => Math.max(0, Math.min(machine.until, pause.at + pause.for) - Math.max(machine.from, pause.at))));
        expect(machine.seconds.break ?? 0).toBeCloseTo(booked, 4);
      }
    });
  }, PATIENCE);
});
