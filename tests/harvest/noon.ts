/** Days taken up in the middle: the state that a day's own log tells at a time, and any state at all for properties. */
import fc from "fast-check";
import { dryDensityOf, heaviestFirst, packingEffort } from "../../sim/forage/packing.ts";
import type { Day } from "../../sim/harvest/daylog.ts";
import { layerSeen, plannedDepth, usualLoad } from "../../sim/harvest/pace.ts";
import { MORNING, type DayStart, type PastLift } from "../../sim/harvest/start.ts";
import type { Scenario } from "../../sim/scenario/types.ts";

/**
 * What a crew could tell of this day at that time: what is tipped, lies packed, lies on the apron and is on the road. Nobody tells where an
 * empty truck is, what lies in the one under the spout (its crop counts as standing) or how far the open lift is: it counts as not rolled.
 */
export function stateAt(scenario: Scenario, day: Day, at: number): DayStart {
  const filled = day.trips.filter((trip) => trip.filled <= at);
  return {
    ...MORNING, at,
    fields: scenario.fields.map((_, f) => ({ taken: filled.reduce((sum, trip) => sum + (trip.field === f ? trip.mass : 0), 0), left: null })),
    storages: scenario.storages.map((storage, s) => {
      const masses = storage.tractors.map(({ mass }) => mass);
      const lies = day.lifts.filter((lift) => lift.storage === s && lift.opened <= at);
      return {
        lifts: lies.map((lift): PastLift => ({
          mass: lift.mass, dryMass: lift.dryMass, layer: lift.layer,
          density: lift.closed <= at
            ? dryDensityOf(packingEffort(masses, lift.rolled, heaviestFirst(masses)), lift.mass, lift.dryMass / lift.mass, layerSeen(scenario, lift.layer), plannedDepth(scenario, s)) : 0,
        })),
        apron: day.lifts.filter((lift) => lift.storage === s && lift.opened > at && day.trips[lift.trip]!.tipped <= at).map(({ mass, dryMass }) => ({ mass, dryMass })),
      };
    }),
    onTheRoad: filled.filter((trip) => !(trip.tipped <= at)).map(({ mass, dryMass, field, storage }) => ({ mass, dryMass, field, storage })),
  };
}

/** Any state of this day that could be: some of each field taken, that much in its first storage, on its apron or on the road, and somebody away. */
export function anyStart(scenario: Scenario): fc.Arbitrary<DayStart> {
  const { start, end } = scenario.shift;
  const trucks = scenario.trucks.flatMap(({ kind, count }) => Array.from({ length: count }, (_, i) => `${kind} ${i + 1}`));
  const share = fc.constantFrom(0, 0.1, 0.5, 0.9, 1);
  const until = fc.constantFrom(null, start + (end - start) / 2, end + 600);
  return fc.record({
    at: fc.integer({ min: 0, max: 9 }).map((tenths) => start + ((end - start) * tenths) / 10),
    taken: fc.array(share, { minLength: scenario.fields.length, maxLength: scenario.fields.length }),
    onApron: share, density: fc.integer({ min: 50, max: 300 }), roads: fc.integer({ min: 0, max: 2 }),
    truckAway: fc.option(until, { nil: undefined }), chopperAway: fc.option(until, { nil: undefined }), rollerAway: fc.option(until, { nil: undefined }),
    home: fc.option(fc.constantFrom(start, (start + end) / 2), { nil: undefined }),
  }).map(({ at, taken, onApron, density, roads, truckAway, chopperAway, rollerAway, home }): DayStart => {
    const away: DayStart["away"][number][] = [];
    // The first kind is pooled and one of it stays, so that nobody waits for ever; the first blade stays too.
    const last = trucks.at(-1)!;
    if (truckAway !== undefined && trucks.length > 1) away.push({ kind: "truck", name: last, until: truckAway });
    if (chopperAway !== undefined) away.push({ kind: "chopper", name: scenario.choppers[0]!.name, until: chopperAway });
    if (rollerAway !== undefined) scenario.storages[0]!.tractors.slice(1, 2).forEach(({ name }) => away.push({ kind: "tractor", name, until: rollerAway }));
    const there = trucks.length - away.filter(({ kind }) => kind === "truck").length;
    const onTheRoad: DayStart["onTheRoad"][number][] = [];
    const storages = scenario.storages.map(() => ({ lifts: [] as PastLift[], apron: [] as { mass: number; dryMass: number }[] }));
    const fields = scenario.fields.map((field, f) => {
      const whole = field.area * field.yield * taken[f]!;
      const s = field.storages[0]!;
      const load = usualLoad(scenario, s).mass;
      let rest = whole;
      for (let i = 0; i < roads && onTheRoad.length < there && rest >= load; i++) {
        onTheRoad.push({ mass: load, dryMass: load * field.dryMatter, field: f, storage: s });
        rest -= load;
      }
      const lying = rest * onApron * 0.3;
      if (lying > 0) storages[s]!.apron.push({ mass: lying, dryMass: lying * field.dryMatter });
      if (rest - lying > 0) storages[s]!.lifts.push({ mass: rest - lying, dryMass: (rest - lying) * field.dryMatter, layer: 0.15, density });
      return { taken: whole, left: null };
    });
    return { at, fields, storages, onTheRoad, away, sentHome: home === undefined || trucks.length < 2 ? [] : [{ name: last, at: home }] };
  });
}
