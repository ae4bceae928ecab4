/** A storage that is full: cutting for it stops, or turns to the next one named; nothing is lost. */
import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { doings, machineNamed, run, sum } from "./reading.ts";
import { tiny, tinyBunker, tinyChopper, tinyField, tinyTrucks } from "./plan.ts";

/** A bunker that holds so many fresh kg at the target of 240 kg DM/m3 and 34 % dry matter: 10 x 2 m of long section, less 6 x 2 / 2 above its front slope of 1:3. */
const holding = (mass: number, over = {}) => tinyBunker({ width: (mass * 0.34) / 240 / 14, height: 2, length: 10, apron: 1e6, ...over });
const laid = (day: ReturnType<typeof run>, storage: number) => sum(day.lifts.filter((lift) => lift.storage === storage).map((lift) => lift.mass));
const fullEvents = (day: ReturnType<typeof run>) => day.events.flatMap((event) => (event.kind === "storage-full" ? [[event.storage, event.turnedTo]] : []));

describe("The only storage of a field", () => {
  it("stops the cutting when the room at planned density is spoken for; the last load is cut to what fits", () => {
    const scenario = tiny({ fields: [tinyField({ area: 30_000 })], storages: [holding(20_000)] });
    const day = run(scenario);
    expect(day.trips.map((trip) => trip.mass)).toEqual([9000, 9000, expect.closeTo(2000, 6)]);
    expect(laid(day, 0)).toBeCloseTo(20_000, 6);
    expect(day.uncut[0]).toBeCloseTo(100_000, 6);
    expect(fullEvents(day)).toEqual([[0, null]]);
    expect(machineNamed(day, "Chopper").until).toBe(day.trips[2]!.filled);
    expect(factsOf(scenario, day)).toMatchObject({ uncutForRoom: true, storages: [{ full: true }] });
  });

  it("that is just large enough is not called full before the crop is in", () => {
    const day = run(tiny({ storages: [holding(12_001)] }));
    expect(day.uncut).toEqual([0]);
    expect(fullEvents(day)).toEqual([]);
  });

  it("lets the chopper go on with a field that has another", () => {
    const day = run(tiny({
      fields: [tinyField({ area: 30_000 }), tinyField({ name: "Other", storages: [1] })], storages: [holding(18_000), tinyBunker({ name: "South bunker" })],
    }));
    expect([laid(day, 0), laid(day, 1)]).toEqual([expect.closeTo(18_000, 6), 12_000]);
    expect(day.uncut).toEqual([expect.closeTo(102_000, 6), 0]);
    expect(doings(day, "Chopper").some(([, state]) => state === "moving")).toBe(true);
  });
});

describe("A field with a second storage named", () => {
  it("turns to it, load by load, and nothing is lost", () => {
    const scenario = tiny({ fields: [tinyField({ area: 9000, storages: [0, 1] })], storages: [holding(20_000), tinyBunker({ name: "South bunker" })] });
    const day = run(scenario);
    expect(day.trips.map((trip) => [trip.storage, trip.mass])).toEqual([[0, 9000], [0, 9000], [0, expect.closeTo(2000, 6)], [1, 9000], [1, expect.closeTo(7000, 6)]]);
    expect(fullEvents(day)).toEqual([[0, 1]]);
    expect(factsOf(scenario, day).uncutForRoom).toBe(false);
  });

  it("turns to the next one that has room, and says so", () => {
    // The first field fills storage 1; the second names 0, 1, 2 in this order.
    const day = run(tiny({
      fields: [tinyField({ area: 9000, storages: [1] }), tinyField({ name: "Second", area: 9000, storages: [0, 1, 2] })],
      storages: [holding(9000), holding(9000, { name: "Middle" }), tinyBunker({ name: "Last" })],
    }));
    expect(fullEvents(day)).toEqual([[1, null], [0, 2]]);
    expect([0, 1, 2].map((s) => Math.round(laid(day, s)))).toEqual([9000, 9000, 27_000]);
  });

  it("whose storages are all full says that nothing is left to turn to", () => {
    // The first field fills storage 1 and goes on to 0; the second fills 0, whose next is 1.
    const scenario = tiny({
      fields: [tinyField({ area: 3000, storages: [1, 0] }), tinyField({ name: "Second", area: 9000, storages: [0, 1] })], storages: [holding(9000), holding(9000, { name: "Middle" })],
    });
    const day = run(scenario);
    expect(fullEvents(day)).toEqual([[1, 0], [0, null]]);
    expect(factsOf(scenario, day).uncutForRoom).toBe(true);
    expect(laid(day, 0) + laid(day, 1) + sum(day.uncut)).toBeCloseTo(48_000, 6);
  });
});

describe("Two choppers that fill one storage", () => {
  const two = (over = {}) => tiny({
    fields: [tinyField({ area: 9000 }), tinyField({ name: "Other", area: 9000, ...over })],
    choppers: [tinyChopper({ name: "A" }), tinyChopper({ name: "B" })], trucks: [tinyTrucks(1, { load: 6000, chopper: 0 }), tinyTrucks(1, { kind: "Slow", load: 6000, chopper: 1, loadedSpeed: 4 })],
    storages: [holding(18_000), tinyBunker({ name: "South bunker" })],
  });

  it("put no more into it than it holds; one that waits for a truck meanwhile sends no empty load", () => {
    const day = run(two());
    expect(laid(day, 0)).toBeCloseTo(18_000, 6);
    for (const trip of day.trips) expect(trip.mass).toBeGreaterThan(0);
    // B waits for its truck when A speaks for the last of the room: when the truck comes there is nothing to change over for.
    expect(doings(day, "B").filter(([, state]) => state === "changeover")).toEqual([]);
  });

  it("turn to the next storage when it is full, whoever filled it", () => {
    const day = run(two({ storages: [0, 1] }));
    // B waits for its truck while A fills storage 0: B's next load goes to storage 1 with the very truck that comes.
    const own = day.trips.filter((trip) => trip.chopper === 1);
    expect(own.map((trip) => trip.storage)).toEqual([0, ...own.slice(1).map(() => 1)]);
    expect(own.length).toBe(6);
    own.slice(1).forEach((trip, i) => expect(trip.arrived).toBe(own[i]!.back));
    for (const trip of own) expect(trip.fillFrom - trip.alongside).toBeLessThanOrEqual(45);
    expect(sum(day.machines.filter((machine) => machine.kind === "truck").map((machine) => machine.mass))).toBeCloseTo(laid(day, 0) + laid(day, 1), 6);
  });
});
