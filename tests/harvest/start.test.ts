/** Days that start from another state than the morning. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { packingDebt } from "../../sim/findings/debt.ts";
import { storedIn } from "../../sim/findings/stored.ts";
import { EndlessDay, rehearseDay } from "../../sim/harvest/day.ts";
import type { Day } from "../../sim/harvest/daylog.ts";
import { readLog, writeLog } from "../../sim/harvest/log.ts";
import { momentAt } from "../../sim/harvest/moment.ts";
import { cycleAtTarget, plannedDepth, usualLoad } from "../../sim/harvest/pace.ts";
import { replayOf } from "../../sim/harvest/replay.ts";
import { MORNING, type DayStart } from "../../sim/harvest/start.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { anyDay, PATIENCE, RUNS } from "./generated.ts";
import { anyStart, stateAt } from "./noon.ts";
import { chopper, field, HOUR, plan, SEVEN, tiny, tinyBlade, tinyBunker, tinyChopper, tinyField, tinyTrucks, varying } from "./plan.ts";
import { doings, each, machineNamed, sum } from "./reading.ts";

const from = (scenario: Scenario, start: Partial<DayStart>) => rehearseDay(scenario, { states: true, start: { ...MORNING, ...start } });
const load = (mass: number) => ({ mass, dryMass: mass * 0.34 });
const NOON = 12 * HOUR;

/** Nothing in a day may be of a time before it started. */
function times(day: Day): number[] {
  return [
    ...day.trips.flatMap(({ arrived, alongside, fillFrom, filled, atLane, inLane, atScale, weighFrom, weighed, atStorage, placed, tipFrom, tipped, back }) =>
      [arrived, alongside, fillFrom, filled, atLane, inLane, atScale, weighFrom, weighed, atStorage, placed, tipFrom, tipped, back]),
    ...day.lifts.flatMap(({ spreadFrom, opened, closed }) => [spreadFrom, opened, closed]),
    ...day.crew.map(({ at }) => at), ...day.events.map(({ at }) => at), ...day.machines.map((machine) => machine.from), ...day.states!.time,
  ].filter((time) => !Number.isNaN(time));
}

const dayFrom = (scenario: Scenario, start: DayStart): Day | null => {
  try {
    return rehearseDay(scenario, { states: true, start });
  } catch (error) {
    // A target that the crew left over never reaches has no end; that is told, and is no day.
    if (error instanceof EndlessDay) return null;
    throw error;
  }
};

describe("A day that starts in the morning", () => {
  it("is the same day when the morning is spelt out", () => {
    fc.assert(fc.property(anyDay(), (scenario) => {
      const spelt: DayStart = {
        ...MORNING, at: scenario.shift.start, fields: scenario.fields.map(() => ({ taken: 0, left: null })), storages: scenario.storages.map(() => ({ lifts: [], apron: [] })),
      };
      const { start, ...day } = rehearseDay(scenario, { states: true, start: spelt });
      expect(start).toBe(spelt);
      expect(day).toEqual(rehearseDay(scenario, { states: true }));
    }), RUNS);
  }, PATIENCE);
});

describe("A day that starts from any state", () => {
  const always = (holds: (scenario: Scenario, start: DayStart, day: Day) => void) => {
    let ended = 0;
    fc.assert(fc.property(anyDay().chain((scenario) => anyStart(scenario).map((start) => ({ scenario, start }))), ({ scenario, start }) => {
      const day = dayFrom(scenario, start);
      if (!day) return;
      ended++;
      holds(scenario, start, day);
    }), RUNS);
    expect(ended).toBeGreaterThan(RUNS.numRuns / 2);
  };

  it("has all that was ever cut on trucks, on the apron, being spread or in lifts, at any instant", () => {
    always((scenario, start, day) => {
      const replay = replayOf(day, scenario.shift.breaks);
      const before = sum(start.fields.map(({ taken }) => taken));
      for (let k = 0; k <= 20; k++) {
        const moment = momentAt(replay, day.from + ((day.until - day.from) * k) / 20);
        const cut = sum(moment.cut);
        const there = sum(moment.trucks.map((truck) => truck.mass)) + sum(moment.storages.map((storage) => storage.apron + storage.beingSpread + storage.laid));
        expect(Math.abs(cut - there), `cut ${cut}, found ${there}`).toBeLessThanOrEqual(1e-6 * (1 + cut));
        expect(cut).toBeGreaterThanOrEqual(before * (1 - 1e-9));
        for (const s of moment.storages) expect(Math.min(s.apron, s.beingSpread, s.laid)).toBeGreaterThan(-1e-6 * (1 + cut));
      }
    });
  }, PATIENCE);

  it("ends with every load of before and after in a lift, and the fields as bare as what was taken leaves them", () => {
    always((scenario, start, day) => {
      const before = sum(start.storages.flatMap(({ lifts, apron }) => [...lifts, ...apron]).map(({ mass }) => mass));
      expect(sum(day.lifts.map(({ mass }) => mass))).toBeCloseTo(before + sum(day.trips.map(({ mass }) => mass)), 3);
      expect(day.lifts.filter(({ trip }) => trip >= 0).map(({ trip }) => trip).sort((a, b) => a - b)).toEqual(day.trips.map((_, i) => i));
      const yields = rehearseDay(scenario);
      scenario.fields.forEach((_, f) => {
        // The whole morning day knows what today's yield comes to.
        const whole = yields.uncut[f]! + sum(yields.trips.filter((trip) => trip.field === f).map((trip) => trip.mass));
        const cutSince = sum(day.trips.filter((trip) => trip.field === f && trip.filled > day.from).map((trip) => trip.mass));
        expect(cutSince + day.uncut[f]!).toBeCloseTo(Math.max(0, whole - start.fields[f]!.taken), 2);
      });
    });
  }, PATIENCE);

  it("knows nothing of a time before, and everybody is somewhere every second of it", () => {
    always((_, start, day) => {
      expect(day.from).toBe(start.at);
      expect(Math.min(...times(day))).toBe(start.at);
      for (const machine of day.machines) expect(sum(Object.values(machine.seconds)), machine.name).toBeCloseTo(machine.until - machine.from, 6);
    });
  }, PATIENCE);

  it("is written as a log and read back with what it started from", () => {
    always((scenario, start, day) => {
      const log = writeLog({ schema: 1, scenario: { name: "", hash: "" }, plan: scenario, seed: 1, engine: "", rehearsal: 0 }, day);
      const back = readLog(log).day;
      expect(back.start!.away).toEqual(start.away);
      expect(back.lifts.map(({ trip }) => trip)).toEqual(day.lifts.map(({ trip }) => trip));
    });
  }, PATIENCE);
});

describe("A day taken up at noon", () => {
  // Two whole rows are taken of four: two are left, 12 t. One load lies on the apron.
  const scenario = tiny({ fields: [tinyField({ area: 6000 })], trucks: [tinyTrucks(2)] });
  const state: Partial<DayStart> = { at: NOON, fields: [{ taken: 12_000, left: null }], storages: [{ lifts: [{ ...load(6000), layer: 0.15, density: 200 }], apron: [load(6000)] }] };

  it("spreads at once what lies on the apron and cuts on at a row's end, without a changeover", () => {
    const day = from(scenario, state);
    // 9 t: a row of 150 s, a turn of 25 s, half a row of 75 s; then the rest by the second truck.
    expect(each(day, "fillFrom")).toEqual([0, 270]);
    expect(each(day, "filled")).toEqual([250, 345]);
    // Under bury nobody waits: 6 t at 50 kg/s.
    expect(day.lifts.map(({ trip, spreadFrom, opened }) => [trip, spreadFrom - NOON, opened - NOON])).toEqual([[-1, 0, 0], [-1, 0, 120], [0, 570, 750], [1, 665 + 85, 750 + 60]]);
    expect(day.uncut).toEqual([0]);
  });

  it("counts what lay there before in density, depth, dry matter cut and room, and not in what is delivered", () => {
    const day = from(scenario, state);
    const facts = factsOf(scenario, day);
    expect(facts.measures.delivered).toBeCloseTo(12, 9);
    expect(facts.measures.dryMatterStored).toBeCloseTo(24 * 0.34, 9);
    expect(facts.cut).toBeCloseTo(24_000 * 0.34, 6);
    expect(facts.measures.apronPeak).toBeCloseTo(9, 9);
    const { densities, depth } = storedIn(day, scenario, 0);
    expect(depth).toBe(plannedDepth(scenario, 0));
    expect(densities[0]).toBeGreaterThanOrEqual(200);
    const [closedFirst] = storedIn(from(scenario, { ...state, storages: [{ lifts: [{ ...load(3000), layer: 0.15, density: 200 }, { ...load(3000), layer: 0.15, density: 0 }], apron: [] }] }), scenario, 0).densities;
    expect(closedFirst).toBeCloseTo(200, 6);
  });

  it("owes the crew's time for the apron from the first moment", () => {
    const [start, owed] = packingDebt(from(scenario, state), scenario, 0).filter(({ debt }, i) => i === 0 || debt > 0);
    expect(start).toEqual({ time: NOON, debt: 0 });
    expect(owed!.debt).toBeCloseTo(cycleAtTarget(scenario, scenario.storages[0]!, load(6000), plannedDepth(scenario, 0)), 6);
  });

  it("lets loads on the road arrive, spread along it, and their trucks drive back", () => {
    const day = from(scenario, { ...state, onTheRoad: [{ ...load(9000), field: 0, storage: 0 }, { ...load(9000), field: 0, storage: 0 }], fields: [{ taken: 24_000, left: null }] });
    // 200 s of road: a quarter and three quarters of it lie ahead.
    expect(each(day, "tipFrom")).toEqual([50, 170]);
    expect(day.trips.length).toBe(2);
    expect(() => from(tiny(), { onTheRoad: [1, 2].map(() => ({ ...load(9000), field: 0, storage: 0 })) })).toThrow(/2 loads are on the road, but there are only 1 trucks/u);
  });

  it("goes by the share still standing where that is known, and passes over what is bare", () => {
    const two = tiny({ fields: [tinyField(), tinyField({ name: "Second" })] });
    const day = from(two, { at: NOON, fields: [{ taken: 12_000, left: 0 }, { taken: 3000, left: 0.5 }] });
    expect(day.trips.map(({ field: f, mass }) => [f, mass])).toEqual([[1, 6000]]);
    const all = from(two, { at: NOON, fields: [{ taken: 12_000, left: null }, { taken: 99_000, left: null }], storages: [{ lifts: [{ ...load(60_000), layer: 0.15, density: 240 }], apron: [] }] });
    expect(all.trips).toEqual([]);
    // What lies is rolled for the finish, and that is the day.
    expect(all.until - all.from).toBe(600);
  });

  it("at the very end of the shift cuts nothing, on any luck, and packs what is there", () => {
    const late = plan({ variation: varying({ cutting: 0.1, load: 0.037, spread: 0.2 }), packing: { whenBehind: "hold-then-bury" }, shift: { end: NOON } });
    for (let rehearsal = 0; rehearsal < 50; rehearsal++) {
      const day = rehearseDay(late, { rehearsal, start: { ...MORNING, at: NOON, storages: [{ lifts: [], apron: [load(10_000)] }], fields: [{ taken: 10_000, left: null }] } });
      expect(day.trips).toEqual([]);
      expect(day.lifts.map(({ mass }) => mass)).toEqual([10_000]);
    }
  });

  it("cuts on first in a field that was begun, whatever the order of the file", () => {
    const two = tiny({ fields: [tinyField(), tinyField({ name: "Second" })] });
    expect(from(two, { at: NOON, fields: [{ taken: 0, left: null }, { taken: 6000, left: null }] }).trips[0]!.field).toBe(1);
  });

  it("leaves no time for breaks that are over, and takes up one that is on", () => {
    const rests = (at: number) => from(tiny({ shift: { breaks: [{ at, for: 600 }] } }), { at: NOON });
    expect(each(rests(NOON - 600), "filled")[0]).toBe(250);
    expect(each(rests(NOON - 300), "filled")[0]).toBe(250 + 300);
    expect(packingDebt(rests(NOON - 600), tiny({ shift: { breaks: [{ at: NOON - 600, for: 600 }] } }), 0)[0]).toEqual({ time: NOON, debt: 0 });
  });
});

describe("A machine that is away when the day starts", () => {
  const away = (kind: "truck" | "chopper" | "tractor", name: string, until: number | null): Partial<DayStart> => ({ at: NOON, away: [{ kind, name, until }] });

  it("comes at its time: a truck is filled from then on, a chopper cuts from then on", () => {
    const late = from(tiny({ trucks: [tinyTrucks(2)] }), away("truck", "Tipper 1", NOON + 300));
    expect(late.trips.map(({ truck }) => late.machines[truck]!.name)).toEqual(["Tipper 2", "Tipper 1"]);
    expect(late.trips[1]!.arrived).toBe(NOON + 300);
    const down = from(tiny(), away("chopper", "Chopper", NOON + 900));
    expect(each(down, "fillFrom")[0]).toBe(900);
    expect(doings(down, "Chopper")[0]).toEqual([0, "broken"]);
  });

  it("stays away for the whole day without a second of it booked, and the others do its work", () => {
    const day = from(tiny({ trucks: [tinyTrucks(2)] }), away("truck", "Tipper 1", null));
    expect(machineNamed(day, "Tipper 1")).toMatchObject({ seconds: {}, until: NOON, loads: 0 });
    expect(machineNamed(day, "Tipper 2").loads).toBe(2);
    const two = tiny({ choppers: [tinyChopper(), chopper({ ...tinyChopper(), name: "Other" })], trucks: [tinyTrucks(2)] });
    const alone = from(two, away("chopper", "Chopper", null));
    expect(alone.trips.map((trip) => trip.chopper)).toEqual([1, 1]);
    expect(alone.uncut).toEqual([0]);
  });

  it("leaves a roller's rolling out until it comes, and all of it when it does not", () => {
    const rolled = (until: number | null) => from(tiny(), away("tractor", "Roller", until)).lifts.map((lift) => lift.rolled[1]!);
    expect(sum(rolled(null))).toBe(0);
    const late = rolled(NOON + 900);
    expect(late[0]).toBeLessThan(from(tiny(), { at: NOON }).lifts[0]!.rolled[1]!);
    expect(late[0]).toBeGreaterThan(0);
  });

  it("stops the spreading while the only blade is away, and has no end when it never comes", () => {
    const day = from(tiny({ packing: { whenBehind: "hold" } }), away("tractor", "Blade", NOON + 3600));
    expect(day.lifts[0]!.spreadFrom).toBe(NOON + 3600);
    expect(() => from(tiny(), away("tractor", "Blade", null))).toThrow(EndlessDay);
  });

  it("does not keep trucks that another chopper could fill, and ends a day on which no chopper comes", () => {
    const two = tiny({ fields: [tinyField(), tinyField({ name: "Second" })], choppers: [tinyChopper(), chopper({ ...tinyChopper(), name: "Other" })], trucks: [tinyTrucks(3)] });
    const day = from(two, away("chopper", "Chopper", NOON + 2 * HOUR));
    expect(day.trips.every((trip) => trip.filled > NOON + 2 * HOUR || trip.chopper === 1)).toBe(true);
    const none = from(tiny(), { ...away("chopper", "Chopper", null), storages: [{ lifts: [], apron: [load(5000)] }] });
    expect(none.trips).toEqual([]);
    expect(none.uncut).toEqual([12_000]);
    expect(none.until - NOON).toBe(100 + 600);
  });

  it("that is a truck sent home goes after the load it has at that time", () => {
    const home = (at: number) => from(tiny({ fields: [tinyField({ area: 12_000 })], trucks: [tinyTrucks(2)] }), { at: NOON, sentHome: [{ name: "Tipper 2", at }] });
    expect(machineNamed(home(NOON), "Tipper 2").loads).toBe(0);
    expect(machineNamed(home(NOON + 1), "Tipper 2").loads).toBe(1);
    expect(machineNamed(home(NOON + 1), "Tipper 2").until).toBe(home(NOON + 1).trips.find(({ truck }) => truck === machineNamed(home(NOON), "Tipper 2").id)!.tipped);
  });
});

describe("A noon state read off a day's own log and rehearsed on", () => {
  /*
   * What the state does not tell can move the end by this much: the crop in the truck under the spout is cut once more (a fill), empty trucks
   * stand at the chopper instead of somewhere on their round and loads are spread along the road (a round), and the open lift is rolled
   * anew (a cycle at target). Tonnes differ by what is cut in that time when the shift ends first, and not at all when the crop is got in.
   */
  const within = (scenario: Scenario) => {
    const whole = rehearseDay(scenario);
    const rest = rehearseDay(scenario, { start: stateAt(scenario, whole, NOON) });
    const rounds = whole.trips.filter((trip) => !Number.isNaN(trip.back));
    const fill = Math.max(...whole.trips.map((trip) => trip.filled - trip.alongside));
    const round = Math.max(...rounds.map((trip) => trip.back - trip.arrived));
    const cycle = cycleAtTarget(scenario, scenario.storages[0]!, usualLoad(scenario, 0), plannedDepth(scenario, 0));
    const end = (day: Day) => Math.max(...day.lifts.map((lift) => lift.closed));
    const tonnes = (day: Day) => sum(day.lifts.map((lift) => lift.mass));
    return { whole, rest, error: fill + round + cycle, late: Math.abs(end(whole) - end(rest)), short: Math.abs(tonnes(whole) - tonnes(rest)) };
  };

  for (const whenBehind of ["hold", "bury", "hold-then-bury", "ease"] as const) {
    it(`ends as the whole day under ${whenBehind} to a fill, a round and a cycle, with the same tonnes but what is cut in that time`, () => {
      const { whole, rest, error, late, short } = within(plan({ packing: { whenBehind } }));
      expect(late).toBeLessThanOrEqual(error);
      const pace = sum(whole.trips.map(({ mass }) => mass)) / (whole.trips.at(-1)!.filled - whole.from);
      expect(short).toBeLessThanOrEqual(rest.uncut[0] === 0 && whole.uncut[0] === 0 ? 1e-3 : pace * error);
    });
  }

  it("does so with several fields and a lane, and the whole crop in", () => {
    const { late, error, short } = within(plan({
      fields: [field({ area: 150_000 }), field({ name: "Far", area: 150_000, distance: 5000 })], lane: { length: 300, speed: 6, meeting: 20 },
      storages: [tinyBunker({ apron: 60_000, tractors: [tinyBlade({ spreads: 61 })] })], shift: { start: SEVEN, end: 22 * HOUR },
    }));
    expect(late).toBeLessThanOrEqual(error);
    expect(short).toBeLessThan(1e-3);
  });
});
