import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { momentAt, type Moment } from "../../sim/harvest/moment.ts";
import { nextChange, replayOf } from "../../sim/harvest/replay.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { HOUR, SEVEN, plan, trucks } from "../harvest/plan.ts";
import { runs } from "../scenario/generated.ts";
import { anyDay, anyShare, rehearsal, timeAt } from "./anyday.ts";

const RUNS = { numRuns: runs(60, 1000) };
/** kg; the log sums loads in other orders than the day does, and a double keeps 15 digits of a thousand tonnes */
const GRAIN = 1e-3;

/** The log says "filling" from alongside on, "loaded-road" also inside the lane, and "lane" while a truck waits to be let in, on its way back too. */
const ALSO: Readonly<Record<string, readonly string[]>> = {
  filling: ["filling", "changeover"], "loaded-road": ["loaded-road", "lane"], lane: ["lane-line", "empty-road"],
};

const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);
const onTrucks = (moment: Moment) => total(moment.trucks.map(({ mass }) => mass));
const inStorages = (moment: Moment, of: (storage: Moment["storages"][number]) => number) => total(moment.storages.map(of));

describe("the day at one time", () => {
  it("holds all that is cut: on trucks, on an apron, being spread, or laid on a clamp", () => {
    fc.assert(fc.property(anyDay, fc.array(anyShare, { minLength: 5, maxLength: 20 }), (day, shares) => {
      for (const share of shares) {
        const moment = momentAt(day.replay, timeAt(day, share));
        const found = onTrucks(moment) + inStorages(moment, (s) => s.apron + s.beingSpread + s.laid);
        expect(Math.abs(found - total(moment.cut))).toBeLessThan(GRAIN);
        for (const storage of moment.storages) {
          expect(storage.apron).toBeGreaterThan(-GRAIN);
          expect(storage.beingSpread).toBeGreaterThan(-GRAIN);
        }
      }
    }), RUNS);
  });

  it("ends with everything laid that was ever tipped, nobody waiting, and every lift closed", () => {
    fc.assert(fc.property(anyDay, (day) => {
      const moment = momentAt(day.replay, day.day.until + 1);
      expect(onTrucks(moment)).toBe(0);
      moment.storages.forEach((storage, s) => {
        const lifts = day.day.lifts.filter((lift) => lift.storage === s);
        expect(storage.lifts).toBe(lifts.length);
        expect(Math.abs(storage.laid - total(lifts.map(({ mass }) => mass)))).toBeLessThan(GRAIN);
        expect(storage.open).toBe(-1);
        expect(storage.line).toEqual([]);
      });
    }), RUNS);
  });

  it("moves without jumps: nothing shrinks that grows, and a step takes its time evenly", () => {
    fc.assert(fc.property(anyDay, anyShare, (day, share) => {
      const time = timeAt(day, share);
      const before = momentAt(day.replay, time);
      const after = momentAt(day.replay, time + 0.5);
      // Luck makes the cutting quicker or slower than its mean; ten times the mean of both choppers is beyond any luck drawn here.
      const most = 10 * day.scenario.choppers.length * (160_000 / 3600) * 0.5;
      const cut = total(after.cut) - total(before.cut);
      expect(cut).toBeLessThan(most);
      expect(cut).toBeGreaterThan(-GRAIN);
      expect(inStorages(after, (s) => s.tipped) - inStorages(before, (s) => s.tipped)).toBeGreaterThan(-GRAIN);
      expect(inStorages(after, (s) => s.laid) - inStorages(before, (s) => s.laid)).toBeGreaterThan(-GRAIN);
      const undisturbed = day.scenario.shift.breaks.length === 0 && day.scenario.trucks[0]!.breakdowns === null;
      after.trucks.forEach((truck, i) => {
        const was = before.trucks[i]!;
        if (truck.trip < 0 || truck.trip !== was.trip || truck.step !== was.step) return;
        expect(truck.progress).toBeGreaterThanOrEqual(was.progress);
        if (was.stopped !== null && truck.stopped !== null) expect(truck.progress).toBeCloseTo(was.progress, 9);
        const trip = day.day.trips[truck.trip]!;
        const takes: Partial<Record<typeof truck.step, number>> = {
          "loaded-road": trip.atLane - trip.filled, weighing: trip.weighed - trip.weighFrom, tipping: trip.tipped - trip.tipFrom, "empty-road": trip.back - trip.tipped,
        };
        const whole = takes[truck.step];
        if (undisturbed && whole !== undefined) expect(truck.progress - was.progress).toBeCloseTo(0.5 / whole, 6);
      });
    }), RUNS);
  });

  it("is the same whether one plays up to it, jumps to it, or comes back to it", () => {
    fc.assert(fc.property(anyDay, fc.array(anyShare, { minLength: 2, maxLength: 12 }), (day, shares) => {
      const times = shares.map((share) => timeAt(day, share));
      const jumped = times.map((time) => momentAt(replayOf(day.day, day.scenario.shift.breaks), time));
      const played = new Map([...times].sort((a, b) => a - b).map((time) => [time, momentAt(day.replay, time)]));
      times.forEach((time, i) => expect(jumped[i]).toEqual(played.get(time)));
    }), RUNS);
  });

  it("puts every truck and machine where the list of state changes has it", () => {
    fc.assert(fc.property(anyDay, anyShare, (day, share) => {
      const time = timeAt(day, share);
      const { time: times, machine, state } = day.day.states!;
      const resting = day.scenario.shift.breaks.some((pause) => pause.at <= time && time < pause.at + pause.for);
      const moment = momentAt(day.replay, time);
      for (const truck of moment.trucks) {
        let last = "";
        times.forEach((t, i) => { if (t <= time && machine[i] === truck.machine) last = state[i]!; });
        if (time > day.day.machines[truck.machine]!.until) expect(truck.step).toBe("parked");
        else if (resting) expect(truck.stopped).toBe("break");
        else if (last === "broken") expect(truck.stopped).toBe("broken");
        else expect(ALSO[last] ?? [last]).toContain(truck.step);
      }
    }), RUNS);
  });

  it("shows the line at a storage in the order in which the trucks came", () => {
    fc.assert(fc.property(anyDay, anyShare, (day, share) => {
      const moment = momentAt(day.replay, timeAt(day, share));
      for (const { line } of moment.storages) {
        const waiting = line.map((i) => moment.trucks[i]!);
        const placed = waiting.filter(({ step }) => step === "room-wait");
        expect(waiting.slice(0, placed.length)).toEqual(placed);
        const came = waiting.slice(placed.length).map(({ trip }) => day.day.trips[trip]!.atStorage);
        expect(came).toEqual([...came].sort((a, b) => a - b));
      }
    }), RUNS);
  });
});

describe("the first load of the worked day, reckoned by hand", () => {
  // 160 t/h = 44.4 kg/s; a row of 420 m gives 6 x 420 x 4.5 = 11,340 kg in 255.15 s, then a turn of 25 s, then 4,660 kg more in 104.85 s.
  const day = rehearsal(plan({ trucks: [trucks(2)] }));
  const first = (seconds: number) => momentAt(day.replay, SEVEN + seconds).trucks[0]!;
  const FULL = 255.15 + 25 + 104.85;
  const ROAD = 2400 / (28 / 3.6);

  it("has 8 t in the truck after three minutes", () => {
    expect(first(180).step).toBe("filling");
    expect(first(180).mass).toBeCloseTo(8000, 3);
  });
  it("gets nothing while the chopper turns", () => {
    expect(first(256).mass).toBeCloseTo(11_340, 3);
    expect(first(280).mass).toBeCloseTo(11_340, 3);
  });
  it("is half way at half the road's time, with its full load", () => {
    const half = first(FULL + ROAD / 2);
    expect(half.step).toBe("loaded-road");
    expect(half.progress).toBeCloseTo(0.5, 9);
    expect(half.mass).toBe(16_000);
  });
  it("is half empty at half of the tip, and the other half lies on the apron", () => {
    const moment = momentAt(day.replay, SEVEN + FULL + ROAD + 60 + 120);
    expect(moment.trucks[0]!.step).toBe("tipping");
    expect(moment.trucks[0]!.mass).toBeCloseTo(8000, 3);
    expect(moment.storages[0]!.apron).toBeCloseTo(8000, 3);
  });
  it("is half laid at half of the spreading, which takes 16 t at 220 t/h", () => {
    const tipped = SEVEN + FULL + ROAD + 60 + 240;
    const moment = momentAt(day.replay, tipped + (16 / 220) * 1800);
    expect(moment.storages[0]!.share).toBeCloseTo(0.5, 9);
    expect(moment.storages[0]!.laid).toBeCloseTo(8000, 3);
    expect(moment.storages[0]!.beingSpread).toBeCloseTo(8000, 3);
  });
});

describe("breaks", () => {
  const day = rehearsal(plan({ trucks: [trucks(3)], shift: { breaks: [{ at: 9 * HOUR, for: 1800 }] } }));

  it("stop every truck where it is and let it go on with the rest", () => {
    const before = momentAt(day.replay, 9 * HOUR);
    const during = momentAt(day.replay, 9 * HOUR + 900);
    const after = momentAt(day.replay, 9 * HOUR + 1800);
    expect(during.trucks.every(({ stopped }) => stopped === "break")).toBe(true);
    expect(during.trucks.map(({ progress }) => progress)).toEqual(before.trucks.map(({ progress }) => progress));
    after.trucks.forEach(({ step, progress }, i) => {
      expect(step).toBe(before.trucks[i]!.step);
      expect(progress).toBeCloseTo(before.trucks[i]!.progress, 9);
    });
    expect(during.cut).toEqual(before.cut);
  });
});

describe("stepping", () => {
  it("visits every change once on the way on, and the same ones on the way back", () => {
    fc.assert(fc.property(anyDay, ({ replay, day }) => {
      const changes = [...new Set(day.states!.time)].filter((time) => time > day.from);
      const visited: number[] = [];
      for (let time = nextChange(replay, day.from, 1); time < day.until; time = nextChange(replay, time, 1)) visited.push(time);
      expect(visited).toEqual(changes.filter((time) => time < day.until));
      const back: number[] = [];
      for (let time = nextChange(replay, visited.at(-1)! + 1, -1); time > day.from; time = nextChange(replay, time, -1)) back.push(time);
      expect(back).toEqual([...visited].reverse());
    }), { numRuns: runs(10, 100) });
  });

  it("refuses a day that was run without its list of state changes", () => {
    expect(() => replayOf(rehearseDay(plan()), [])).toThrow(/state changes/);
  });
});
