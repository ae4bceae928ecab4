/** How a day stands, read off the rehearsed one, and told anew: whatever the form makes of it, the engine takes. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkNow } from "../../sim/scenario/now.ts";
import { takenUp } from "../../sim/harvest/takeup.ts";
import type { Now } from "../../sim/scenario/now.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { writeLog, LOG_SCHEMA } from "../../sim/harvest/log.ts";
import { readScenario } from "../../sim/scenario/read.ts";
import { readRehearsed, type Rehearsed } from "../../viz/rehearsed.ts";
import { anHourOn, apronAt, asRehearsed, downOf, firstAsked, machinesOf, placeOf, withApron, withDelivered, withDown } from "../../viz/noon/standing.ts";

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

  it("is asked about first at a time within the shift", () => {
    const time = firstAsked(scenario);
    expect(time).toBeGreaterThan(scenario.shift.start);
    expect(time).toBeLessThan(scenario.shift.end);
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
    expect(placeOf(without, second)).toBe(0);
    expect(placeOf(without, first)).toBe(1);
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
