/** How a day stands, read off the rehearsed one, and told anew: whatever the form makes of it, the engine takes. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkNow } from "../../sim/scenario/now.ts";
import { takenUp } from "../../sim/harvest/takeup.ts";
import { momentAt } from "../../sim/harvest/moment.ts";
import { replayOf } from "../../sim/harvest/replay.ts";
import type { Now } from "../../sim/scenario/now.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { writeLog, LOG_SCHEMA } from "../../sim/harvest/log.ts";
import { readScenario } from "../../sim/scenario/read.ts";
import type { Document } from "../../viz/document.ts";
import { layGround } from "../../viz/ground.ts";
import { placeAll } from "../../viz/places.ts";
import { readRehearsed, type Rehearsed } from "../../viz/rehearsed.ts";
import { anHourOn, apronAt, apronPlace, asRehearsed, downOf, firstAsked, hasLine, machinesOf, fieldPlace, withApron, withDelivered, withDown } from "../../viz/noon/standing.ts";

function storyOf(id: string): Rehearsed {
  const read = readScenario(readFileSync(new URL(`../../scenarios/${id}.yaml`, import.meta.url), "utf8"));
  if ("problems" in read) throw new Error(id);
  const { day, rehearsal } = rehearse(read.scenario, { rehearsals: 1 });
  return readRehearsed(writeLog({ schema: LOG_SCHEMA, scenario: { name: id, hash: "" }, plan: read.scenario, seed: 1, engine: "", rehearsal }, day));
}

const EXAMPLES = ["low-meadow", "two-choppers-one-clamp", "haylage-drying", "us-corn-150-acres"].map((id) => [id, storyOf(id)] as const);

function sound(standing: unknown, { scenario }: Rehearsed): Now {
  const checked = checkNow(standing, scenario);
  if ("problems" in checked) throw new Error(JSON.stringify(checked.problems));
  return checked.now;
}

describe.each(EXAMPLES)("How %s stood as it was rehearsed", (_id, story) => {
  const { scenario, replay: { day } } = story;

  it("is sound at any time of the shift, in either system of units, and is what had been tipped by then", () => {
    fc.assert(fc.property(fc.integer({ min: scenario.shift.start, max: Math.min(scenario.shift.end, Math.floor(day.until)) }), fc.constantFrom("metric" as const, "us" as const), (minute, system) => {
      const time = Math.floor(minute / 60) * 60;
      const now = sound(asRehearsed(story, time, system), story);
      const tipped = day.trips.filter((trip) => trip.tipped <= time).reduce((sum, trip) => sum + trip.mass, 0);
      // Each field is told to the tonne.
      expect(Math.abs(now.delivered.reduce((sum, { mass }) => sum + mass!, 0) - tipped)).toBeLessThanOrEqual(501 * scenario.fields.length);
      expect(now.onTheRoad).toBe(day.trips.filter((trip) => trip.filled <= time && trip.tipped > time).length);
      expect(takenUp(scenario, now).at).toBe(time);
    }), { numRuns: 60 });
  });

  it("is asked about first while there is something to tell: at noon, or halfway through a harvest without a noon", () => {
    const time = firstAsked(story);
    const filled = day.trips.map((trip) => trip.filled);
    expect(time).toBeGreaterThan(Math.min(...filled));
    expect(time).toBeLessThan(Math.max(...filled));
    if (Math.min(...filled) < 12 * 3600 && Math.max(...filled) > 12 * 3600) expect(time).toBe(12 * 3600);
  });
});

describe("The rest of a day, drawn", () => {
  const morning = EXAMPLES[0]![1];
  const { scenario } = morning;
  const { day } = rehearse(scenario, { rehearsals: 1, start: takenUp(scenario, sound({ at: "10:00", delivered: [{ field: "Long Strip", mass: "200 t", cut: "55 %" }], onTheRoad: 3 }, morning)) });
  const replay = replayOf(day, scenario.shift.breaks);
  const placesAt = (time: number) => {
    const moment = momentAt(replay, time);
    return placeAll(day, scenario, moment, layGround(1280, 1, 1, moment.trucks.length));
  };

  it("begins with as much of the field cut as was told, and ends with all of it", () => {
    expect(placesAt(day.from).fields[0]!.share).toBeCloseTo(0.55, 6);
    expect(placesAt(day.until).fields[0]!.share).toBeCloseTo(1, 6);
  });

  it("has the loads that were on the road spread along it, and each comes nearer from then on", () => {
    const loads = day.trips.slice(0, 3);
    expect(loads.every(({ filled }) => filled === day.from)).toBe(true);
    const xOf = (time: number) => loads.map(({ truck }) => placesAt(time).trucks.find((place) => day.machines[momentAt(replay, time).trucks[place.truck]!.machine] === day.machines[truck])!.x);
    const [first, second, third] = xOf(day.from) as [number, number, number];
    // The k-th of three has (k + 1/2) / 3 of the way ahead of it.
    expect(first - second).toBeCloseTo(second - third, 6);
    expect(first).toBeGreaterThan(second);
    const later = xOf(day.from + 20);
    [first, second, third].forEach((x, i) => expect(later[i]).toBeGreaterThan(x));
  });
});

describe("What a crew tells", () => {
  const story = EXAMPLES[1]![1];
  const { scenario } = story;
  const noon = asRehearsed(story, 12 * 3600, "metric");

  it("puts a field in, changes it, and takes it out, without touching the others", () => {
    const [first, second] = scenario.fields.map(({ name }) => name) as [string, string];
    const changed = withDelivered(noon, first, "123 t");
    expect(sound(changed, story).delivered.find(({ field }) => field === 0)!.mass).toBe(123_000);
    const without = withDelivered(changed, first, null);
    expect(sound(without, story).delivered.map(({ field }) => field)).toEqual([1]);
    expect(fieldPlace(without, second)).toBe(0);
    expect(fieldPlace(without, first)).toBe(1);
    expect(withDelivered(without, first, "5 t").delivered).toContainEqual({ field: first, mass: "5 t" });
    // The share that was told with another mass goes with it.
    expect(withDelivered({ ...noon, delivered: [{ field: first, mass: "9 t", cut: "60 %" }] }, first, "10 t").delivered).toEqual([{ field: first, mass: "10 t" }]);
  });

  it("names the apron of each of several storages, and of the only one without its name", () => {
    const changed = withApron(noon, scenario, scenario.storages[0]!.name, "8 t");
    expect(apronAt(changed, scenario.storages[0]!.name)).toBe("8 t");
    const two = { ...scenario, storages: [scenario.storages[0]!, { ...scenario.storages[0]!, name: "Other" }] };
    const both = withApron(withApron({ at: "12:00" }, two, "Other", "8 t"), two, scenario.storages[0]!.name, "3 t");
    expect([apronAt(both, "Other"), apronAt(both, scenario.storages[0]!.name)]).toEqual(["8 t", "3 t"]);
  });

  it("is told of its mistakes at the line that they are about, and where the form has no such line they are left for its head", () => {
    const { choppers: [chopper], storages: [storage] } = scenario;
    const two = { ...scenario, storages: [storage!, { ...storage!, name: "Other" }] };
    const wrong = (standing: Document, plan = scenario) => {
      const checked = checkNow(standing, plan);
      if ("now" in checked) throw new Error("sound");
      return checked.problems.map(({ pointer }) => hasLine(`/from${pointer}`, standing, plan));
    };
    expect(wrong({ ...noon, at: "03:00" })).toEqual([true]);
    expect(wrong({ ...noon, onTheRoad: 99 })).toEqual([true]);
    expect(wrong({ ...noon, apron: "9000 t" })).toEqual([true]);
    expect(wrong(withDelivered(noon, scenario.fields[0]!.name, "9000 t"))).toEqual([true]);
    expect(wrong(withDown(noon, [{ name: chopper!.name, until: "02:00" }]))).toEqual([true]);
    expect(wrong({ ...noon, apron: [{ storage: "Other", mass: "many" }] }, two)).toEqual([true]);
    expect(apronPlace({ ...noon, apron: [{ storage: "Other", mass: "1 t" }] }, storage!.name)).toBe(1);
    // Nobody is left to spread; a field and a key that nobody knows; an apron without its name where there are two.
    expect(wrong(withDown(noon, storage!.tractors.map(({ name }) => ({ name, until: null }))))).toEqual([false]);
    expect(wrong({ ...noon, delivered: [{ field: "Nowhere", mass: "1 t" }] })).toEqual([false]);
    expect(wrong({ ...noon, weather: "fair" })).toEqual([false]);
    expect(wrong({ ...noon, apron: "1 t" }, two)).toEqual([false]);
  });

  it("puts every machine of the plan down and up again, until a time after now or for good", () => {
    for (const name of machinesOf(scenario)) {
      const until = anHourOn(noon);
      for (const down of [{ name, until }, { name, until: null }]) {
        const told = withDown(noon, [down]);
        expect(downOf(told)).toEqual([down]);
        const checked = checkNow(told, scenario);
        // The last blade may not stay away: then nobody spreads.
        if ("problems" in checked) expect(checked.problems[0]!.detail).toContain("nobody to spread");
        else expect(checked.now.away).toMatchObject([{ name }]);
        expect(withDown(told, [])).toEqual(noon);
      }
    }
    expect(anHourOn({ at: "23:50" })).toBe("23:59");
  });
});
